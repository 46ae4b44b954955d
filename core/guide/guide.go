package guide

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// An EditionID names an edition of the guidelines: whose equivalents a portion
// is counted in.
type EditionID string

const (
	DGA2020 EditionID = "dga-2020" // Dietary Guidelines for Americans 2020-2025
	DGA2025 EditionID = "dga-2025" // Dietary Guidelines for Americans 2025-2030
	// School is school-meal crediting, 7 CFR 210.10. Its rows are not complete,
	// so [Editions] leaves it out.
	School EditionID = "school"
)

// Term is the edition's name for people.
func (e EditionID) Term() say.Term { return say.Term{Kind: "edition", ID: string(e)} }

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
	Per100g               // 100 g as eaten: the food's own Eq100g times Factor
	PerPiece              // one piece: an egg
)

// A One says what one of a class is in an edition: Factor equivalents of Unit
// in each Basis. A class may have several, one a group (beans have two); a
// class without any counts nowhere in that edition.
type One struct {
	Edition  EditionID
	Class    food.Class
	Group    food.Group
	Subgroup food.Subgroup // it holds for foods of this subgroup alone; NoSubgroup: for all
	Per      Basis
	Factor   amount.Num
	Unit     Unit
	// Cooked says that the factor is for the food after cooking: the form's
	// weight is first multiplied by its Cooked share (raw meat, dry beans).
	Cooked bool
	Rule   rule.ID
	Source string
	Origin rule.Origin
}

// A Target is how much of a group, or of a part of it, a set asks for.
type Target struct {
	Group    food.Group
	Subgroup food.Subgroup // NoSubgroup: the whole group
	// Part is the key of a part of the subgroup that a table sets on its own:
	// "meat-poultry", "eggs", "nuts-seeds", "soy"; "" is the whole subgroup. The
	// catalogue doesn't tell these apart, so they are shown and not checked.
	Part   string
	Low    amount.Num // at least; 0 where only a limit is set
	High   amount.Num // at most; 0 where no upper end is published
	Unit   Unit
	Weekly bool // per week instead of per day
	Origin rule.Origin
}

// A Set is a target set: a published table's column, or a class's or
// programme's own numbers.
type Set struct {
	ID      string // "class", "us-2000", "veg-1600", "med-2000", "toddler-1000", "toddler-veg-700", "dga2025-2000"
	Edition EditionID
	Pattern string // key of the pattern's name: "class", "us", "vegetarian", "mediterranean", "toddler", "toddler-vegetarian", "dga2025", "own"
	Level   int    // kcal a day; 0 where the set has none
	// AgeFrom and AgeTo are the years of age that the table is for; AgeTo 0 is
	// no upper end, and both 0 that it names none.
	AgeFrom, AgeTo int
	byAge          bool // a note of the table changed it for these ages
	// OtherKcal and OtherPercent are the table's limit on calories for other
	// uses, in kcal a day and as a share of the level; 0 where it has none.
	OtherKcal, OtherPercent int
	Name                    string // as a programme calls its own set; "" for the published ones
	Source                  string
	Origin                  rule.Origin // the least sure of the daily targets
	Targets                 []Target
}

// A Hand is a hand measure with the range that it stands for.
type Hand struct {
	ID     string          // "fist", "cupped", "palm", "thumb", "thumb-tip", ...
	Holds  amount.Quantity // cups, spoons or ounces of weight
	Own    bool            // measured by the person, see [OwnHand]
	Rule   rule.ID
	Source string
	Origin rule.Origin
}

// Term is the hand measure's name for people.
func (h Hand) Term() say.Term { return say.Term{Kind: "hand", ID: h.ID} }

// A Counted is an amount of equivalents: an argument for a say.Line.
type Counted struct {
	Amount amount.Amount
	Unit   Unit
}
