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
	return 0, say.Wrong("guide.age-missing").In("age") // no such row: a test walks all ages
}

// covered tells whether the table has the person. It returns nil, not a nil
// *say.Problem, when it has.
func covered(p Person) error {
	switch {
	case p.Age < 0:
		return say.Wrong("guide.age-missing").In("age")
	case p.Age == 0:
		return say.Wrong("guide.under-one").In("age")
	case p.Age == 1:
		return say.Wrong("guide.under-two").In("age")
	case p.Age > maxAge:
		return say.Wrong("guide.age-high", p.Age).In("age")
	case p.Pregnant:
		return say.Wrong("guide.pregnant").In("pregnant")
	case p.Breastfeeding:
		return say.Wrong("guide.breastfeeding").In("breastfeeding")
	case p.SpecialDiet:
		return say.Wrong("guide.special-diet").In("specialDiet")
	case p.Sex != Female && p.Sex != Male:
		return say.Wrong("guide.sex-missing").In("sex")
	case p.Activity < Sedentary || p.Activity > Active:
		return say.Wrong("guide.activity-missing").In("activity")
	}
	return nil
}

// The levels and ages of Table A3-2 note a.
const (
	lowestFrom9 = 1600 // the lowest level for ages 9 and up
	childFrom   = 4    // from this age to childTo, dairy is 2½ at lowestFrom9 and up
	childTo     = 8
	childMost   = 2000 // the highest need of that age in Table A2-2
	childSuffix = "-child"
)

// SetFor finds the set of a pattern ("us", "vegetarian", "mediterranean",
// "dga2025", "class") for a person, with lines that say how: the need, and
// what the table's notes change by age. Errors are those of [CalorieNeed], and
// an unknown pattern.
func SetFor(p Person, pattern string) (Set, []say.Line, error) {
	switch pattern {
	case "us", "vegetarian", "mediterranean", "dga2025":
	case "class":
		s, _ := SetByID("class")
		return s, nil, nil
	default:
		return Set{}, nil, say.Wrong("guide.pattern-unknown", clip(pattern)).In("pattern")
	}
	need, err := CalorieNeed(p)
	if err != nil {
		return Set{}, nil, err
	}
	lines := []say.Line{say.New("guide.need", p.Age, need)}
	level := need
	if pattern == "dga2025" { // its table names no ages
		lines = append(lines, say.New("guide.other-edition"))
	} else if p.Age > childTo && need < lowestFrom9 {
		level = lowestFrom9
		lines = append(lines, say.New("guide.level-raised"))
	}
	s, ok := setAt(pattern, level)
	if !ok { // a need without a column: a test walks all of them
		return Set{}, nil, say.Wrong("guide.pattern-unknown", clip(pattern)).In("pattern")
	}
	if s.Edition == DGA2020 && level >= lowestFrom9 && p.Age >= childFrom && p.Age <= childTo {
		was, _ := s.Target(food.Dairy, food.NoSubgroup, false)
		s = child(s)
		lines = append(lines, say.New("guide.child-dairy", was.Low))
	}
	if s.Origin == rule.Memory {
		lines = append(lines, say.New("guide.recalled"))
	}
	return s, lines, nil
}

// child is a set with the dairy of a child of 4 to 8, Table A3-2 note a. It
// has an id of its own, so that a stored day finds it again.
func child(s Set) Set {
	s.ID += childSuffix
	s.AgeFrom, s.AgeTo = childFrom, childTo
	for i, t := range s.Targets {
		if t.Group == food.Dairy && t.Subgroup == food.NoSubgroup {
			s.Targets[i].Low = amount.Frac(5, 2)
		}
	}
	return s
}

// childSet finds a set by an id with the suffix of a child's.
func childSet(id string) (Set, bool) {
	base, ok := strings.CutSuffix(id, childSuffix)
	if !ok {
		return Set{}, false
	}
	s, ok := tableSet(base)
	if !ok || s.Edition != DGA2020 || s.Level < lowestFrom9 || s.Level > childMost {
		return Set{}, false
	}
	return child(s), true
}

// isChild tells whether the set is one that [SetFor] made for ages 4 to 8.
func (s Set) isChild() bool { return strings.HasSuffix(s.ID, childSuffix) && s.Pattern != PatternOwn }
