package amount

import (
	"math/rand/v2"
	"testing"
)

var mixedTests = []struct {
	x       Num
	text    string
	rounded bool
	less    bool
}{
	{Int(0), "0", false, false},
	{Int(3), "3", false, false},
	{Frac(1, 4), "¼", false, false},
	{Frac(1, 3), "⅓", false, false},
	{Frac(3, 8), "⅜", false, false},
	{Frac(1, 2), "½", false, false},
	{Frac(5, 8), "⅝", false, false},
	{Frac(2, 3), "⅔", false, false},
	{Frac(3, 4), "¾", false, false},
	{Frac(7, 8), "⅞", false, false},
	{Frac(9, 4), "2¼", false, false},
	{Frac(7, 3), "2⅓", false, false},
	{Frac(1, 5), "¼", true, false},    // 0.2 is 0.05 off a quarter, 0.075 off an eighth
	{Frac(29, 30), "1", true, false},  // rounds up into the next whole
	{Frac(101, 50), "2", true, false}, // 2.02
	{Frac(1, 16), "⅛", true, false},   // halfway goes up
	{Frac(1, 17), "⅛", true, true},    // "less than ⅛", never 0
	{Frac(1, 1000), "⅛", true, true},
	{Frac(-9, 4), "−2¼", false, false},
	{Frac(-1, 100), "⅛", true, true},
	{Int(1_000_000_000_000), "1000000000000", false, false},
}

func TestMixed(t *testing.T) {
	for _, tt := range mixedTests {
		if got := Mixed(tt.x); got != (Printed{tt.text, tt.rounded, tt.less}) {
			t.Errorf("Mixed(%s) = %+v, want %q rounded %v less %v", tt.x, got, tt.text, tt.rounded, tt.less)
		}
	}
}

var decimalTests = []struct {
	x       Num
	places  int
	text    string
	rounded bool
}{
	{Int(0), 2, "0", false},
	{Frac(1, 2), 1, "0.5", false},
	{Frac(1, 3), 2, "0.33", true},
	{Frac(5, 2), 0, "3", true}, // halves up
	{Frac(201, 200), 2, "1.01", true},
	{Frac(1001, 1000), 3, "1.001", false},
	{Frac(1001, 1000), 2, "1", true},
	{Frac(-5, 4), 2, "-1.25", false},
	{Frac(-1, 1000), 1, "0", true},
	{Frac(2365882365, 10000000), 3, "236.588", true},
}

func TestDecimal(t *testing.T) {
	for _, tt := range decimalTests {
		text, rounded := Decimal(tt.x, tt.places)
		if text != tt.text || rounded != tt.rounded {
			t.Errorf("Decimal(%s, %d) = %q %v, want %q %v", tt.x, tt.places, text, rounded, tt.text, tt.rounded)
		}
	}
}

// TestReadPrint: read(print(x)) = x where printing did not round, for both
// ways to print and for the exact form.
func TestReadPrint(t *testing.T) {
	for n := int64(0); n <= 30*24; n++ {
		x := Frac(n, 24)
		p := Mixed(x)
		if exact := n%3 == 0 || n%8 == 0; exact != !p.Rounded {
			t.Fatalf("%s: printed %q, rounded %v", x, p.Text, p.Rounded)
		}
		if r, err := Read(p.Text); !p.Rounded && (err != nil || !r.Amount.Equal(Exactly(x))) {
			t.Errorf("%s is printed %q and read %s, %v", x, p.Text, r.Amount, err)
		}
		if r, err := Read(x.String()); err != nil || !r.Amount.Equal(Exactly(x)) {
			t.Errorf("%s is read %s, %v", x, r.Amount, err)
		}
	}
	r := rand.New(rand.NewPCG(11, 12))
	for range 3000 {
		x := Frac(r.Int64N(1_000_000), 1000)
		text, rounded := Decimal(x, 3)
		got, err := Read(text + " g") // grams, since 0.333 of a cup is a third
		if rounded || err != nil || !got.Amount.Equal(Exactly(x)) {
			t.Fatalf("%s is printed %q and read %s, %v", x, text, got.Amount, err)
		}
	}
}

// TestMixedIsNearest: no other mark of the cup is nearer than the printed one.
func TestMixedIsNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	gap := func(a, b Num) Num {
		d := a.Sub(b)
		if d.Sign() < 0 {
			return d.Neg()
		}
		return d
	}
	for range 3000 {
		x := Frac(r.Int64N(10000), r.Int64N(999)+1)
		p := Mixed(x)
		if p.Less {
			if x.Sign() <= 0 || !x.Less(Frac(1, 8)) {
				t.Fatalf("%s is printed as less than ⅛", x)
			}
			continue
		}
		back, err := Read(p.Text)
		if err != nil {
			t.Fatalf("%s: %v", p.Text, err)
		}
		for _, m := range []int64{0, 3, 6, 8, 9, 12, 15, 16, 18, 21, 24} { // 24ths
			if mark := x.FloorRound(Int(1)).Add(Frac(m, 24)); gap(x, mark).Less(gap(x, back.Amount.Best)) {
				t.Fatalf("%s is printed %q, but %s is nearer", x, p.Text, mark)
			}
		}
	}
}

// What is typed is what is read back, exactly or to nine places.
func TestTyped(t *testing.T) {
	for _, tt := range []struct {
		n    Num
		want string
	}{
		{Int(0), "0"}, {Int(3), "3"}, {Frac(1, 2), "1/2"}, {Frac(5, 4), "1 1/4"}, {Frac(15, 2), "7 1/2"}, {Frac(1, 3_000_000_000), "0"},
	} {
		if got := Typed(tt.n); got != tt.want {
			t.Errorf("Typed(%v) = %q, want %q", tt.n, got, tt.want)
		}
		if r, err := Read(tt.want); err != nil || tt.n.Sub(r.Amount.Best).Cmp(Frac(1, 1_000_000_000)) > 0 {
			t.Errorf("%q reads back as %v, %v", tt.want, r.Amount, err)
		}
	}
}
