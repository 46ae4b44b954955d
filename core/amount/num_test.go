package amount

import (
	"math/big"
	"math/rand/v2"
	"testing"
)

// random makes numbers of all sizes: kitchen fractions mostly, some near the
// ends of int64, some beyond.
func random(r *rand.Rand) (Num, *big.Rat) {
	n, d := r.Int64N(2000)-1000, r.Int64N(96)+1
	switch r.IntN(8) {
	case 0:
		n = r.Int64() - r.Int64()
	case 1:
		d = r.Int64() | 1
	case 2:
		n, d = minInt, r.Int64N(9)+1
	case 3:
		x := Frac(r.Int64()|1, 7).Mul(Frac(r.Int64()|1, 3))
		y := new(big.Rat).Set(x.rat())
		return x, y
	}
	return Frac(n, d), big.NewRat(n, d)
}

// TestArithmeticAgainstBig compares every operation with math/big's.
func TestArithmeticAgainstBig(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		x, bx := random(r)
		y, by := random(r)
		check := func(op string, got Num, want *big.Rat) {
			t.Helper()
			if got.rat().Cmp(want) != 0 {
				t.Fatalf("%s %s %s = %s, want %s", x, op, y, got, want.RatString())
			}
			if got.big == nil && (got.n == minInt || got.den() <= 0 || gcd(abs(got.n), uint64(got.den())) != 1 && got.n != 0) {
				t.Fatalf("%s %s %s = %d/%d is not in lowest terms", x, op, y, got.n, got.d)
			}
		}
		check("+", x.Add(y), new(big.Rat).Add(bx, by))
		check("-", x.Sub(y), new(big.Rat).Sub(bx, by))
		check("*", x.Mul(y), new(big.Rat).Mul(bx, by))
		check("neg", x.Neg(), new(big.Rat).Neg(bx))
		if by.Sign() != 0 {
			check("/", x.Quo(y), new(big.Rat).Quo(bx, by))
		}
		if x.Cmp(y) != bx.Cmp(by) || x.Sign() != bx.Sign() || x.IsInt() != bx.IsInt() || x.Equal(y) != (bx.Cmp(by) == 0) || x.Less(y) != (bx.Cmp(by) < 0) {
			t.Fatalf("%s against %s: comparison differs from math/big", x, y)
		}
		if x.String() != bx.RatString() {
			t.Fatalf("String: %q, want %q", x, bx.RatString())
		}
		if lo, hi := x.Min(y), x.Max(y); hi.Less(lo) || !lo.Add(hi).Equal(x.Add(y)) {
			t.Fatalf("Min, Max of %s and %s: %s and %s", x, y, lo, hi)
		}
	}
}

func TestAddingInAnyOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	xs := make([]Num, 2000)
	for i := range xs {
		xs[i] = Frac(r.Int64N(5000), r.Int64N(997)+1)
	}
	sum := func() (s Num) {
		for _, x := range xs {
			s = s.Add(x)
		}
		return s
	}
	want := sum()
	r.Shuffle(len(xs), func(i, j int) { xs[i], xs[j] = xs[j], xs[i] })
	if got := sum(); !got.Equal(want) {
		t.Errorf("shuffled sum differs: %s and %s", got, want)
	}
	if want.big == nil {
		t.Error("the sum should be too large for two machine words, or this tests nothing")
	}
}

func TestZeroNumIsZero(t *testing.T) {
	var z Num
	if !z.Equal(Int(0)) || z.Sign() != 0 || !z.IsInt() || z.String() != "0" || !z.Add(Int(3)).Equal(Int(3)) || !z.Neg().Equal(z) || !z.Mul(Int(5)).Equal(z) {
		t.Error("the zero Num must behave as 0")
	}
	if n, d, ok := z.Ints(); n != 0 || d != 1 || !ok {
		t.Errorf("Ints of 0: %d/%d %v", n, d, ok)
	}
}

func TestSmallestInt(t *testing.T) {
	x := Int(minInt)
	if got := x.Neg().String(); got != "9223372036854775808" {
		t.Errorf("-(-2^63) = %s", got)
	}
	if got := Frac(1, minInt).String(); got != "-1/9223372036854775808" {
		t.Errorf("1/-2^63 = %s", got)
	}
	if got := Frac(minInt, minInt); !got.Equal(Int(1)) {
		t.Errorf("-2^63/-2^63 = %s", got)
	}
}

var roundTests = []struct {
	x, step, down, near Num
}{
	{Frac(17, 8), Frac(1, 2), Int(2), Int(2)},
	{Frac(9, 4), Frac(1, 2), Int(2), Frac(5, 2)}, // a half goes up
	{Frac(-9, 4), Frac(1, 2), Frac(-5, 2), Int(-2)},
	{Int(3), Int(1), Int(3), Int(3)},
	{Frac(5, 3), Frac(1, 3), Frac(5, 3), Frac(5, 3)},
	{Frac(145, 1), Int(10), Int(140), Int(150)},
}

func TestRound(t *testing.T) {
	for _, tt := range roundTests {
		if got := tt.x.FloorRound(tt.step); !got.Equal(tt.down) {
			t.Errorf("FloorRound(%s, %s) = %s, want %s", tt.x, tt.step, got, tt.down)
		}
		if got := tt.x.Round(tt.step); !got.Equal(tt.near) {
			t.Errorf("Round(%s, %s) = %s, want %s", tt.x, tt.step, got, tt.near)
		}
	}
}

func TestRoundProperty(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 2000 {
		x, _ := random(r)
		step := Frac(r.Int64N(20)+1, r.Int64N(12)+1)
		down := x.FloorRound(step)
		if x.Less(down) || !x.Less(down.Add(step)) || !down.Quo(step).IsInt() {
			t.Fatalf("FloorRound(%s, %s) = %s", x, step, down)
		}
		gap := x.Sub(x.Round(step))
		if gap.Sign() < 0 {
			gap = gap.Neg()
		}
		if step.Mul(Frac(1, 2)).Less(gap) {
			t.Fatalf("Round(%s, %s) is more than half a step off", x, step)
		}
	}
}

func TestPanics(t *testing.T) {
	for name, f := range map[string]func(){
		"Frac over zero":   func() { Frac(1, 0) },
		"Inv of zero":      func() { Int(0).Inv() },
		"Quo by zero":      func() { Int(1).Quo(Num{}) },
		"Round to nothing": func() { Int(1).Round(Num{}) },
		"Round backwards":  func() { Int(1).FloorRound(Int(-1)) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s must panic", name)
				}
			}()
			f()
		}()
	}
}

func TestMarshalText(t *testing.T) {
	b, err := Frac(7, 4).MarshalText()
	if err != nil || string(b) != "7/4" {
		t.Errorf("%q, %v", b, err)
	}
}
