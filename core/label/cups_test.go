package label

import (
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

func grams(low, best, high int64) amount.Amount {
	return amount.Between(amount.Int(low), amount.Int(best), amount.Int(high))
}

var cupsTests = []struct {
	text    string
	per     amount.Amount // grams a cup, zero for unknown
	want    string
	flag    string
	problem string
}{
	{"1/2 cup (130g)", amount.Amount{}, "1/2", "", ""},
	{"1/2 cup (130g)", grams(250, 255, 260), "1/2", "", ""}, // canned beans with liquid
	{"1/2 cup (130g)", grams(150, 160, 170), "1/2", "label.cup-weight", ""},
	{"2 Tbsp (30 mL)", amount.Amount{}, "1/8", "", ""},
	{"8 fl oz (240 mL)", amount.Amount{}, "1", "", ""},
	{"240 mL", amount.Amount{}, "1", "", ""},
	{"1 can (355 mL)", amount.Amount{}, "71/48", "", ""},
	{"1 cup (113 g)", grams(240, 245, 250), "113/250..113/245..113/240", "label.plastic-cup", ""},
	{"1 cup (113 g)", amount.Amount{}, "1", "", ""}, // the food is needed to see it
	{"1 cup (240 g)", grams(240, 245, 250), "1", "", ""},
	{"1 cup (30 g)", grams(28, 30, 34), "1", "", ""}, // cereal
	{"1/2 cup (60 g)", grams(240, 245, 250), "1/2", "label.cup-weight", ""},
	{"2 halves (128 g)", grams(150, 160, 200), "16/25..4/5..64/75", "", ""},
	{"2 halves (128 g)", amount.Amount{}, "", "", "label.needs-weight"},
	{"122 g", grams(244, 244, 244), "1/2", "", ""},
	{"4 oz", grams(112, 112, 112), "1", "", ""}, // a label's ounce is 28 g
	{"1 container (6 oz)", grams(168, 168, 168), "1", "", ""},
	{"1 CONTAINER (ABOUT 1 CUP)", amount.Amount{}, "7/8..1..9/8", "", ""},
	{"about 1/4 cup", amount.Amount{}, "1/8..1/4..3/8", "", ""},
	{"1 pudding cup", grams(240, 240, 240), "", "", "label.no-cups"},
	{"2 halves", grams(240, 240, 240), "", "", "label.no-cups"},
	{"2-3 Tbsp", amount.Amount{}, "1/8..5/32..3/16", "", ""},
	{"1/4 cup dry (45 g) makes 3/4 cup cooked", amount.Amount{}, "1/4", "", ""},
	{"12 crackers (about 1/2 cup)", amount.Amount{}, "3/8..1/2..5/8", "", ""},
}

func TestCups(t *testing.T) {
	for _, tt := range cupsTests {
		s, err := ReadServing(tt.text)
		if err != nil {
			t.Errorf("%q: %v", tt.text, err)
			continue
		}
		cups, steps, flags, err := s.Cups(tt.per)
		if tt.problem != "" {
			if p, ok := err.(*say.Problem); !ok || p.ID != tt.problem {
				t.Errorf("%q: %s, %v; want %s", tt.text, cups, err, tt.problem)
			}
			continue
		}
		flag := ""
		if len(flags) > 0 {
			flag = flags[0].ID
		}
		if err != nil || cups.String() != tt.want || flag != tt.flag {
			t.Errorf("%q: %s [%s] %v, want %s [%s]", tt.text, cups, flag, err, tt.want, tt.flag)
		}
		checkSteps(t, tt.text, steps)
	}
}

// checkSteps sees to it that there is working and that each line names a rule.
func checkSteps(t *testing.T, what string, steps []rule.Step) {
	t.Helper()
	if len(steps) == 0 {
		t.Errorf("%s: no working", what)
	}
	for _, s := range steps {
		if _, ok := rule.ByID(s.Rule); !ok || s.Line.IsZero() {
			t.Errorf("%s: the step %v has no rule or no line", what, s)
		}
	}
}

func TestGrams(t *testing.T) {
	for _, tt := range []struct {
		text, want, problem string
		per                 amount.Amount
	}{
		{"1/2 cup (130g)", "130", "", amount.Amount{}},
		{"4 oz", "112", "", amount.Amount{}},
		{"1/2 cup", "120", "", grams(240, 240, 240)},
		{"1/2 cup", "", "label.needs-weight", amount.Amount{}},
		{"240 mL", "245", "", grams(245, 245, 245)},
		{"2 halves", "", "label.no-cups", grams(245, 245, 245)},
	} {
		s, err := ReadServing(tt.text)
		if err != nil {
			t.Fatal(err)
		}
		g, steps, err := s.Grams(tt.per)
		if tt.problem != "" {
			if p, ok := err.(*say.Problem); !ok || p.ID != tt.problem {
				t.Errorf("%q: %v, want %s", tt.text, err, tt.problem)
			}
			continue
		}
		if err != nil || g.String() != tt.want {
			t.Errorf("%q: %s g, %v; want %s", tt.text, g, err, tt.want)
		}
		checkSteps(t, tt.text, steps)
	}
}

func TestSodiumRange(t *testing.T) {
	for printed, want := range map[int64]string{0: "0..0..5", 5: "5..5..15/2", 10: "15/2..10..25/2", 135: "265/2..135..275/2", 140: "275/2..140..145", 150: "145..150..155", 460: "455..460..465", 233: "465/2..233..467/2"} {
		if got := (Fact{Printed: amount.Int(printed)}).Range(Sodium); got.String() != want {
			t.Errorf("%d mg: %s, want %s", printed, got, want)
		}
	}
	if got := (Fact{Printed: amount.Int(5), LessThan: true}).Range(Sodium); got.String() != "0..5/2..5" {
		t.Errorf("less than 5 mg: %s", got)
	}
}

// TestSodiumRangeIsTheRule: 21 CFR 101.9(c)(4) from its text gives back the
// printed number for true amounts inside the range, and another outside.
func TestSodiumRangeIsTheRule(t *testing.T) {
	print := func(x amount.Num) amount.Num {
		switch {
		case x.Less(amount.Int(5)):
			return amount.Num{}
		case !amount.Int(140).Less(x):
			return x.Round(amount.Int(5))
		}
		return x.Round(amount.Int(10))
	}
	for mg := int64(0); mg <= 600; mg += 5 {
		printed := amount.Int(mg)
		if !print(printed).Equal(printed) {
			continue
		}
		r := Fact{Printed: printed}.Range(Sodium)
		for x := int64(0); x <= 8*620; x++ {
			at := amount.Frac(x, 8)
			if in := r.Low.Less(at) && at.Less(r.High); in != print(at).Equal(printed) && !at.Equal(r.Low) && !at.Equal(r.High) {
				t.Fatalf("%s mg is printed %s; the range of %d is %s", at, print(at), mg, r)
			}
		}
	}
}

func TestSugarsRange(t *testing.T) {
	for _, tt := range []struct {
		f    Fact
		want string
	}{
		{Fact{Printed: amount.Int(0)}, "0..0..1/2"},
		{Fact{Printed: amount.Int(1)}, "1/2..1..3/2"},
		{Fact{Printed: amount.Int(10)}, "19/2..10..21/2"},
		{Fact{Printed: amount.Int(1), LessThan: true}, "0..1/2..1"},
		{Fact{Printed: amount.Frac(5, 2)}, "9/4..5/2..11/4"},
	} {
		if got := tt.f.Range(AddedSugars); got.String() != tt.want {
			t.Errorf("%+v: %s, want %s", tt.f, got, tt.want)
		}
	}
}

func TestIntake(t *testing.T) {
	f := Fact{Printed: amount.Int(460)}
	in := f.Intake(Sodium, amount.Exactly(amount.Frac(7, 2)), amount.Exactly(amount.Frac(1, 2)), FromFour)
	if in.Eaten.String() != "3185/2..1610..3255/2" || in.PerCup.String() != "910..920..930" || !in.HasPerCup || in.PerServing.String() != "455..460..465" {
		t.Errorf("%+v", in)
	}
	if !in.HasPercent || !in.Percent.Best.Equal(amount.Int(70)) {
		t.Errorf("percent %s, want 70: 1610 of 2300 mg", in.Percent)
	}
	checkSteps(t, "intake", in.Steps)
	// A toddler's Daily Value is 1500 mg.
	if in := f.Intake(Sodium, amount.Exactly(amount.Int(1)), amount.Amount{}, Toddler); !in.Percent.Best.Equal(amount.Frac(92, 3)) || in.HasPerCup {
		t.Errorf("%+v", in)
	}
	if in := (Fact{Printed: amount.Int(20)}).Intake(TotalSugars, amount.Exactly(amount.Int(1)), amount.Amount{}, FromFour); in.HasPercent {
		t.Error("total sugars have no Daily Value")
	}
}

// dailyValues are those of 21 CFR 101.9(c)(9).
func TestDailyValues(t *testing.T) {
	for _, tt := range []struct {
		n    Nutrient
		who  Eater
		want int64
	}{{Sodium, FromFour, 2300}, {AddedSugars, FromFour, 50}, {Sodium, Toddler, 1500}, {AddedSugars, Toddler, 25}, {TotalSugars, FromFour, 0}} {
		if got, ok := DailyValue(tt.n, tt.who); ok != (tt.want > 0) || !got.Equal(amount.Int(tt.want)) {
			t.Errorf("%s %d: %s", tt.n.ID(), tt.who, got)
		}
	}
}

func TestFiveTwenty(t *testing.T) {
	for _, tt := range []struct {
		p    amount.Amount
		want Level
		id   string
	}{
		{grams(5, 5, 5), Low, "low"},
		{grams(0, 0, 0), Low, "low"},
		{grams(6, 6, 6), Between5And20, "middle"},
		{grams(20, 20, 20), High, "high"},
		{grams(4, 5, 6), CloseToCall, "close"},
		{grams(19, 20, 21), CloseToCall, "close"},
	} {
		l, line := FiveTwenty(Sodium, tt.p)
		if l != tt.want || !strings.HasSuffix(line.ID, tt.id) {
			t.Errorf("%s %%: %d %s", tt.p, l, line.ID)
		}
		id, _ := RuleOf(line)
		checkSteps(t, "5 and 20 percent", []rule.Step{{Rule: id, Line: line}})
	}
}

func TestTakenOut(t *testing.T) {
	for _, tt := range []struct {
		food  string
		t     Treatment
		n     Nutrient
		want  string
		study string
		weak  bool
	}{
		{"beans", Draining, Sodium, "8..36..36", "culinary-2011", true},
		{"beans", Rinsing, Sodium, "207/10..41..41", "culinary-2011", true},
		{"green-beans", Draining, Sodium, "0", "usda-2011", false},
		{"corn", Rinsing, Sodium, "12..12..21", "usda-2011", false},
		{"peaches", Draining, TotalSugars, "107/5", "sr28", false},
		{"pears", Draining, TotalSugars, "0", "sr28", false}, // the table has -8: nothing is taken out
		{"tuna", Rinsing, Sodium, "80", "jada-1983", false},
		{"peaches", JuiceForHeavy, TotalSugars, "449/10", "sr28", false},
	} {
		r, ok := TakenOut(tt.food, tt.t, tt.n)
		if !ok || r.Percent.String() != tt.want || r.Studies[0] != tt.study || r.Weak != tt.weak || len(r.Sources) == 0 {
			t.Errorf("%s %s: %s by %v weak %v", tt.food, tt.t, r.Percent, r.Studies, r.Weak)
		}
	}
	if _, ok := TakenOut("soup", Rinsing, Sodium); ok {
		t.Error("nobody measured soup")
	}
	if fs := RinsedFoods(); len(fs) != 13 {
		t.Errorf("%d foods: %v", len(fs), fs)
	}
}

func TestLeft(t *testing.T) {
	r, _ := TakenOut("beans", Rinsing, Sodium)
	left, step := r.Left(amount.Exactly(amount.Int(1000)))
	if left.String() != "590..590..793" {
		t.Errorf("%s mg left of 1000", left)
	}
	checkSteps(t, "rinsing", []rule.Step{step})
	r, _ = TakenOut("pears", Draining, TotalSugars)
	if left, step := r.Left(amount.Exactly(amount.Int(20))); left.String() != "20" || step.Line.ID != "label.rinse-none" {
		t.Errorf("%s, %s", left, step.Line.ID)
	}
}
