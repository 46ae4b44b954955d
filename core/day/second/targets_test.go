package second_test

import (
	"math/big"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/guide"
)

// TestTargets holds every target set, as the program has it, against its rows.
func TestTargets(t *testing.T) {
	b := readBook()
	sets := guide.Sets()
	if len(sets) != len(b.sets) {
		t.Fatalf("%d sets, want %d", len(sets), len(b.sets))
	}
	for _, set := range sets {
		rows, ok := b.targets[set.ID]
		if !ok || string(set.Edition) != b.edition[set.ID] {
			t.Errorf("%s: edition %q, want %q", set.ID, set.Edition, b.edition[set.ID])
		}
		if len(set.Targets) != len(rows) {
			t.Errorf("%s: %d targets, want %d", set.ID, len(set.Targets), len(rows))
			continue
		}
		for _, row := range rows {
			if n := matches(set, row); n != 1 {
				t.Errorf("%s: %d targets like row %s %s %s", set.ID, n, row.group, row.sub, row.part)
			}
		}
	}
}

func matches(set guide.Set, row targetRow) (n int) {
	for _, t := range set.Targets {
		if t.Group.ID() == row.group && t.Subgroup.ID() == row.sub && t.Part == row.part && t.Weekly != row.daily &&
			t.Unit.ID() == row.unit && equals(t.Low, row.low) && equals(t.High, row.high) {
			n++
		}
	}
	return n
}

// equals compares with a cell of a table, where empty is the program's 0.
func equals(n amount.Num, x *big.Rat) bool {
	if x == nil {
		x = nought
	}
	return rat(n).Cmp(x) == 0
}
