package second_test

import (
	"math/big"
	"testing"

	"cupsum/core/portion"
)

// A knownDifference is a kind of portion that package portion counts in
// another way than the rule texts and tables say to this implementation.
// Random days leave the kind out. TestKnownDifferences fails once the samples
// agree, so that the list can't outlive its reasons.
type knownDifference struct {
	name    string
	why     string
	of      func(*book, *made) bool
	samples []made
}

var knownDifferences = []knownDifference{
	{
		name: "volume of dry beans on a label",
		why: "a label cup of dry beans weighs 140 g, as their labels print it (g_label_cup); a label that gives " +
			"a volume alone is weighed by the measured cup, which is up to half more",
		of: func(_ *book, p *made) bool {
			return p.Measure.By == portion.ByLabel && !p.form.canBePouredFrom && p.form.gLabelCup != nil && p.grams == nil
		},
		samples: []made{labelOf("lupini-beans", "dry", 0, frac(1, 4), "cup")},
	},
	{
		name: "juice in a dish",
		why:  "a part of a dish whose subgroup and class are juice does not count under the cap on juice",
		of: func(_ *book, p *made) bool {
			for _, part := range p.form.parts {
				if part.sub == "juice" {
					return true
				}
			}
			return false
		},
		samples: []made{weightOf("pad-thai", "ready", 100)},
	},
	{
		name: "weight on the label of food with a cup of its own",
		why: "cheese and cereal count by the ounce (rules one-cheese, one-cereal), and do so on a scale; " +
			"a label's grams are turned into cups first and count by the cup (rule cup-of-this)",
		of: func(_ *book, p *made) bool {
			return p.Measure.By == portion.ByLabel && p.size == nil && p.form.eqCup != nil && p.form.gCup != nil &&
				(p.form.class == "cheese-natural" || p.form.class == "grain-cereal")
		},
		samples: []made{labelOf("puffed-wheat", "ready", 28, nil, ""), labelOf("cheddar", "ready", 28, nil, "")},
	},
	{
		name: "weight of food with a cup of its own",
		why:  "a cup of plantain counts as 1 1/3 (rule cup-of-this) when it is filled, and as 1 when it is weighed",
		of: func(b *book, p *made) bool {
			return p.form.class == "veg-cup" && p.form.eqCup != nil && p.form.gCup != nil && b.measured(p, nil).cups == nil
		},
		samples: []made{weightOf("plantain", "fresh", 148)},
	},
	{
		name: "weight on the label of canned food that counts by weight",
		why: "a label that gives grams alone is refused for want of the weight of a cup, which is not needed; " +
			"tuna counts as drained where nobody said so, against the comment on portion.LiquidUnsaid",
		of: func(_ *book, p *made) bool {
			return p.Measure.By == portion.ByLabel && p.form.canBePouredFrom && p.form.gLabelCup == nil &&
				p.size == nil && p.Liquid != portion.Drained
		},
		samples: []made{labelOf("ham", "canned", 50, nil, ""), labelOf("tuna", "canned", 100, nil, "")},
	},
}

// known finds the known difference that a portion is of; nil when it is none.
func (b *book) known(p *made) *knownDifference {
	for i := range knownDifferences {
		if k := &knownDifferences[i]; k.of(b, p) {
			return k
		}
	}
	return nil
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

func TestKnownDifferences(t *testing.T) {
	b := readBook()
	for _, k := range knownDifferences {
		t.Run(k.name, func(t *testing.T) {
			for _, p := range k.samples {
				p.ID = "p1"
				for _, d := range b.byID[p.Food].forms {
					if d.form == p.Form {
						p.form = d
					}
				}
				if p.form == nil {
					t.Fatalf("the catalogue has no %s %s", p.Form, p.Food)
				}
				if b.known(&p) == nil {
					t.Errorf("%s is not of the kind", p.Food)
				}
				if _, ok := b.credits(dga2020, &p, nil); !ok {
					t.Errorf("%s can't be counted here", p.Food)
				}
				if b.differs(dayOf(&p)) == "" {
					t.Errorf("%s agrees now: take the difference from the list (%s)", p.Food, k.why)
				}
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
