package label_test

import (
	"fmt"

	"cupsum/core/amount"
	"cupsum/core/label"
)

func ExampleReadServing() {
	s, _ := label.ReadServing("1/4 cup dry (45g) makes 3/4 cup cooked")
	fmt.Println(s.Kind, s.Amount, s.Unit.ID(), s.State, s.Metric)
	for _, x := range s.Seconds {
		fmt.Println(x.Relation, x.Amount, x.Unit.ID(), x.State)
	}
	// Output:
	// volume 1/4 cup dry 45 g
	// makes 3/4 cup cooked
}

func ExampleReadServing_contradiction() {
	s, err := label.ReadServing("1 tsp (15 ml)")
	fmt.Println(s.Flags[0].ID, err)
	_, err = label.ReadServing("Amount per serving")
	fmt.Println(err)
	// Output:
	// label.differ <nil>
	// label.heading(Amount per serving)
}

func ExampleServing_Cups() {
	// A plastic cup of peaches; a measuring cup of them weighs about 245 g.
	s, _ := label.ReadServing("1 cup (113 g)")
	cups, _, flags, _ := s.Cups(amount.Exactly(amount.Int(245)))
	fmt.Println(amount.Mixed(cups.Best).Text, flags[0].ID)
	// Output: ½ label.plastic-cup
}

func ExampleReadServings() {
	a, meta, _ := label.ReadServings("about 2.5")
	fmt.Println(a, meta.About)
	_, _, err := label.ReadServings("3 cups")
	fmt.Println(err)
	// Output:
	// 9/4..5/2..11/4 true
	// label.servings-unit(3 cup)
}

func ExampleReadNet() {
	n, _ := label.ReadNet("1 LB/6 OZ/624 g")
	fmt.Println(n.Weight, "g")
	// Output: 624 g
}

func ExampleReadPanel() {
	p, _ := label.ReadPanel("about 3.5 servings per container\nServing size 1/2 cup (130g)\nSodium 460mg 20%\nReduced sodium")
	fmt.Println(p.Servings, p.Serving.Amount, p.Serving.Unit.ID(), p.Sodium.Printed, p.Claims[0].ID)
	// Output: 13/4..7/2..15/4 1/2 cup 460 reduced-sodium
}

func ExampleFact_Intake() {
	sodium := label.Fact{Printed: amount.Int(460)}
	in := sodium.Intake(label.Sodium, amount.Exactly(amount.Int(2)), amount.Amount{}, label.FromFour)
	fmt.Println(in.Eaten, "mg,", in.Percent.Best, "% of the Daily Value")
	// Output: 910..920..930 mg, 40 % of the Daily Value
}

func ExampleTakenOut() {
	r, _ := label.TakenOut("beans", label.Rinsing, label.Sodium)
	fmt.Println(r.Percent, "% by", r.Studies)
	// Output: 207/10..41..41 % by [culinary-2011 kitchen-test]
}
