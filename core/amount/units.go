package amount

//go:generate go run ../tables

import "cupsum/core/rule"

// A Unit is a unit that food is measured in. The zero value is [NoUnit], a
// plain count. The others are generated from data/units.csv.
type Unit uint8

// A Kind is what a unit measures.
type Kind uint8

// The kinds of units.
const (
	Count  Kind = iota // a number of things
	Volume             // in millilitres
	Weight             // in grams
)

// A System says which size the cup, the spoon and the ounce have.
type System uint8

const (
	// Customary is US customary measure, for cups that a person fills and
	// ounces on a scale: NIST SP 811 Appendix B.8; a cup is 236.5882365 mL.
	Customary System = iota
	// Label is the set of metric equivalents that labels must use, 21 CFR
	// 101.9(b)(5)(viii): a cup is 240 mL, an ounce 28 g.
	Label
)

// unitRow is one row of data/units.csv. The factors are in mL or g, times
// 10^11, so that the table is constants: the finest factor, the teaspoon's,
// has eleven decimals.
type unitRow struct {
	id        string
	kind      Kind
	customary int64
	label     int64
	source    string
	origin    rule.Origin
}

const unitScale = 100_000_000_000

// ID is the unit's stable key, as in data files: "cup", "fl-oz"; empty for
// NoUnit.
func (u Unit) ID() string { return unitRows[u].id }

// Kind tells what the unit measures.
func (u Unit) Kind() Kind { return unitRows[u].kind }

// Size is one of the unit in millilitres (volume) or grams (weight) in the
// given system; 1 for NoUnit.
func (u Unit) Size(s System) Num {
	if u == NoUnit {
		return Int(1)
	}
	if s == Label {
		return Frac(unitRows[u].label, unitScale)
	}
	return Frac(unitRows[u].customary, unitScale)
}

// Source names where the unit's size is published.
func (u Unit) Source() string { return unitRows[u].source }

// UnitByID finds a unit by its key; "" is NoUnit.
func UnitByID(id string) (Unit, bool) {
	for u := range unitRows {
		if unitRows[u].id == id {
			return Unit(u), true
		}
	}
	return NoUnit, false
}

// Tables tells of the table of units where its rows come from, for the
// evidence view.
func Tables() []rule.TableInfo {
	t := rule.TableInfo{Name: "units"}
	for _, u := range Units() {
		t.Count(unitRows[u].source, unitRows[u].origin)
	}
	return []rule.TableInfo{t}
}

// Units lists all units but NoUnit, volumes first.
func Units() []Unit {
	us := make([]Unit, 0, len(unitRows)-1)
	for u := 1; u < len(unitRows); u++ {
		us = append(us, Unit(u))
	}
	return us
}

// In converts q to another unit of the same kind; ok is false when the kinds
// differ. The result is exact in the given system.
func (q Quantity) In(to Unit, s System) (converted Quantity, ok bool) {
	if q.Unit.Kind() != to.Kind() {
		return Quantity{}, false
	}
	k := q.Unit.Size(s).Quo(to.Size(s))
	return Quantity{q.Amount.Scale(k), to}, true
}
