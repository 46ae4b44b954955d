package guide

import (
	"strings"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// A Sex is a column of the calorie table, which has two.
type Sex uint8

// The columns of the calorie table; the zero value is none picked.
const (
	NoSex Sex = iota
	Female
	Male
)

// An Activity is how much a person moves in a day.
type Activity uint8

// The activity levels of the calorie table, by its own definition; the zero
// value is none picked.
const (
	NoActivity Activity = iota
	Sedentary           // only the moving of everyday life
	Moderate            // walking 1.5 to 3 miles a day at 3 to 4 mph, as well
	Active              // walking more than 3 miles a day at 3 to 4 mph, as well
)

// A Person is what the calorie table asks for. It is never stored with a day
// and never part of a link.
type Person struct {
	Age           int // whole years; below 0: not given
	Sex           Sex
	Activity      Activity
	Pregnant      bool
	Breastfeeding bool
	SpecialDiet   bool
}

// calorieRow is a row of data/calories.csv: kcal a day by activity.
type calorieRow struct {
	sex      Sex
	from, to uint8
	kcal     [3]int16
}

const maxAge = 120

// CalorieNeed looks a person's need up, in kcal a day: Dietary Guidelines for
// Americans 2020-2025, Appendix 2, Table A2-2, as printed (the table does not
// follow from its equations in every cell). Errors are [*say.Problem] with the
// field that they are about: what the table needs and wasn't given, and whom
// it does not cover (under 2, pregnancy, breastfeeding, a special diet).
func CalorieNeed(p Person) (int, error) {
	if err := covered(p); err != nil {
		return 0, err
	}
	for _, r := range calorieRows {
		if r.sex == p.Sex && int(r.from) <= p.Age && p.Age <= int(r.to) {
			return int(r.kcal[p.Activity-Sedentary]), nil
		}
	}
	return 0, wrong("age", "guide.age-missing") // no such row: a test walks all ages
}

// covered tells whether the table has the person. It returns nil, not a nil
// *say.Problem, when it has.
func covered(p Person) error {
	switch {
	case p.Age < 0:
		return wrong("age", "guide.age-missing")
	case p.Age == 0:
		return wrong("age", "guide.under-one")
	case p.Age == 1:
		return wrong("age", "guide.under-two")
	case p.Age > maxAge:
		return wrong("age", "guide.age-high", p.Age)
	case p.Pregnant:
		return wrong("pregnant", "guide.pregnant")
	case p.Breastfeeding:
		return wrong("breastfeeding", "guide.breastfeeding")
	case p.SpecialDiet:
		return wrong("specialDiet", "guide.special-diet")
	case p.Sex != Female && p.Sex != Male:
		return wrong("sex", "guide.sex-missing")
	case p.Activity < Sedentary || p.Activity > Active:
		return wrong("activity", "guide.activity-missing")
	}
	return nil
}

// The levels and ages of Table A3-2 note a.
const (
	lowestFrom9 = 1600 // the lowest level for ages 9 and up
	lastChild   = 8    // up to this age the levels below lowestFrom9 are made for
)

// SetFor finds the set of a pattern ("us", "vegetarian", "mediterranean",
// "dga2025", "class") for a person, with lines that say how: the need, what
// the table's notes change by age, and whether some of it was recalled. Errors
// are those of [CalorieNeed], and an unknown pattern.
func SetFor(p Person, pattern string) (Set, []say.Line, error) {
	s, steps, err := PersonSet(p, pattern)
	if err != nil {
		return Set{}, nil, err
	}
	var lines []say.Line
	for _, step := range steps {
		lines = append(lines, step.Line)
	}
	if s.Origin == rule.Memory {
		lines = append(lines, say.New("guide.recalled"))
	}
	return s, lines, nil
}

// PersonSet is [SetFor] with the working: each step names its rule.
func PersonSet(p Person, pattern string) (Set, []rule.Step, error) {
	switch pattern {
	case "us", "vegetarian", "mediterranean", "dga2025":
	case "class":
		s, _ := SetByID("class")
		return s, nil, nil
	default:
		return Set{}, nil, wrong("pattern", "guide.pattern-unknown", pattern)
	}
	need, err := CalorieNeed(p)
	if err != nil {
		return Set{}, nil, err
	}
	steps := []rule.Step{{Rule: rule.CalorieTable, Line: say.New("guide.need", p.Age, need)}}
	level := need
	if pattern == "dga2025" { // its table names no ages
		steps = append(steps, rule.Step{Rule: rule.NeedOtherEdition, Line: say.New("guide.other-edition")})
	} else if p.Age > lastChild && need < lowestFrom9 {
		level = lowestFrom9
		steps = append(steps, rule.Step{Rule: rule.LevelAges, Line: say.New("guide.level-raised")})
	}
	s, ok := setAt(pattern, level)
	if !ok { // a need without a column: a test walks all of them
		return Set{}, nil, wrong("pattern", "guide.pattern-unknown", pattern)
	}
	for _, n := range dairyNotes {
		if n.holds(s, p.Age) {
			was, _ := s.Target(food.Dairy, food.NoSubgroup, false)
			s = n.change(s)
			steps = append(steps, rule.Step{Rule: n.rule, Line: say.New("guide.dairy-age", n.from, n.to, n.cups(), was.Low)})
		}
	}
	return s, steps, nil
}

// A dairyNote is a table's note that sets the dairy by age. A set so changed
// has an id of its own, so that a stored day finds it again.
type dairyNote struct {
	suffix          string
	mediterranean   bool // in that pattern; else in the other two of its edition
	from, to        int  // years of age
	lowest, highest int  // levels that a person of that age can have
	halfCups        int64
	rule            rule.ID
	origin          rule.Origin
}

// dairyNotes: Table A3-2 note a (ages 4 to 8 on 1,600 and more; nobody of that
// age needs more than 2,000), and the note of the Mediterranean-style table,
// which sets the dairy of ages 2 to 18 whatever the level; at 2 it is what the
// table has.
var dairyNotes = [...]dairyNote{
	{"-child", false, 4, 8, 1600, 2000, 5, rule.ChildDairy, rule.Published},
	{"-child", true, 3, 8, 1000, 2000, 5, rule.MediterraneanDairy, rule.Memory},
	{"-teen", true, 9, 18, 1600, 3200, 6, rule.MediterraneanDairy, rule.Memory},
}

func (n *dairyNote) cups() amount.Num { return amount.Frac(n.halfCups, 2) }

// holds tells whether the note changes the set for that age.
func (n *dairyNote) holds(s Set, age int) bool {
	return n.fits(s) && n.from <= age && age <= n.to
}

func (n *dairyNote) fits(s Set) bool {
	if n.mediterranean != (s.Pattern == "mediterranean") || !n.mediterranean && s.Pattern != "us" && s.Pattern != "vegetarian" {
		return false
	}
	was, _ := s.Target(food.Dairy, food.NoSubgroup, false)
	return n.lowest <= s.Level && s.Level <= n.highest && !was.Low.Equal(n.cups())
}

func (n *dairyNote) change(s Set) Set {
	s.ID += n.suffix
	s.AgeFrom, s.AgeTo, s.byAge = n.from, n.to, true
	for i, t := range s.Targets {
		if t.Group == food.Dairy && t.Subgroup == food.NoSubgroup {
			s.Targets[i].Low, s.Targets[i].Origin = n.cups(), max(t.Origin, n.origin)
		}
	}
	return s
}

// notedSet finds a set by an id that ends in a note's suffix.
func notedSet(id string) (Set, bool) {
	for _, n := range dairyNotes {
		base, ok := strings.CutSuffix(id, n.suffix)
		if !ok {
			continue
		}
		if s, ok := tableSet(base); ok && n.fits(s) {
			return n.change(s), true
		}
	}
	return Set{}, false
}
