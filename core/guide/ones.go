package guide

import (
	"slices"
	"strings"
	"sync"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/rule"
)

// oneRow is a row of data/crediting.csv. Edition is its place in editionIDs
// and source in sourceTexts; the factor is num/den.
type oneRow struct {
	edition  uint8
	class    food.Class
	group    food.Group
	subgroup food.Subgroup
	per      Basis
	unit     Unit
	cooked   bool
	num, den int16
	rule     rule.ID
	source   uint8
	origin   rule.Origin
}

// ones is the crediting table, made at its first use: some hundred small
// values, so that the page pays nothing for it before somebody counts.
var ones = sync.OnceValue(func() []One {
	all := make([]One, len(oneRows))
	for i, r := range oneRows {
		all[i] = One{
			Edition: editionIDs[r.edition], Class: r.class, Group: r.group, Subgroup: r.subgroup,
			Per: r.per, Factor: amount.Frac(int64(r.num), int64(r.den)), Unit: r.unit, Cooked: r.cooked,
			Rule: r.rule, Source: sourceTexts[r.source], Origin: r.origin,
		}
	}
	return all
})

// Ones tells what one of the class is in the edition, a row for each group
// that it can count in, beans as vegetables before beans as protein foods...
// A row with a Subgroup holds for foods of that subgroup alone. It returns
// nil where the class counts nowhere. The slice is shared: don't change it.
func Ones(e EditionID, c food.Class) []One {
	all := ones()
	first, found := slices.BinarySearchFunc(all, One{Edition: e, Class: c}, compareOnes)
	if !found {
		return nil
	}
	last := first + 1
	for last < len(all) && all[last].Edition == e && all[last].Class == c {
		last++
	}
	return all[first:last:last]
}

// compareOnes orders by edition, in the order of editionIDs, then by class.
func compareOnes(a, b One) int {
	if a.Edition != b.Edition {
		return slices.Index(editionIDs[:], a.Edition) - slices.Index(editionIDs[:], b.Edition)
	}
	return strings.Compare(string(a.Class), string(b.Class))
}

// Editions lists the editions whose crediting table is complete, oldest first.
func Editions() []EditionID { return []EditionID{DGA2020, DGA2025} }

// Classes lists every class that a food form may have, those included that
// count nowhere ("none") or by their parts ("mixed").
func Classes() []food.Class { return slices.Clone(classIDs[:]) }

// Crediting lists the whole crediting table of an edition, by class.
func Crediting(e EditionID) []One {
	var rows []One
	for _, o := range ones() {
		if o.Edition == e {
			rows = append(rows, o)
		}
	}
	return rows
}
