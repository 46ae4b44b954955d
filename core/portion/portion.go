// Package portion turns one thing that somebody measured into what it counts
// as, with the working. A portion keeps the texts as a person typed them; they
// are read anew each time, so a stored day passes the same checks as a typed
// one.
package portion

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// A Way is how a portion was measured.
type Way string

// The ways to measure.
const (
	ByLabel  Way = "label"  // from a Nutrition Facts label
	ByCup    Way = "cup"    // with a cup or spoon
	ByHand   Way = "hand"   // fist, palm, ...
	ByPiece  Way = "piece"  // small, medium, a slice, an egg
	ByWeight Way = "weight" // on a scale, or as the shop weighed it
)

// Liquid says what was done with the liquid of a packed food.
type Liquid string

const (
	// LiquidUnsaid is not asked or not answered: as the label counts, but for
	// fish and meat, whose oil or water is never the food: those are drained.
	LiquidUnsaid Liquid = ""
	WithLiquid   Liquid = "with"    // eaten with its liquid: as the label counts
	Drained      Liquid = "drained" // poured off
)

// Side says where beans, peas and lentils count.
type Side string

const (
	SideAuto      Side = ""          // where the day comes out best
	SideVegetable Side = "vegetable" // as vegetables
	SideProtein   Side = "protein"   // as protein foods
)

// A Portion is one thing somebody measured. The json names are the day file's.
type Portion struct {
	ID      string       `json:"id"`
	Food    string       `json:"food,omitempty"`   // catalogue id; empty with Custom
	Custom  *food.Custom `json:"custom,omitempty"` // a food that the catalogue lacks
	Form    string       `json:"form"`             // key of a food.Form
	Measure Measure      `json:"measure"`
	Liquid  Liquid       `json:"liquid,omitempty"`
	Side    Side         `json:"side,omitempty"`
	Note    string       `json:"note,omitempty"` // the person's own words, at most MaxNote
}

// MaxNote is the longest note, in characters.
const MaxNote = 200

// A Measure is how much of it there was, in the texts that were typed. Which
// fields are read depends on By.
type Measure struct {
	By     Way    `json:"by"`
	Amount string `json:"amount,omitempty"` // cup: "1/2", "3 tbsp" · hand, piece: how many · weight: "6 oz"
	Unit   string `json:"unit,omitempty"`   // key of the amount.Unit picked beside the field; a unit typed in Amount wins
	Hand   string `json:"hand,omitempty"`   // key of a guide.Hand
	Piece  string `json:"piece,omitempty"`  // key of a food.Piece
	Bought bool   `json:"bought,omitempty"` // weight: as purchased, with peel, bone or core

	Servings string `json:"servings,omitempty"` // label: servings per container
	Size     string `json:"size,omitempty"`     // label: serving size as printed
	Net      string `json:"net,omitempty"`      // label: net weight, if typed
	Eaten    string `json:"eaten,omitempty"`    // label: how much of it; empty is the whole package
	EatenBy  string `json:"eatenBy,omitempty"`  // "" or "package": a share or number of packages · "servings"
}

// A Credit is what a portion counts as in one group.
type Credit struct {
	Group    food.Group
	Subgroup food.Subgroup
	Amount   amount.Amount
	Unit     guide.Unit
	Juice    bool    // it counts under the cap on juice
	Alt      *Credit // beans: what the same food counts as on the protein side instead; else nil
}

// A Result is a portion read and counted.
type Result struct {
	Food     food.Food
	Detail   food.Detail
	Cups     amount.Amount // measured cups as eaten; see HasCups
	Grams    amount.Amount // grams as eaten; see HasGrams
	HasCups  bool
	HasGrams bool
	Credits  []Credit        // one a group; empty: it counts nowhere
	Steps    []rule.Step     // the working, one line a step
	Notes    []say.Line      // slips, doubts and contradictions to show beside the answer
	Cautions []guide.Caution // where this food can hurt someone
}

// Hands are a person's own measured hands, by hand id; nil is nobody's.
type Hands map[string]guide.Hand

// Some is a number of pieces or hands, an argument for a say.Line: "2 slices",
// "1 fist". Kind is "piece" or "hand".
type Some struct {
	N    amount.Amount
	Kind string
	ID   string
}
