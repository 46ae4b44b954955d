package label

import (
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

var servingsTests = []struct {
	text, want    string
	about, varied bool
}{
	{"5", "5", false, false},
	{"3.5", "7/2", false, false},
	{"3 1/2", "7/2", false, false},
	{"3½", "7/2", false, false},
	{"3,5", "7/2", false, false},
	{"5 servings per container", "5", false, false},
	{"Servings Per Container: 8", "8", false, false},
	{"8 porciones por envase", "8", false, false},
	{"Exactly 4", "4", false, false},
	{"two servings", "2", false, false},
	{"1.5", "3/2", false, false},
	{"2.67", "8/3", false, false},
	{"6 to 8", "6..7..8", false, false},
	{"about 2.5", "9/4..5/2..11/4", true, false},
	{"about 1", "1/2..1..3/2", true, false},
	{"about 2", "3/2..2..9/4", true, false},
	{"about 5", "19/4..5..11/2", true, false},
	{"about 4.5", "17/4..9/2..19/4", true, false},
	{"about 6", "11/2..6..13/2", true, false},
	{"about 27.5", "109/4..55/2..111/4", true, false},
	{"Servings per container about 3", "11/4..3..13/4", true, false},
	{"approx. 8", "15/2..8..17/2", true, false},
	{"~3", "11/4..3..13/4", true, false},
	{"Varied (about 6)", "11/2..6..13/2", true, true},
	{"varied, usually 5", "5", false, true},
}

func TestReadServings(t *testing.T) {
	for _, tt := range servingsTests {
		a, m, err := ReadServings(tt.text)
		if err != nil || a.String() != tt.want || m.About != tt.about || m.Varied != tt.varied {
			t.Errorf("%q: %s about %v varied %v, %v; want %s", tt.text, a, m.About, m.Varied, err, tt.want)
		}
		if step, ok := m.Step(); ok != tt.about {
			t.Errorf("%q: a working line %v, want %v", tt.text, ok, tt.about)
		} else if ok {
			checkSteps(t, tt.text, []rule.Step{step})
		}
		if err == nil && !m.Printed.Equal(a.Best) {
			t.Errorf("%q: printed %s, best %s", tt.text, m.Printed, a.Best)
		}
	}
}

func TestReadServingsRefuses(t *testing.T) {
	for _, tt := range []struct{ text, id string }{
		{"", "label.servings-empty"},
		{"  ", "label.servings-empty"},
		{"3 cups", "label.servings-unit"},
		{"15 oz", "label.servings-unit"},
		{"1/2 cup", "label.servings-unit"},
		{"2 cuos", "label.servings-unit"},
		{"0", "label.servings-zero"},
		{"0 servings", "label.servings-zero"},
		{"about 0", "label.servings-zero"},
		{"-3", "label.servings-negative"},
		{"- 3", "label.servings-negative"},
		{"1001", "label.servings-huge"},
		{"1,500", "label.servings-huge"},
		{"Varied", "label.servings-varied"},
		{"Varied servings per container", "label.servings-varied"},
		{"servings", "label.servings-none"},
		{"🥫", "label.servings-none"},
		{"3 cookies", "label.servings-rest"},
		{"1/0", "amount.over-zero"},
		{"99999999999", "amount.huge"},
		{strings.Repeat("9 ", 5_000_000), "label.servings-long"},
	} {
		a, _, err := ReadServings(tt.text)
		if p, ok := err.(*say.Problem); !ok || p.ID != tt.id {
			t.Errorf("%.40q: %s, %v; want %s", tt.text, a, err, tt.id)
		}
	}
}

// printedServings is 21 CFR 101.9(b)(8)(i) written the other way round, from
// its text: what number a label prints for so many true servings.
func printedServings(x amount.Num) amount.Num {
	two, five := amount.Int(2), amount.Int(5)
	if !x.Less(two) && !five.Less(x) {
		return x.Round(amount.Frac(1, 2))
	}
	return x.Round(amount.Int(1))
}

// TestServingsRangeIsTheRule: a true number inside the range is printed as the
// number, one outside isn't. The ends themselves may be printed either way.
func TestServingsRangeIsTheRule(t *testing.T) {
	for n := int64(1); n <= 40; n++ {
		printed := amount.Frac(n, 2)
		if !printedServings(printed).Equal(printed) {
			continue // 1.5 or 5.5: no rule gives it
		}
		r := servingsRange(printed)
		for x := int64(0); x <= 22*48; x++ {
			at := amount.Frac(x, 48)
			inside := r.Low.Less(at) && at.Less(r.High)
			outside := at.Less(r.Low) || r.High.Less(at)
			got := printedServings(at).Equal(printed)
			if inside && !got || outside && got {
				t.Errorf("%s servings are printed %s, but the range of %s is %s", at, printedServings(at), printed, r)
			}
		}
	}
}
