package day

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"cupsum/core/food"
	"cupsum/core/portion"
)

// Whatever is done to a day, checking it again gives what checking it anew does.
func TestAgainIsCheck(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 40))
	demo := Demo()
	sheet := demo
	sheet.Portions = slices.Clone(demo.Portions)
	report := Check(sheet)
	own := &food.Custom{Name: "bean patty", Group: "protein", Subgroup: "plant", Kind: "legume"}
	for step := range 300 {
		sheet.Portions = slices.Clone(sheet.Portions)
		at := 0
		if n := len(sheet.Portions); n > 0 {
			at = rnd.IntN(n)
		}
		switch what := rnd.IntN(9); {
		case what == 0 || len(sheet.Portions) == 0:
			p := demo.Portions[rnd.IntN(len(demo.Portions))]
			p.ID = string(rune('a'+step%26)) + p.ID
			sheet.Portions = append(sheet.Portions, p)
		case what == 1:
			sheet.Portions = slices.Delete(sheet.Portions, at, at+1)
		case what == 2:
			sheet.Portions[at].Measure.Amount = []string{"1", "2", "1/2", "no number"}[rnd.IntN(4)]
		case what == 3:
			sheet.Portions[at].Side = []portion.Side{portion.SideAuto, portion.SideProtein, portion.SideVegetable}[rnd.IntN(3)]
		case what == 4:
			sheet.Set = []string{DefaultSet, "us-2000", "dga2025-2000"}[rnd.IntN(3)]
		case what == 5:
			sheet.Hands = map[string]string{"fist": []string{"3/4 cup", "1 cup", "a lot"}[rnd.IntN(3)]}
		case what == 6:
			copied := *own
			copied.Name += string(rune('a' + rnd.IntN(2)))
			sheet.Portions[at].Food, sheet.Portions[at].Custom, sheet.Portions[at].Form = "", &copied, "cooked"
		case what == 7: // the same id for another food
			p := demo.Portions[rnd.IntN(len(demo.Portions))]
			p.ID = sheet.Portions[at].ID
			sheet.Portions[at] = p
		case what == 8:
			rnd.Shuffle(len(sheet.Portions), func(i, j int) {
				sheet.Portions[i], sheet.Portions[j] = sheet.Portions[j], sheet.Portions[i]
			})
		}
		report = report.Again(sheet)
		if want := Check(sheet); !reflect.DeepEqual(report, want) {
			t.Fatalf("step %d: checked again:\n%+v\nchecked anew:\n%+v", step, report, want)
		}
	}
}

func BenchmarkAgain(b *testing.B) {
	sheet := Demo()
	report := Check(sheet)
	other := sheet
	other.Portions = sheet.Portions[1:]
	for i := range b.N {
		report = report.Again([]Sheet{other, sheet}[i%2])
	}
}
