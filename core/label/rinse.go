package label

import (
	"slices"

	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// rinseRow is one row of data/rinsing.csv; tenths are tenths of a percent.
type rinseRow struct {
	food      string
	treatment string
	nutrient  Nutrient
	tenths    int
	study     string
	source    string
	origin    rule.Origin
}

// A Treatment is what is done to a canned food before it is eaten, or a choice
// of one packing for another.
type Treatment string

// The treatments of data/rinsing.csv.
const (
	Draining      Treatment = "drained"
	Rinsing       Treatment = "rinsed" // drained and rinsed
	FreshWater    Treatment = "fresh-water"
	LightForHeavy Treatment = "light-for-heavy" // fruit in light syrup in place of heavy
	JuiceForHeavy Treatment = "juice-for-heavy"
	WaterForHeavy Treatment = "water-for-heavy"
)

// A Removal is how much of a nutrient a treatment takes out of what is eaten.
type Removal struct {
	Food      string // key in data/rinsing.csv: "beans", "peaches"
	Treatment Treatment
	Nutrient  Nutrient
	Percent   amount.Amount // of the amount without the treatment; never under 0
	Studies   []string      // keys of the studies: "usda-2011"
	Sources   []string
	Origin    rule.Origin // the weakest of its rows
	Weak      bool        // one of the rows has no named study
}

// RinsedFoods lists the foods that the table has something on, sorted.
func RinsedFoods() []string {
	var foods []string
	for i := range rinseRows {
		if f := rinseRows[i].food; !slices.Contains(foods, f) {
			foods = append(foods, f)
		}
	}
	slices.Sort(foods)
	return foods
}

// TakenOut tells what a treatment takes out of a food, as the range of the
// published figures. The best guess is the largest study's: of the rows, the
// first published one. ok is false where nobody measured it.
func TakenOut(food string, t Treatment, n Nutrient) (r Removal, ok bool) {
	r = Removal{Food: food, Treatment: t, Nutrient: n}
	for i := range rinseRows {
		row := &rinseRows[i]
		if row.food != food || row.treatment != string(t) || row.nutrient != n {
			continue
		}
		p := amount.Frac(int64(row.tenths), 10).Max(amount.Num{})
		switch {
		case !ok:
			r.Percent = amount.Exactly(p)
		default:
			r.Percent.Low, r.Percent.High = r.Percent.Low.Min(p), r.Percent.High.Max(p)
		}
		ok = true
		if row.origin != rule.Published {
			r.Origin, r.Weak = max(r.Origin, row.origin), true
		}
		if !slices.Contains(r.Studies, row.study) {
			r.Studies = append(r.Studies, row.study)
		}
		r.Sources = append(r.Sources, row.source)
	}
	return r, ok
}

// Left applies the removal to an amount of the nutrient and shows the working:
// what stays, from the least to the most.
func (r Removal) Left(a amount.Amount) (amount.Amount, rule.Step) {
	hundred := amount.Int(100)
	part := func(p amount.Num) amount.Num { return hundred.Sub(p).Quo(hundred) }
	left := amount.Between(a.Low.Mul(part(r.Percent.High)), a.Best.Mul(part(r.Percent.Best)), a.High.Mul(part(r.Percent.Low)))
	id := "label.rinse"
	switch {
	case r.Percent.High.Sign() == 0:
		id = "label.rinse-none"
	case r.Weak:
		id = "label.rinse-weak"
	}
	food := say.Term{Kind: "rinse-food", ID: r.Food, Text: r.Food}
	treatment := say.Term{Kind: "rinse", ID: string(r.Treatment), Text: string(r.Treatment)}
	return left, rule.Step{Rule: rule.Rinsing, Line: say.New(id, treatment, food, wholeRound(r.Percent), r.Nutrient.Term(), r.StudyTerm())}
}

// StudyTerm names the study, the first where there are several.
func (r Removal) StudyTerm() say.Term {
	if len(r.Studies) == 0 {
		return say.Term{}
	}
	return say.Term{Kind: "study", ID: r.Studies[0], Text: r.Studies[0]}
}
