package portion_test

import (
	"math"
	"strings"
	"testing"

	"cupsum/core/guide"
	"cupsum/core/portion"
)

// TestPublishedPortions runs every published "this much counts as one" of
// portions.csv through the whole way, from food and measure to the credit.
// portions_map.csv says which food, form and measure each is, several where the
// published line names several foods; a reason there makes it an exception.
func TestPublishedPortions(t *testing.T) {
	table := map[string]map[string]string{}
	for _, r := range rows(t, published+"portions.csv") {
		if r["source"] == "" || r["origin"] == "" {
			t.Errorf("%s has no source or origin", r["portion_id"])
		}
		table[r["portion_id"]] = r
	}
	answered, excepted := map[string]bool{}, map[string]bool{}
	for _, m := range rows(t, published+"portions_map.csv") {
		row := table[m["portion_id"]]
		if row == nil {
			t.Errorf("%s is not in portions.csv", m["portion_id"])
			continue
		}
		ours, ok := creditOf(t, m, row)
		switch {
		case m["reason"] != "" && ok:
			t.Errorf("%s is listed as an exception, and agrees", m["portion_id"])
		case m["reason"] != "":
			excepted[m["portion_id"]] = true
		case !ok:
			t.Errorf("%s: %s of %s is published as %s to %s %s; %s %s is credited as %.4f", m["portion_id"], row["amount_text"], row["food"],
				row["equals_low"], row["equals_high"], row["equals_unit"], m["food"], m["form"], ours)
		default:
			answered[m["portion_id"]] = true
		}
	}
	for id := range table {
		if !answered[id] && !excepted[id] {
			t.Errorf("%s is neither answered nor an exception", id)
		}
	}
	t.Logf("%d published portions: %d answered as published, %d exceptions", len(table), len(answered), len(excepted))
	if len(answered) < 120 || len(answered)*100 < 95*len(table) {
		t.Errorf("%d of %d are answered as published", len(answered), len(table))
	}
}

// creditOf credits a line of the map and compares it with the published row in
// its own unit.
func creditOf(t *testing.T, m, row map[string]string) (ours float64, ok bool) {
	t.Helper()
	p := portion.Portion{Food: m["food"], Form: m["form"], Measure: portion.Measure{By: portion.Way(m["measure"]), Amount: m["amount"]}}
	if p.Measure.By == portion.ByPiece {
		p.Measure.Piece = m["unit_or_piece"]
	} else {
		p.Measure.Unit = m["unit_or_piece"]
	}
	unit := guide.CupEq
	switch {
	case row["equals_unit"] == "oz eq":
		unit = guide.OzEq
	case strings.HasPrefix(row["equals_unit"], "tsp"):
		unit = guide.GramOil
	}
	result, err := p.Credit(guide.DGA2020, nil)
	if err != nil {
		t.Errorf("%s: %v", m["portion_id"], err)
		return 0, false
	}
	found := false
	for _, c := range result.Credits {
		if c.Unit != unit && c.Alt != nil { // beans, asked for as protein foods
			c = *c.Alt
		}
		if c.Unit == unit && c.Group.ID() == strings.TrimSuffix(row["group"], "s") {
			ours, found = float(c.Amount.Best), true
		}
	}
	if !found {
		return 0, false
	}
	low, _ := cell(row["equals_low"])
	high, _ := cell(row["equals_high"])
	if unit == guide.GramOil { // "3 tsp (14 g)": the grams are rounded to whole ones
		_, grams, _ := strings.Cut(row["equals_unit"], "(")
		g, _ := cell(strings.TrimSuffix(grams, " g)"))
		return ours, math.Abs(ours-g) <= 0.5
	}
	return ours, ours >= low-1e-5 && ours <= high+1e-5
}
