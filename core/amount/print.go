package amount

import (
	"strings"
)

// Printed is a number in the form that cooks write.
type Printed struct {
	Text    string // "2¼", "⅛", "0"
	Rounded bool   // the text is not the exact value: say "about"
	Less    bool   // the value is positive but under the smallest mark: say "less than"
}

// marks are the fractions on measuring cups, in order, and the next whole.
var marks = []struct {
	n, d int64
	text string
}{
	{0, 1, ""}, {1, 8, "⅛"}, {1, 4, "¼"}, {1, 3, "⅓"}, {3, 8, "⅜"}, {1, 2, "½"}, {5, 8, "⅝"}, {2, 3, "⅔"}, {3, 4, "¾"}, {7, 8, "⅞"}, {1, 1, ""},
}

// Mixed prints x as a mixed fraction of quarters, thirds and eighths, the
// nearest one where x is none of them, and tells whether that rounded it. A
// negative number gets a minus sign.
func Mixed(x Num) Printed {
	if x.Sign() < 0 {
		p := Mixed(x.Neg())
		if p.Text != "0" && !p.Less {
			p.Text = "−" + p.Text
		}
		return p
	}
	whole := x.FloorRound(Int(1))
	part := x.Sub(whole)
	best := 0
	bestGap := Int(2)
	for i, m := range marks {
		gap := part.Sub(Frac(m.n, m.d))
		if gap.Sign() < 0 {
			gap = gap.Neg()
		}
		if gap.Less(bestGap) || gap.Equal(bestGap) {
			best, bestGap = i, gap
		}
	}
	p := Printed{Rounded: bestGap.Sign() != 0}
	if best == len(marks)-1 {
		whole = whole.Add(Int(1))
	}
	if whole.Sign() == 0 && marks[best].n == 0 {
		if x.Sign() > 0 {
			return Printed{Text: "⅛", Rounded: true, Less: true}
		}
		return Printed{Text: "0"}
	}
	if whole.Sign() != 0 {
		p.Text = whole.String()
	}
	p.Text += marks[best].text
	return p
}

// Typed writes x as a person would type it: "2 1/2". [Read] reads it back. A
// denominator of more digits than Read takes becomes a decimal of nine places,
// which rounds unless x came from one.
func Typed(x Num) string {
	if _, d, _ := x.Ints(); d > 999_999_999 {
		text, _ := Decimal(x, maxDigits)
		return text
	}
	whole := x.FloorRound(Int(1))
	part := x.Sub(whole)
	switch {
	case part.Sign() == 0:
		return whole.String()
	case whole.Sign() == 0:
		return part.String()
	}
	return whole.String() + " " + part.String()
}

// Decimal prints x with at most the given number of decimals, halves up and
// trailing zeros cut, and tells whether that rounded it. The point is ".".
func Decimal(x Num, places int) (text string, rounded bool) {
	scale := int64(1)
	for range places {
		scale *= 10
	}
	r := x.Round(Frac(1, scale))
	rounded = !r.Equal(x)
	neg := r.Sign() < 0
	if neg {
		r = r.Neg()
	}
	whole := r.FloorRound(Int(1))
	digits := r.Sub(whole).Mul(Int(scale)).String()
	text = whole.String()
	if digits != "0" {
		digits = strings.Repeat("0", places-len(digits)) + digits
		text += "." + strings.TrimRight(digits, "0")
	}
	if neg {
		text = "-" + text
	}
	return text, rounded
}
