package second_test

import (
	"math/big"
	"testing"

	"cupsum/core/portion"
)

// onceDifferent are portions that package portion once counted otherwise than
// the rule texts and tables say: this implementation found them, and they stay
// to be looked at by name.
var onceDifferent = []struct {
	why    string
	sample made
}{
	{"a label's volume of dry beans is weighed by the label's cup", labelOf("lupini-beans", "dry", 0, frac(1, 4), "cup")},
	{"juice in a dish counts under the cap on juice", weightOf("pad-thai", "ready", 100)},
	{"a label's grams of cereal count by the ounce", labelOf("puffed-wheat", "ready", 28, nil, "")},
	{"a label's grams of cheese count by the ounce", labelOf("cheddar", "ready", 28, nil, "")},
	{"plantain by weight goes by the database", weightOf("plantain", "fresh", 148)},
	{"canned ham needs no weight of a cup", labelOf("ham", "canned", 50, nil, "")},
	{"the liquid of canned fish is never the food", labelOf("tuna", "canned", 100, nil, "")},
}

// labelOf is one whole package of one serving with the size in grams, in a
// unit of volume, or both.
func labelOf(food, form string, grams int64, size *big.Rat, unit string) made {
	p := made{servings: exactly(frac(1, 1)), size: size, sizeUnit: unit}
	p.Food, p.Form = food, form
	p.Measure = portion.Measure{By: portion.ByLabel, Servings: "1"}
	if size != nil {
		p.Measure.Size = size.RatString() + " " + unit
	}
	if grams != 0 {
		p.grams = frac(grams, 1)
		p.Measure.Size = p.grams.RatString() + " g"
	}
	return p
}

func weightOf(food, form string, grams int64) made {
	p := made{n: exactly(frac(grams, 1)), unit: "g"}
	p.Food, p.Form = food, form
	p.Measure = portion.Measure{By: portion.ByWeight, Amount: p.n.best.RatString(), Unit: "g"}
	return p
}

func TestOnceDifferent(t *testing.T) {
	b := readBook()
	for _, tt := range onceDifferent {
		t.Run(tt.why, func(t *testing.T) {
			p := tt.sample
			p.ID = "p1"
			for _, d := range b.byID[p.Food].forms {
				if d.form == p.Form {
					p.form = d
				}
			}
			if p.form == nil {
				t.Fatalf("the catalogue has no %s %s", p.Form, p.Food)
			}
			if _, ok := b.credits(dga2020, &p, nil); !ok {
				t.Errorf("%s can't be counted here", p.Food)
			}
			if text := b.differs(dayOf(&p)); text != "" {
				t.Error(text)
			}
		})
	}
}

// dayOf is a day of one portion, held against the class's targets.
func dayOf(p *made) madeDay {
	d := madeDay{portions: []*made{p}}
	d.sheet.Set = "class"
	d.sheet.Portions = []portion.Portion{p.Portion}
	return d
}
