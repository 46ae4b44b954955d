package guide_test

import (
	"fmt"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
)

// What one is depends on the edition: 3 ounces of chicken.
func ExampleOnes() {
	three := amount.Int(3)
	for _, e := range guide.Editions() {
		for _, o := range guide.Ones(e, "meat") {
			fmt.Println(e, three.Mul(o.Factor), o.Unit.ID())
		}
	}
	// Output:
	// dga-2020 3 oz-eq
	// dga-2025 1 serving
}

// Beans have two answers; a portion takes one of them.
func ExampleOnes_beans() {
	for _, o := range guide.Ones(guide.DGA2020, "legume") {
		fmt.Println(o.Group.ID(), o.Factor, o.Unit.ID(), "in a cup")
	}
	// Output:
	// vegetable 1 cup-eq in a cup
	// protein 4 oz-eq in a cup
}

func ExampleSetByID() {
	s, _ := guide.SetByID("us-2000")
	veg, _ := s.Target(food.Vegetable, food.NoSubgroup, false)
	refined, _ := s.Target(food.Grain, food.RefinedGrain, false)
	fmt.Println("vegetables, at least:", veg.Low, veg.Unit.ID())
	fmt.Println("refined grains, at most:", refined.High, refined.Unit.ID())
	// Output:
	// vegetables, at least: 5/2 cup-eq
	// refined grains, at most: 3 oz-eq
}

// A girl of 9 who mostly sits needs 1,400 calories, and the patterns below
// 1,600 are for younger children.
func ExampleSetFor() {
	s, lines, _ := guide.SetFor(guide.Person{Age: 9, Sex: guide.Female, Activity: guide.Sedentary}, "us")
	fmt.Println(s.ID)
	for _, l := range lines {
		fmt.Println(l)
	}
	// Output:
	// us-1600
	// guide.need(9, 1400)
	// guide.level-raised
}

func ExampleCalorieNeed() {
	_, err := guide.CalorieNeed(guide.Person{Age: 28, Sex: guide.Female, Activity: guide.Active, Pregnant: true})
	fmt.Println(err)
	// Output:
	// pregnant: guide.pregnant
}

func ExampleOwnHand() {
	fist, _ := guide.HandByID("fist")
	own, _ := guide.OwnHand("fist", "¾ cup")
	fmt.Println(fist.Holds)
	fmt.Println(own.Holds)
	_, err := guide.OwnHand("fist", "5 cups")
	fmt.Println(err)
	// Output:
	// 2/3..1..4/3 cup
	// 9/16..3/4..15/16 cup
	// hand: guide.hand-big(fist, 5 cup, 2/3..1..4/3 cup)
}

func ExampleReadSet() {
	_, err := guide.ReadSet([]byte(`{"format": "cupsum-targets", "version": 1, "id": "quillhaven", "name": "Quillhaven", "edition": "dga-2020", "source": "the class",
		"targets": [{"group": "fruit", "low": "2"}, {"group": "grain", "low": "6", "high": "5"}]}`))
	fmt.Println(err)
	// Output:
	// targets[1].high: program.order(6, 5)
}
