package amount

// An Amount is an exact quantity, or a range with a best guess inside:
// Low <= Best <= High. Its unit is held elsewhere (see [Quantity]). The zero
// value is exactly 0.
type Amount struct {
	Low, Best, High Num
}

// Exactly returns the amount without doubt.
func Exactly(n Num) Amount { return Amount{n, n, n} }

// Between returns the range from low to high with best inside. The three are
// put in order first, so that no range is ever inside out.
func Between(low, best, high Num) Amount {
	if high.Less(low) {
		low, high = high, low
	}
	return Amount{low, best.Max(low).Min(high), high}
}

// IsExact tells whether nothing is in doubt.
func (a Amount) IsExact() bool { return a.Low.Equal(a.High) }

// IsZero tells whether the amount is exactly 0.
func (a Amount) IsZero() bool { return a.Low.Sign() == 0 && a.High.Sign() == 0 }

// Add returns a + b: the ends add up.
func (a Amount) Add(b Amount) Amount {
	return Amount{a.Low.Add(b.Low), a.Best.Add(b.Best), a.High.Add(b.High)}
}

// Scale returns a times k. A negative k turns the range round.
func (a Amount) Scale(k Num) Amount {
	return Between(a.Low.Mul(k), a.Best.Mul(k), a.High.Mul(k))
}

// Mul returns a times b for amounts that are not negative.
func (a Amount) Mul(b Amount) Amount {
	return Amount{a.Low.Mul(b.Low), a.Best.Mul(b.Best), a.High.Mul(b.High)}
}

// Quo returns a divided by b for amounts that are not negative. It panics if
// the low end of b is 0.
func (a Amount) Quo(b Amount) Amount {
	return Amount{a.Low.Quo(b.High), a.Best.Quo(b.Best), a.High.Quo(b.Low)}
}

// AtMost returns a with no end above the cap.
func (a Amount) AtMost(limit Num) Amount {
	return Amount{a.Low.Min(limit), a.Best.Min(limit), a.High.Min(limit)}
}

// NoMoreThan returns a with none of its three above the same one of b.
func (a Amount) NoMoreThan(b Amount) Amount {
	return Amount{a.Low.Min(b.Low), a.Best.Min(b.Best), a.High.Min(b.High)}
}

// Width returns High - Low: how much is in doubt.
func (a Amount) Width() Num { return a.High.Sub(a.Low) }

// Equal tells whether a and b agree in all three.
func (a Amount) Equal(b Amount) bool {
	return a.Low.Equal(b.Low) && a.Best.Equal(b.Best) && a.High.Equal(b.High)
}

// String is for tests and logs: "7/4", or "low..best..high".
func (a Amount) String() string {
	if a.IsExact() {
		return a.Best.String()
	}
	return a.Low.String() + ".." + a.Best.String() + ".." + a.High.String()
}

// A Quantity is an amount with its unit.
type Quantity struct {
	Amount Amount
	Unit   Unit
}

// String is for tests and logs: "1/2 cup".
func (q Quantity) String() string {
	if q.Unit == NoUnit {
		return q.Amount.String()
	}
	return q.Amount.String() + " " + q.Unit.ID()
}
