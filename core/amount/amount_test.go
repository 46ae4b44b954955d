package amount

import (
	"math/rand/v2"
	"testing"
)

// someAmount makes an amount that is not negative, one in three exact.
func someAmount(r *rand.Rand) Amount {
	n := func() Num { return Frac(r.Int64N(400), r.Int64N(24)+1) }
	if r.IntN(3) == 0 {
		return Exactly(n())
	}
	return Between(n(), n(), n())
}

// inside picks a true value that the amount allows.
func inside(r *rand.Rand, a Amount) Num {
	return a.Low.Add(a.Width().Mul(Frac(r.Int64N(13), 12)))
}

func within(a Amount, x Num) bool { return !x.Less(a.Low) && !a.High.Less(x) }

// TestRangesHold: whatever the true values are, the result's range holds them,
// and its best lies inside.
func TestRangesHold(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 5000 {
		a, b := someAmount(r), someAmount(r)
		x, y := inside(r, a), inside(r, b)
		k := Frac(r.Int64N(40)-20, 3)
		check := func(op string, c Amount, z Num) {
			t.Helper()
			if !within(c, z) || !within(c, c.Best) {
				t.Fatalf("%s of %s and %s: %s does not hold %s", op, a, b, c, z)
			}
		}
		check("Add", a.Add(b), x.Add(y))
		check("Mul", a.Mul(b), x.Mul(y))
		check("Scale", a.Scale(k), x.Mul(k))
		check("AtMost", a.AtMost(b.Best), x.Min(b.Best))
		if b.Low.Sign() > 0 {
			check("Quo", a.Quo(b), x.Quo(y))
		}
		if !a.Add(b).Equal(b.Add(a)) || !a.Mul(b).Equal(b.Mul(a)) {
			t.Fatalf("order matters for %s and %s", a, b)
		}
		half := a.Scale(Frac(1, 2))
		if !half.Add(half).Equal(a) {
			t.Fatalf("two halves of %s are %s", a, half.Add(half))
		}
	}
}

func TestBetweenIsNeverInsideOut(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 2000 {
		x, _ := random(r)
		y, _ := random(r)
		z, _ := random(r)
		a := Between(x, y, z)
		if a.High.Less(a.Low) || a.Best.Less(a.Low) || a.High.Less(a.Best) {
			t.Fatalf("Between(%s, %s, %s) = %s", x, y, z, a)
		}
	}
}

func TestAmountBasics(t *testing.T) {
	var zero Amount
	a := Between(Int(1), Frac(3, 2), Int(2))
	switch {
	case !zero.IsZero() || !zero.IsExact():
		t.Error("the zero Amount is exactly 0")
	case a.IsExact() || a.IsZero():
		t.Error("a range is not exact")
	case a.String() != "1..3/2..2" || Exactly(Frac(7, 4)).String() != "7/4":
		t.Errorf("String: %s", a)
	case !a.Width().Equal(Int(1)):
		t.Errorf("Width: %s", a.Width())
	case (Quantity{a, Cup}).String() != "1..3/2..2 cup" || (Quantity{a, NoUnit}).String() != "1..3/2..2":
		t.Errorf("Quantity: %s", Quantity{a, Cup})
	}
}
