package guide_test

import (
	"errors"
	"strconv"
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// wrongID is the id of a problem, and its field.
func wrongID(err error) (id, field string) {
	var p *say.Problem
	if errors.As(err, &p) {
		return p.ID, p.Field
	}
	return "", ""
}

var notCovered = []struct {
	p         guide.Person
	id, field string
}{
	{guide.Person{Age: -1, Sex: guide.Female, Activity: guide.Active}, "guide.age-missing", "age"},
	{guide.Person{Sex: guide.Female, Activity: guide.Active}, "guide.under-one", "age"},
	{guide.Person{Age: 1, Sex: guide.Female, Activity: guide.Active}, "guide.under-two", "age"},
	{guide.Person{Age: 121, Sex: guide.Female, Activity: guide.Active}, "guide.age-high", "age"},
	{guide.Person{Age: 1 << 40, Sex: guide.Female, Activity: guide.Active}, "guide.age-high", "age"},
	{guide.Person{Age: 30, Sex: guide.Female, Activity: guide.Active, Pregnant: true}, "guide.pregnant", "pregnant"},
	{guide.Person{Age: 30, Sex: guide.Female, Activity: guide.Active, Breastfeeding: true}, "guide.breastfeeding", "breastfeeding"},
	{guide.Person{Age: 30, Sex: guide.Male, Activity: guide.Active, SpecialDiet: true}, "guide.special-diet", "specialDiet"},
	{guide.Person{Age: 30, Activity: guide.Active}, "guide.sex-missing", "sex"},
	{guide.Person{Age: 30, Sex: 9, Activity: guide.Active}, "guide.sex-missing", "sex"},
	{guide.Person{Age: 30, Sex: guide.Male}, "guide.activity-missing", "activity"},
	{guide.Person{Age: 30, Sex: guide.Male, Activity: 200}, "guide.activity-missing", "activity"},
}

func TestNotCovered(t *testing.T) {
	for _, c := range notCovered {
		_, err := guide.CalorieNeed(c.p)
		if id, field := wrongID(err); id != c.id || field != c.field {
			t.Errorf("%+v: %v, want %s in %s", c.p, err, c.id, c.field)
		}
		if _, _, err := guide.SetFor(c.p, "us"); err == nil {
			t.Errorf("%+v got a set", c.p)
		}
		if s, _, err := guide.SetFor(c.p, "class"); err != nil || s.ID != "class" {
			t.Errorf("%+v is not offered the class numbers: %v", c.p, err)
		}
	}
	someone := guide.Person{Age: 30, Sex: guide.Male, Activity: guide.Active}
	for _, pattern := range []string{"", "toddler", "own", "keto", "us-2000"} {
		_, _, err := guide.SetFor(someone, pattern)
		if id, field := wrongID(err); id != "guide.pattern-unknown" || field != "pattern" {
			t.Errorf("pattern %q: %v", pattern, err)
		}
	}
}

// everybody calls f with every person whom the calorie table covers.
func everybody(f func(guide.Person)) {
	for age := 2; age <= 120; age++ {
		for _, sex := range []guide.Sex{guide.Female, guide.Male} {
			for a := guide.Sedentary; a <= guide.Active; a++ {
				f(guide.Person{Age: age, Sex: sex, Activity: a})
			}
		}
	}
}

func has(lines []say.Line, id string) bool {
	for _, l := range lines {
		if l.ID == id {
			return true
		}
	}
	return false
}

// Table A3-2 note a, for everybody: levels below 1,600 are for ages 2 to 8;
// a child of 4 to 8 on 1,600 or more has 2½ cups of dairy. In the
// Mediterranean-style pattern ages 3 to 8 have 2½ cups and 9 to 18 have 3.
func TestSetForEverybody(t *testing.T) {
	raised, children := 0, 0
	everybody(func(p guide.Person) {
		need, err := guide.CalorieNeed(p)
		if err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		for _, pattern := range []string{"us", "vegetarian", "mediterranean", "dga2025"} {
			s, lines, err := guide.SetFor(p, pattern)
			if err != nil || s.Pattern != pattern {
				t.Fatalf("%+v, %s: %s, %v", p, pattern, s.ID, err)
			}
			if !has(lines, "guide.need") {
				t.Errorf("%+v, %s: the need is not said", p, pattern)
			}
			again, ok := guide.SetByID(s.ID)
			if !ok || again.ID != s.ID || len(again.Targets) != len(s.Targets) {
				t.Errorf("a stored day would not find %s", s.ID)
			}
			if pattern == "dga2025" {
				if s.Level != need || !has(lines, "guide.other-edition") {
					t.Errorf("%+v, %s: level %d", p, pattern, s.Level)
				}
				continue
			}
			want := need
			if p.Age >= 9 && need < 1600 {
				want = 1600
				raised++
			}
			if s.Level != want || has(lines, "guide.level-raised") != (want != need) {
				t.Errorf("%+v, %s: level %d, want %d", p, pattern, s.Level, want)
			}
			if p.Age < s.AgeFrom || s.AgeTo > 0 && p.Age > s.AgeTo {
				// A child who needs more has a level made for ages 9 and up;
				// only under 4 would the notes be silent, and nobody needs it.
				t.Errorf("%+v, %s: the set %s is for ages %d to %d", p, pattern, s.ID, s.AgeFrom, s.AgeTo)
			}
			dairy, _ := s.Target(food.Dairy, food.NoSubgroup, false)
			column, _ := guide.SetByID(map[string]string{"us": "us-", "vegetarian": "veg-", "mediterranean": "med-"}[pattern] + strconv.Itoa(s.Level))
			printed, _ := column.Target(food.Dairy, food.NoSubgroup, false)
			cups := printed.Low
			switch {
			case pattern == "mediterranean" && p.Age >= 9 && p.Age <= 18:
				cups = amount.Int(3)
			case pattern == "mediterranean" && p.Age >= 3 && p.Age <= 8, p.Age >= 4 && p.Age <= 8 && s.Level >= 1600:
				cups = amount.Frac(5, 2)
			}
			if changed := !cups.Equal(printed.Low); has(lines, "guide.dairy-age") != changed || !dairy.Low.Equal(cups) || (s.ID != column.ID) != changed {
				t.Errorf("%+v, %s: dairy %v, want %v", p, s.ID, dairy.Low, cups)
			} else if changed {
				children++
			}
			again2, _ := again.Target(food.Dairy, food.NoSubgroup, false)
			if !again2.Low.Equal(dairy.Low) {
				t.Errorf("%s found again has other dairy", s.ID)
			}
			if has(lines, "guide.recalled") != (pattern != "us") {
				t.Errorf("%s: recalled figures not said", s.ID)
			}
		}
	})
	if raised == 0 || children == 0 {
		t.Errorf("nobody had a level raised (%d) or a child's dairy (%d)", raised, children)
	}
}

func TestSetsByAge(t *testing.T) {
	for _, id := range []string{"us-1400-child", "us-2200-child", "med-1200-child", "med-1400-teen", "us-1600-teen", "class-child", "dga2025-1600-child", "toddler-1000-child", "us-1600-child-child", "-child", strings.Repeat("-child", 100_000)} {
		if s, ok := guide.SetByID(id); ok {
			t.Errorf("%.40s is a set: %+v", id, s)
		}
	}
	for id, want := range map[string]struct {
		dairy amount.Num
		title string
	}{
		"us-1600-child":  {amount.Frac(5, 2), "pattern.ages(pattern.us(1600), 4, 8)"},
		"med-1000-child": {amount.Frac(5, 2), "pattern.ages(pattern.mediterranean(1000), 3, 8)"},
		"med-1800-child": {amount.Frac(5, 2), "pattern.ages(pattern.mediterranean(1800), 3, 8)"},
		"med-3200-teen":  {amount.Int(3), "pattern.ages(pattern.mediterranean(3200), 9, 18)"},
	} {
		s, ok := guide.SetByID(id)
		if d, _ := s.Target(food.Dairy, food.NoSubgroup, false); !ok || !d.Low.Equal(want.dairy) || s.Title().String() != want.title {
			t.Errorf("%s: %v, %v", id, d.Low, s.Title())
		}
	}
	// The change is in the copy: the table's own column stays.
	s, _ := guide.SetByID("med-1800")
	if d, _ := s.Target(food.Dairy, food.NoSubgroup, false); !d.Low.Equal(amount.Int(2)) {
		t.Errorf("med-1800 has %v cups of dairy, the table 2", d.Low)
	}
}

// Every step of a person's set names a rule.
func TestPersonSteps(t *testing.T) {
	everybody(func(p guide.Person) {
		for _, pattern := range []string{"us", "mediterranean", "dga2025"} {
			_, steps, err := guide.PersonSet(p, pattern)
			if err != nil || len(steps) == 0 {
				t.Fatalf("%+v: %v", p, err)
			}
			for _, s := range steps {
				if _, ok := rule.ByID(s.Rule); !ok || s.Line.IsZero() {
					t.Errorf("%+v, %s: step %v of rule %q", p, pattern, s.Line, s.Rule)
				}
			}
		}
	})
}
