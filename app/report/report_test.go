package report

import (
	"encoding/csv"
	"strings"
	"testing"

	"cupsum/app/lang"
	"cupsum/core/amount"
	"cupsum/core/day"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
)

var words = lang.English()

func eighths(n int64) amount.Num { return amount.Frac(n, 8) }

var sentenceTests = []struct {
	target      guide.Target
	low, best   int64 // eighths
	high        int64
	verdict     day.Verdict
	gap, above  int64
	want        string
	description string
}{
	{guide.Target{Group: food.Fruit, Low: amount.Int(2)}, 14, 14, 14, day.Short, 2, 0, "Fruit: 1¾ of 2 cups. ¼ cup to go.", "short"},
	{guide.Target{Group: food.Fruit, Low: amount.Int(2)}, 16, 16, 16, day.Met, 0, 0, "Fruit: 2 of 2 cups. Met.", "met"},
	{guide.Target{Group: food.Fruit, Low: amount.Int(2)}, 20, 20, 20, day.Met, 0, 4, "Fruit: 2½ of 2 cups. Met, with ½ cup more.", "met with more"},
	{guide.Target{Group: food.Protein, Low: amount.Int(3), High: amount.Int(4), Unit: guide.Serving}, 40, 40, 40, day.Over, 0, 8, "Protein foods: 5 of 3 to 4 servings. 1 serving over.", "over a range"},
	{guide.Target{Group: food.Grain, Subgroup: food.RefinedGrain, High: amount.Int(3), Unit: guide.OzEq}, 8, 8, 8, day.Met, 0, 0, "Refined grains: 1 of up to 3 oz eq. Met.", "a limit"},
	{guide.Target{Group: food.Fruit, Low: amount.Int(2)}, 12, 15, 18, day.Close, 1, 0, "Fruit: 1½ to 2¼ of 2 cups. Too close to call.", "close"},
}

func TestSentence(t *testing.T) {
	for _, tt := range sentenceTests {
		total := amount.Between(eighths(tt.low), eighths(tt.best), eighths(tt.high))
		if got := Sentence(words, tt.target, total, tt.verdict, eighths(tt.gap), eighths(tt.above)); got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.description, got, tt.want)
		}
	}
}

// The spreadsheet has a row a credit, adds up to the day, and runs nothing.
func TestCSV(t *testing.T) {
	s := day.Demo()
	s.Portions = append(s.Portions, portion.Portion{ID: "x", Custom: &food.Custom{Name: "=1+1", Group: "fruit"}, Form: "fresh",
		Measure: portion.Measure{By: portion.ByCup, Amount: "@1"}})
	rows, err := csv.NewReader(strings.NewReader(CSV(words, day.Check(s)))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < len(s.Portions)+1 {
		t.Errorf("%d rows for %d portions", len(rows), len(s.Portions))
	}
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) {
				t.Errorf("the cell %q would run", cell)
			}
		}
	}
	if last := rows[len(rows)-1]; !strings.Contains(last[0], "'=1+1") || last[len(last)-1] == "" {
		t.Errorf("the portion that can't be read is %q", last)
	}
}

// Beans that count on both sides stand in two rows, which add up to the whole.
func TestSidesAddUp(t *testing.T) {
	for _, it := range day.Check(day.Demo()).Items {
		if len(it.Result.Credits) != 1 || it.Result.Credits[0].Alt == nil {
			continue
		}
		whole := it.Result.Credits[0]
		var share amount.Num
		for _, c := range sides(it) {
			of := whole.Amount
			if c.Group == food.Protein {
				of = whole.Alt.Amount
			}
			share = share.Add(c.Amount.Best.Quo(of.Best))
		}
		if !share.Equal(amount.Int(1)) {
			t.Errorf("the sides are %v of the beans", share)
		}
		return
	}
	t.Error("the sample has no beans")
}
