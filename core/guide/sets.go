package guide

import (
	"slices"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// setRow is a row of data/sets.csv, with the place of its targets in
// targetRows.
type setRow struct {
	id, pattern string
	edition     uint8
	level       int16
	from, to    uint8
	kcal        int16
	percent     uint8
	first       uint16
	count       uint8
	source      uint8
	origin      rule.Origin
}

// targetRow is a row of data/targets.csv; low and high are in twelfths, so
// that thirds and quarters of a cup are whole.
type targetRow struct {
	group     food.Group
	subgroup  food.Subgroup
	part      uint8
	low, high int16
	unit      Unit
	weekly    bool
	origin    rule.Origin
}

// The parts of subgroups, as places in partIDs.
const (
	noPart = iota
	meatPoultry
	eggs
	nutsSeeds
	soy
)

var partIDs = [...]string{noPart: "", meatPoultry: "meat-poultry", eggs: "eggs", nutsSeeds: "nuts-seeds", soy: "soy"}

func twelfths(n int16) amount.Num { return amount.Frac(int64(n), 12) }

func (r *setRow) set() Set {
	s := Set{
		ID: r.id, Edition: editionIDs[r.edition], Pattern: r.pattern, Level: int(r.level),
		AgeFrom: int(r.from), AgeTo: int(r.to), OtherKcal: int(r.kcal), OtherPercent: int(r.percent),
		Source: sourceTexts[r.source], Origin: r.origin, Targets: make([]Target, r.count),
	}
	for i, t := range targetRows[r.first : r.first+uint16(r.count)] {
		s.Targets[i] = Target{
			Group: t.group, Subgroup: t.subgroup, Part: partIDs[t.part],
			Low: twelfths(t.low), High: twelfths(t.high), Unit: t.unit, Weekly: t.weekly, Origin: t.origin,
		}
	}
	return s
}

// Sets lists every published set and the class's own, in the order of the
// page: by pattern, then level.
func Sets() []Set {
	sets := make([]Set, len(setRows))
	for i := range setRows {
		sets[i] = setRows[i].set()
	}
	return sets
}

// SetByID finds a set. The set is the caller's own to change. Besides the
// sets of [Sets] it knows those that [SetFor] makes where a table's note sets
// the dairy by age: "us-1600-child", "med-2000-teen".
func SetByID(id string) (Set, bool) {
	if s, ok := tableSet(id); ok {
		return s, true
	}
	return notedSet(id)
}

func tableSet(id string) (Set, bool) {
	for i := range setRows {
		if setRows[i].id == id {
			return setRows[i].set(), true
		}
	}
	return Set{}, false
}

// Levels lists the calorie levels of a pattern, rising; nil where the pattern
// has none.
func Levels(pattern string) []int {
	var levels []int
	for _, r := range setRows {
		if r.pattern == pattern && r.level > 0 {
			levels = append(levels, int(r.level))
		}
	}
	return levels
}

// setAt finds a pattern's set at a level.
func setAt(pattern string, level int) (Set, bool) {
	for i := range setRows {
		if setRows[i].pattern == pattern && int(setRows[i].level) == level {
			return setRows[i].set(), true
		}
	}
	return Set{}, false
}

// Patterns lists the keys of the patterns, in the order of the page.
func Patterns() []string {
	var keys []string
	for _, r := range setRows {
		if !slices.Contains(keys, r.pattern) {
			keys = append(keys, r.pattern)
		}
	}
	return keys
}

// Title is the set's name for people: the pattern with its level, or the
// programme's own name.
func (s Set) Title() say.Line {
	if s.Pattern == PatternOwn {
		return say.New("pattern.own", s.Name)
	}
	title := say.New("pattern."+s.Pattern, s.Level)
	if s.byAge {
		return say.New("pattern.ages", title, s.AgeFrom, s.AgeTo)
	}
	return title
}

// Target finds the set's target for a group or a subgroup of it; weekly tells
// which of the two periods.
func (s Set) Target(g food.Group, sub food.Subgroup, weekly bool) (Target, bool) {
	for _, t := range s.Targets {
		if t.Group == g && t.Subgroup == sub && t.Part == "" && t.Weekly == weekly {
			return t, true
		}
	}
	return Target{}, false
}
