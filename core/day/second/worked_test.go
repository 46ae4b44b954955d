package second_test

import (
	"math/big"
	"strings"
	"testing"

	"cupsum/core/portion"
)

// TestWorkedExamples holds this implementation itself against what was
// published: two that agree could be wrong together. The rows are those that
// package portion is held against, but for its exceptions (with a reason);
// within 1/16, or with the published value inside the range, is agreement.
func TestWorkedExamples(t *testing.T) {
	b := readBook()
	table := map[string]map[string]string{}
	for _, r := range rows("../../../testdata/published/portions.csv") {
		table[r["portion_id"]] = r
	}
	agree, asked := map[string]bool{}, 0
	for _, m := range rows("../../../testdata/published/portions_map.csv") {
		if m["reason"] != "" {
			continue
		}
		asked++
		row, p := table[m["portion_id"]], workedPortion(b, m)
		if row == nil || p == nil {
			t.Errorf("%s is no row or no food", m["portion_id"])
			continue
		}
		got := b.worked(p, strings.TrimSuffix(row["group"], "s"))
		low, high := number(row["equals_low"]), number(row["equals_high"])
		if unit := row["equals_unit"]; strings.HasPrefix(unit, "tsp") { // "tsp (14 g)"
			_, grams, _ := strings.Cut(strings.TrimSuffix(unit, " g)"), "(")
			low, high = sub(number(grams), frac(1, 2)), add(number(grams), frac(1, 2))
		}
		if got == nil || !near(*got, low, high) {
			t.Errorf("%s: %s of %s is published as %s, and counts as %v", m["portion_id"], row["amount_text"], row["food"], row["equals_low"], got)
			continue
		}
		agree[m["portion_id"]] = true
	}
	t.Logf("%d published portions, in %d foods, count here as published", len(agree), asked)
	if len(agree) < 120 || len(agree)*100 < 95*len(table) {
		t.Errorf("%d of %d count as published", len(agree), len(table))
	}
}

func near(got span, low, high *big.Rat) bool {
	slack := frac(1, 16)
	return got.best.Cmp(sub(low, slack)) >= 0 && got.best.Cmp(add(high, slack)) <= 0 ||
		got.lo.Cmp(high) <= 0 && got.hi.Cmp(low) >= 0
}

// workedPortion makes the portion of a row of the map.
func workedPortion(b *book, m map[string]string) *made {
	f := b.byID[m["food"]]
	if f == nil {
		return nil
	}
	for _, d := range f.forms {
		if d.form == m["form"] {
			p := &made{form: d, n: exactly(number(m["amount"])), unit: m["unit_or_piece"]}
			p.Measure.By = portion.Way(m["measure"])
			if p.Measure.By == portion.ByPiece {
				p.Measure.Piece = m["unit_or_piece"]
			}
			return p
		}
	}
	return nil
}

// worked counts the portion in one group.
func (b *book) worked(p *made, group string) *span {
	list, ok := b.credits(dga2020, p, nil)
	if !ok {
		return nil
	}
	for _, c := range list {
		if c.alt != nil && c.alt.group == group {
			c = *c.alt
		}
		if c.group == group {
			return &c.span
		}
	}
	return nil
}
