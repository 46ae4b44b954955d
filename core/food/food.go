// Package food is the catalogue: what foods are called, in which forms they
// come, what a cup and a piece of them weigh, and to which group they belong.
// What an amount of them counts as is not here: that depends on the edition of
// the guidelines, and is package guide's.
package food

import (
	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// A Group is a food group. The zero value is Extra: it counts nowhere.
type Group uint8

// The food groups. Mixed foods have parts in several.
const (
	Extra Group = iota
	Fruit
	Vegetable
	Grain
	Protein
	Dairy
	Oil
	Mixed
)

// A Subgroup is a part of a group that patterns count on its own. The zero
// value is NoSubgroup.
type Subgroup uint8

const (
	NoSubgroup Subgroup = iota
	WholeFruit
	JuiceFruit
	DarkGreen
	RedOrange
	Legume // beans, peas, lentils
	Starchy
	OtherVegetable
	WholeGrain
	RefinedGrain
	Animal // meat, poultry, eggs
	Seafood
	Plant // nuts, seeds, soy
	Milk
	Yogurt
	Cheese
	SoyDairy // fortified soy drink and yogurt
)

// A Colour is the colour of the edible part.
type Colour uint8

const (
	NoColour Colour = iota
	Red
	OrangeYellow
	Green
	BluePurple
	WhiteTan
)

// A Form is how a food is sold or eaten.
type Form uint8

const (
	NoForm Form = iota
	Fresh
	Frozen
	Canned
	CannedWater
	CannedJuice
	CannedLight
	CannedHeavy
	Dried
	Juice
	Cooked
	Dry   // uncooked grains, beans, powder
	Raw   // uncooked meat and fish
	Ready // as bought: bread, cheese, yogurt, dishes
)

// A Class is how a food form is counted; package guide says, by edition, what
// one of it is. Classes are the keys of guide's crediting table.
type Class string

// A Food is one thing with a name. IDs are stable: day files hold them.
type Food struct {
	ID       string
	Name     string
	Also     []string // other names people use
	Group    Group
	Subgroup Subgroup
	Colour   Colour
	Calcium  bool     // a calcium source outside the dairy group
	Cautions []string // ids in package guide
	Source   string
	Origin   rule.Origin
	Forms    []Detail
}

// A Detail is one form of a food. Weights are grams, as eaten, of edible food.
// An amount that is not known is zero, and Known on it is false.
type Detail struct {
	Form    Form
	Class   Class
	EqCup   amount.Num    // equivalents in one measured cup, where not the class's own; 0: the class's
	Eq100g  amount.Num    // equivalents in 100 g, for foods counted by weight from the database; 0: none
	GramCup amount.Amount // one measured cup, drained where it is packed in liquid
	GramAs  amount.Num    // one label cup as packed, with its liquid
	Drained amount.Amount // share of the net weight that stays when drained, 0..1
	Cooked  amount.Num    // share of this form's weight after cooking (raw meat, dry grains and beans), e.g. 3/4
	Edible  amount.Num    // edible share of the weight as purchased, 0..1
	Pieces  []Piece
	Parts   []Part // of mixed dishes
	Source  string
	Origin  rule.Origin
	Note    string
}

// A Piece is a size in which a food comes: small, a slice, an egg.
type Piece struct {
	ID     string        // "small", "slice"
	Size   string        // how big, in words: "about 2½ in across"
	Grams  amount.Num    // edible grams of one; 0 when not known
	Count  amount.Num    // Eq is for this many
	Eq     amount.Amount // what Count pieces count as where a table says so; 0 when none does
	Source string
	Origin rule.Origin
}

// A Part is one food group inside a mixed dish.
type Part struct {
	Group    Group
	Subgroup Subgroup
	Class    Class      // how it is counted in other editions; may be empty
	Eq100g   amount.Num // equivalents in 100 g of the dish
	Source   string
	Origin   rule.Origin
}

// Term is the food's name as a term that a language may translate.
func (f Food) Term() say.Term { return say.Term{Kind: "food", ID: f.ID, Text: f.Name} }

// In finds the detail of a form.
func (f Food) In(form Form) (Detail, bool) {
	for _, d := range f.Forms {
		if d.Form == form {
			return d, true
		}
	}
	return Detail{}, false
}

// Piece finds a piece by its key.
func (d Detail) Piece(id string) (Piece, bool) {
	for _, p := range d.Pieces {
		if p.ID == id {
			return p, true
		}
	}
	return Piece{}, false
}
