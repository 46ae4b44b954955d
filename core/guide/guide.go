// Package guide holds what the guidelines say: for each edition what one cup,
// ounce or serving of a class of food is, the target sets, the calorie table,
// the hand measures and the cautions. All of it is tables with sources
// (data/*.csv), packed into literals by core/tables.
package guide

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/rule"
)

// An EditionID names an edition of the guidelines: whose equivalents a portion
// is counted in.
type EditionID string

const (
	DGA2020 EditionID = "dga-2020" // Dietary Guidelines for Americans 2020-2025
	DGA2025 EditionID = "dga-2025" // Dietary Guidelines for Americans 2025-2030
)

// A Unit is what a group is counted in.
type Unit uint8

const (
	CupEq   Unit = iota // cup equivalents
	OzEq                // ounce equivalents
	Serving             // servings of the 2025-2030 edition
	GramOil             // grams of oil
)

// ID is the unit's key in tables and day files: "cup-eq", "oz-eq", "serving",
// "g-oil".
func (u Unit) ID() string { return [...]string{"cup-eq", "oz-eq", "serving", "g-oil"}[u] }

// A Basis is what a credit factor is per.
type Basis uint8

const (
	PerCup   Basis = iota // a measured cup, as eaten
	PerOunce              // an ounce of weight (28.35 g), as eaten
	Per100g               // 100 g as eaten, with the food's own Eq100g as factor
	PerPiece              // one piece: an egg
)

// A One says what one of a class is in an edition: Factor equivalents of Unit
// in each Basis. A class may have several, one a group (beans have two); a
// class without any counts nowhere in that edition.
type One struct {
	Edition EditionID
	Class   food.Class
	Group   food.Group
	Per     Basis
	Factor  amount.Num
	Unit    Unit
	Rule    rule.ID
}

// A Target is how much of a group, or of a part of it, a set asks for.
type Target struct {
	Group    food.Group
	Subgroup food.Subgroup // NoSubgroup: the whole group
	Low      amount.Num    // at least; 0 where only a limit is set
	High     amount.Num    // at most; 0 where no upper end is published
	Unit     Unit
	Weekly   bool // per week instead of per day
	Origin   rule.Origin
}

// A Set is a target set: a published table's column, or a class's or
// programme's own numbers.
type Set struct {
	ID      string // "class", "us-2000", "veg-1600", "med-2000", "toddler-1000", "dga2025-2000"
	Edition EditionID
	Pattern string // key of the pattern's name: "class", "us", "vegetarian", "mediterranean", "toddler", ...
	Level   int    // kcal a day; 0 where the set has none
	Source  string
	Origin  rule.Origin
	Targets []Target
}

// A Hand is a hand measure with the range that it stands for.
type Hand struct {
	ID     string          // "fist", "cupped", "palm", "thumb", "thumb-tip", ...
	Holds  amount.Quantity // cups, spoons or ounces of weight
	Source string
	Origin rule.Origin
}

// A Counted is an amount of equivalents: an argument for a say.Line.
type Counted struct {
	Amount amount.Amount
	Unit   Unit
}
