package portion

import (
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
)

func TestByGroup(t *testing.T) {
	credit := func(g food.Group, s food.Subgroup, n int64) Credit {
		return Credit{Group: g, Subgroup: s, Amount: amount.Exactly(amount.Frac(n, 4)), Unit: guide.CupEq}
	}
	beans := credit(food.Vegetable, food.Legume, 2)
	beans.Alt = &Credit{Group: food.Protein, Amount: amount.Exactly(amount.Int(2)), Unit: guide.OzEq}
	juice := credit(food.Vegetable, food.OtherVegetable, 1)
	juice.Juice = true
	r := Result{Credits: []Credit{
		credit(food.Vegetable, food.Starchy, 1), credit(food.Protein, food.Animal, 8), beans,
		credit(food.Vegetable, food.RedOrange, 2), juice, credit(food.Protein, food.Animal, 4),
	}}
	got := r.ByGroup()
	want := []Credit{credit(food.Vegetable, food.NoSubgroup, 3), credit(food.Protein, food.Animal, 12), beans, juice}
	if len(got) != len(want) {
		t.Fatalf("%d sums, want %d: %+v", len(got), len(want), got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("sum %d is %+v, want %+v", i, got[i], want[i])
		}
	}
	if r.Credits[0] != credit(food.Vegetable, food.Starchy, 1) {
		t.Error("the result itself was changed")
	}
}
