package amount

import (
	"math/big"
	"math/bits"
	"strconv"
)

// A Num is an exact rational number. Small ones, nearly all, are held in two
// machine words; what outgrows them goes on in a big.Rat, so that sums over
// thousands of portions stay exact. The zero value is 0. Compare with
// [Num.Cmp] or [Num.Equal], never with ==.
type Num struct {
	n, d int64    // n/d in lowest terms, d > 0; d == 0 stands for 1
	big  *big.Rat // in use when not nil; never changed after it is set
}

// Int returns the whole number n.
func Int(n int64) Num {
	if n == minInt { // it has no positive counterpart
		return fromBig(new(big.Rat).SetInt64(n))
	}
	return Num{n: n, d: 1}
}

// Frac returns n/d. It panics if d is 0: it is for constants and checked
// input; text goes through [Read].
func Frac(n, d int64) Num {
	if d == 0 {
		panic("amount: zero denominator")
	}
	if d < 0 || n == minInt || d == minInt {
		return fromBig(new(big.Rat).SetFrac64(n, d))
	}
	g := int64(gcd(abs(n), uint64(d)))
	return Num{n: n / g, d: d / g}
}

const minInt = -1 << 63

func abs(n int64) uint64 {
	if n < 0 {
		return uint64(-n)
	}
	return uint64(n)
}

func gcd(a, b uint64) uint64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, 1)
}

func fromBig(r *big.Rat) Num {
	if r.Num().IsInt64() && r.Denom().IsInt64() && r.Num().Int64() != minInt {
		return Num{n: r.Num().Int64(), d: r.Denom().Int64()}
	}
	return Num{big: r}
}

func (x Num) den() int64 {
	if x.d == 0 {
		return 1
	}
	return x.d
}

func (x Num) rat() *big.Rat {
	if x.big != nil {
		return x.big
	}
	return big.NewRat(x.n, x.den())
}

// mul64 multiplies and tells whether the product fits, away from the ends.
func mul64(a, b int64) (int64, bool) {
	hi, lo := bits.Mul64(abs(a), abs(b))
	if hi != 0 || lo >= 1<<62 {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(lo), true
	}
	return int64(lo), true
}

// Add returns x + y.
func (x Num) Add(y Num) Num {
	if x.big == nil && y.big == nil {
		xd, yd := x.den(), y.den()
		g := int64(gcd(uint64(xd), uint64(yd)))
		a, ok1 := mul64(x.n, yd/g)
		b, ok2 := mul64(y.n, xd/g)
		d, ok3 := mul64(xd, yd/g)
		if ok1 && ok2 && ok3 { // each is below 2^62, so the sum fits
			return Frac(a+b, d)
		}
	}
	return fromBig(new(big.Rat).Add(x.rat(), y.rat()))
}

// Neg returns -x.
func (x Num) Neg() Num {
	if x.big != nil {
		return fromBig(new(big.Rat).Neg(x.big))
	}
	return Num{n: -x.n, d: x.d}
}

// Sub returns x - y.
func (x Num) Sub(y Num) Num { return x.Add(y.Neg()) }

// Mul returns x times y.
func (x Num) Mul(y Num) Num {
	if x.big == nil && y.big == nil {
		g1 := int64(gcd(abs(x.n), uint64(y.den())))
		g2 := int64(gcd(abs(y.n), uint64(x.den())))
		n, ok1 := mul64(x.n/g1, y.n/g2)
		d, ok2 := mul64(x.den()/g2, y.den()/g1)
		if ok1 && ok2 {
			return Num{n: n, d: d}
		}
	}
	return fromBig(new(big.Rat).Mul(x.rat(), y.rat()))
}

// Inv returns 1/x. It panics if x is 0; check with [Num.Sign] first.
func (x Num) Inv() Num {
	if x.Sign() == 0 {
		panic("amount: division by zero")
	}
	if x.big != nil {
		return fromBig(new(big.Rat).Inv(x.big))
	}
	if x.n < 0 {
		return Num{n: -x.den(), d: -x.n}
	}
	return Num{n: x.den(), d: x.n}
}

// Quo returns x divided by y. It panics if y is 0.
func (x Num) Quo(y Num) Num { return x.Mul(y.Inv()) }

// Cmp returns -1, 0 or +1 as x is less than, equal to or greater than y.
func (x Num) Cmp(y Num) int {
	if x.big == nil && y.big == nil {
		a, ok1 := mul64(x.n, y.den())
		b, ok2 := mul64(y.n, x.den())
		if ok1 && ok2 {
			switch {
			case a < b:
				return -1
			case a > b:
				return 1
			}
			return 0
		}
	}
	return x.rat().Cmp(y.rat())
}

// Less tells whether x < y.
func (x Num) Less(y Num) bool { return x.Cmp(y) < 0 }

// Equal tells whether x and y are the same number.
func (x Num) Equal(y Num) bool { return x.Cmp(y) == 0 }

// Sign returns -1, 0 or +1.
func (x Num) Sign() int {
	if x.big != nil {
		return x.big.Sign()
	}
	switch {
	case x.n < 0:
		return -1
	case x.n > 0:
		return 1
	}
	return 0
}

// IsInt tells whether x is a whole number.
func (x Num) IsInt() bool {
	if x.big != nil {
		return x.big.IsInt()
	}
	return x.den() == 1
}

// Ints returns numerator and denominator when both fit in an int64.
func (x Num) Ints() (n, d int64, ok bool) {
	if x.big != nil {
		return 0, 0, false
	}
	return x.n, x.den(), true
}

// FloorRound returns the largest whole number that is not above x times step's
// inverse, times step: x rounded down to a multiple of step. It panics if step
// is not positive.
func (x Num) FloorRound(step Num) Num {
	if step.Sign() <= 0 {
		panic("amount: rounding to a step that is not positive")
	}
	quo := x.Quo(step)
	if quo.big == nil {
		whole := quo.n / quo.den()
		if quo.n%quo.den() < 0 {
			whole--
		}
		return Int(whole).Mul(step)
	}
	q, n := quo.rat(), new(big.Int)
	n.Div(q.Num(), q.Denom()) // Euclidean; floors, since the denominator is positive
	return fromBig(new(big.Rat).SetInt(n)).Mul(step)
}

// Round returns the multiple of step nearest to x, halves going up.
func (x Num) Round(step Num) Num {
	return x.Add(step.Mul(Frac(1, 2))).FloorRound(step)
}

// Min returns the smaller of x and y.
func (x Num) Min(y Num) Num {
	if y.Less(x) {
		return y
	}
	return x
}

// Max returns the larger of x and y.
func (x Num) Max(y Num) Num {
	if x.Less(y) {
		return y
	}
	return x
}

// String returns the exact value as "n" or "n/d". [Read] reads it back where
// it is not negative and both parts have at most nine digits.
func (x Num) String() string {
	if x.big != nil {
		return x.big.RatString()
	}
	s := strconv.FormatInt(x.n, 10)
	if x.den() != 1 {
		s += "/" + strconv.FormatInt(x.den(), 10)
	}
	return s
}

// MarshalText gives the exact value, as [Num.String].
func (x Num) MarshalText() ([]byte, error) { return []byte(x.String()), nil }
