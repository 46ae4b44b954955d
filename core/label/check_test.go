package label

import (
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/rule"
)

var checkTests = []struct {
	name, text string
	c          Context
	want       string
}{
	{"a can of beans fits together", beansPanel, Context{AsPacked: grams(250, 255, 262), Drained: grams(160, 172, 185)}, ""},
	{"servings taken for cups", beansPanel, Context{Typed: amount.Exactly(amount.Frac(7, 2))}, "label.servings-as-cups"},
	{"some other number of cups", beansPanel, Context{Typed: amount.Exactly(amount.Int(2))}, ""},
	{"servings far from the net weight", "about 3.5 servings per container\nServing size 1/2 cup (130g)\nNet wt 29 oz (822 g)", Context{}, "label.net-far"},
	{"within 20 %", "4 servings per container\nServing size 100 g\nNet wt 450 g", Context{}, ""},
	{"drained serving, net with liquid", "2.5 servings per container\nServing size 1/2 cup drained (89g)\nNet wt 14 oz (397 g)", Context{}, "label.net-solids"},
	{"drained weight printed", "2 servings per container\nServing size 2 oz drained (56g)\nNet wt 6 oz (170 g) drained wt 4 oz (113 g)", Context{}, "label.net-drained-weight"},
	{"net weight of one of six", "6 servings per container\nServing size 1 cup (113g)\nNet wt 6 ct / 4 oz (113 g)", Context{}, "label.net-each"},
	{"varied packages are not compared", "Varied (about 6) servings per container\nServing size 4 oz (112g)\nNet wt 40 lb", Context{}, ""},
	{"volumes", "8 servings per container\nServing size 8 fl oz (240 mL)\nNet contents 64 fl oz (1.89 L)", Context{}, ""},
	{"volumes far apart", "2 servings per container\nServing size 8 fl oz (240 mL)\nNet contents 64 fl oz (1.89 L)", Context{}, "label.net-far"},
	{"grams of drained food in a cup with liquid", "Serving size 1/2 cup (86g)", Context{AsPacked: grams(250, 255, 260), Drained: grams(160, 172, 185)}, "label.cup-drained"},
	{"drained on the label, weight with liquid", "Serving size 1/2 cup drained (128g)", Context{AsPacked: grams(250, 255, 260), Drained: grams(150, 155, 160)}, "label.cup-packed"},
	{"a weight that fits neither", "Serving size 1/2 cup (30g)", Context{AsPacked: grams(250, 255, 260), Drained: grams(160, 172, 185)}, "label.cup-weight"},
	{"the plastic cup", "Serving size 1 cup (113g)", Context{AsPacked: grams(240, 245, 250)}, "label.plastic-cup"},
	{"percent of the old Daily Value", "Sodium 480mg 20%", Context{}, ""}, // 20.9 % today, which is near enough
	{"percent that fits nothing", "Sodium 460mg 2%", Context{}, "label.percent-differs"},
	{"more added than total sugars", "Total Sugars 5g\nIncludes 12g Added Sugars 24%", Context{}, "label.added-over-total"},
	{"low sodium with much of it", "Low sodium\nSodium 460mg 20%", Context{}, "label.claim-differs"},
	{"low sodium that is low", "Low sodium\nSodium 140mg 6%", Context{}, ""},
}

func TestCheck(t *testing.T) {
	for _, tt := range checkTests {
		p, err := ReadPanel(tt.text)
		if err != nil || len(p.Problems) > 0 {
			t.Errorf("%s: %v %v", tt.name, err, p.Problems)
			continue
		}
		var ids []string
		for _, l := range p.Check(tt.c) {
			ids = append(ids, l.ID)
			if id, ok := RuleOf(l); ok {
				checkSteps(t, tt.name, []rule.Step{{Rule: id, Line: l}})
			}
		}
		if got := strings.Join(ids, " "); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestServingsAsCups(t *testing.T) {
	five := amount.Exactly(amount.Int(5))
	for _, tt := range []struct{ serving, want string }{
		{"1/2 cup (130 g)", "label.servings-as-cups(5, 1/2 cup, 5/2 cup)"},
		{"1 cup (240 g)", ""},
		{"2 halves (128 g)", "label.servings-not-cups(5)"},
	} {
		s, err := ReadServing(tt.serving)
		if err != nil {
			t.Fatal(err)
		}
		line, ok := ServingsAsCups(five, five, s)
		if ok != (tt.want != "") || line.String() != tt.want {
			t.Errorf("%q: %v, want %q", tt.serving, line, tt.want)
		}
	}
	s, _ := ReadServing("1/2 cup")
	if line, ok := ServingsAsCups(amount.Exactly(amount.Int(3)), five, s); ok {
		t.Errorf("3 cups are not 5 servings: %v", line)
	}
}
