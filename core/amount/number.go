package amount

import (
	"strings"
	"unicode/utf8"

	"cupsum/core/say"
)

// maxDigits bounds one written number, so that no text makes a giant one.
const maxDigits = 9

// written is one number as it stood in the text.
type written struct {
	value    Num
	step     Num    // the step it is written to: 1, 1/2 for "2.5", 1/4 for "2 1/4"
	decimals string // the digits after the point, for snapping
	whole    Num    // its whole part
	mixed    bool   // a fraction was part of it
	plain    bool   // digits alone
}

// vulgar lists the fraction characters of Unicode that kitchens use.
var vulgar = []struct {
	char rune
	n, d int64
}{
	{'½', 1, 2}, {'⅓', 1, 3}, {'⅔', 2, 3}, {'¼', 1, 4}, {'¾', 3, 4}, {'⅕', 1, 5}, {'⅖', 2, 5}, {'⅗', 3, 5}, {'⅘', 4, 5},
	{'⅙', 1, 6}, {'⅚', 5, 6}, {'⅐', 1, 7}, {'⅛', 1, 8}, {'⅜', 3, 8}, {'⅝', 5, 8}, {'⅞', 7, 8}, {'⅑', 1, 9}, {'⅒', 1, 10},
}

func vulgarAt(t string) (Num, int) {
	c, size := utf8.DecodeRuneInString(t)
	for _, v := range vulgar {
		if v.char == c {
			return Frac(v.n, v.d), size
		}
	}
	return Num{}, 0
}

// digitsAt reads the digits at the start of t; n is their count.
func digitsAt(t string) (v int64, n int) {
	for n < len(t) && t[n] >= '0' && t[n] <= '9' {
		if n < maxDigits {
			v = v*10 + int64(t[n]-'0')
		}
		n++
	}
	return v, n
}

// number reads one number at the start of t: digits, a decimal, a fraction, or
// a mixed number.
func number(t string) (w written, rest string, err error) {
	w.step = Int(1)
	if strings.HasPrefix(t, "-") {
		if _, n := digitsAt(t[1:]); n > 0 {
			return w, "", say.Wrong("amount.negative", shorten(t))
		}
	}
	if f, n := vulgarAt(t); n > 0 {
		w.value, w.mixed, w.step = f, true, stepOf(f)
		return w, t[n:], nil
	}
	v, n := digitsAt(t)
	if n > maxDigits {
		return w, "", say.Wrong("amount.huge", shorten(t))
	}
	rest = t[n:]
	if n == 0 && !(len(t) > 1 && (t[0] == '.' || t[0] == ',') && isDigit(t[1])) {
		return w, "", say.Wrong("amount.no-number", shorten(t))
	}
	w.value, w.whole, w.plain = Int(v), Int(v), true
	if len(rest) > 1 && (rest[0] == '.' || rest[0] == ',') && isDigit(rest[1]) {
		return decimals(t, w, rest)
	}
	return fraction(t, w, rest)
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// decimals reads ".25" or ",5" after the whole part. A comma before exactly
// three digits after a whole part, "1,000", parts thousands.
func decimals(t string, w written, rest string) (written, string, error) {
	f, n := digitsAt(rest[1:])
	if n > maxDigits {
		return w, "", say.Wrong("amount.digits", shorten(t))
	}
	if rest[0] == ',' && n == 3 && w.whole.Sign() > 0 {
		w.value = w.whole.Mul(Int(1000)).Add(Int(f))
		w.whole = w.value
		return w, rest[1+n:], nil
	}
	scale := int64(1)
	for range n {
		scale *= 10
	}
	w.value = w.whole.Add(Frac(f, scale))
	w.decimals, w.plain = rest[1:1+n], false
	w.step = Frac(1, scale)
	// "2.5" and "2.25" are halves and quarters, not tenths and hundredths.
	if fr := Frac(f, scale); stepOf(fr).Cmp(Frac(1, 8)) >= 0 {
		w.step = stepOf(fr)
	}
	after := rest[1+n:]
	if len(after) > 1 && (after[0] == '.' || after[0] == ',' || after[0] == '/') && isDigit(after[1]) {
		return w, "", say.Wrong("amount.two-points", shorten(t))
	}
	return w, after, nil
}

// fraction reads what may follow a whole number: "/4", " 1/4", "-1/4", "¼".
func fraction(t string, w written, rest string) (written, string, error) {
	if d, n, after, bad := over(rest); bad {
		return w, "", say.Wrong("amount.over-zero", shorten(t))
	} else if n > 0 { // "1/4"
		w.value, w.whole, w.mixed, w.plain = w.value.Quo(Int(d)), Num{}, true, false
		w.step = stepOf(w.value)
		return w, after, nil
	}
	gap := strings.TrimLeft(rest, " ")
	dash := strings.HasPrefix(gap, "-")
	if dash { // "1-1/4" is a mixed number; "1 - 3/4"... too: nobody writes a range so
		gap = strings.TrimLeft(gap[1:], " ")
	}
	if f, n := vulgarAt(gap); n > 0 {
		w.value, w.mixed, w.plain, w.step = w.value.Add(f), true, false, stepOf(f)
		return w, gap[n:], nil
	}
	if gap == rest && !dash { // "1 1/4" needs its space
		return w, rest, nil
	}
	v, n := digitsAt(gap)
	if n == 0 || n > maxDigits {
		return w, rest, nil
	}
	d, m, after, bad := over(gap[n:])
	if bad {
		return w, "", say.Wrong("amount.over-zero", shorten(t))
	}
	if m == 0 || v >= d { // "2 3" or "2-3/2": not a mixed number
		return w, rest, nil
	}
	f := Frac(v, d)
	w.value, w.mixed, w.plain, w.step = w.value.Add(f), true, false, stepOf(f)
	return w, after, nil
}

// over reads "/4" and returns the denominator; bad when it is zero.
func over(t string) (d int64, n int, rest string, bad bool) {
	t = strings.TrimLeft(t, " ")
	if !strings.HasPrefix(t, "/") {
		return 0, 0, t, false
	}
	u := strings.TrimLeft(t[1:], " ")
	d, n = digitsAt(u)
	if n == 0 || n > maxDigits {
		return 0, 0, t, false
	}
	if d == 0 {
		return 0, n, u[n:], true
	}
	return d, n, u[n:], false
}

// stepOf is the unit fraction that f is counted in: 1/4 for 3/4.
func stepOf(f Num) Num {
	_, d, ok := f.Ints()
	if !ok {
		return f
	}
	return Frac(1, d)
}

// upperEnd reads the other end of a range: "to 3", "-3", "or 3". It must be
// above the first.
func upperEnd(t string, low written) (w written, rest string, ok bool) {
	u, found := cutRange(t)
	if !found {
		return w, t, false
	}
	w, rest, err := number(u)
	if err != nil || !low.value.Less(w.value) {
		return w, t, false
	}
	return w, rest, true
}

// cutRange takes what joins the ends of a range off t: "to", "-", "or".
func cutRange(t string) (string, bool) {
	u := strings.TrimLeft(t, " ")
	switch {
	case strings.HasPrefix(u, "-"):
		u = u[1:]
	case len(u) > 3 && strings.EqualFold(u[:3], "to "), len(u) > 3 && strings.EqualFold(u[:3], "or "):
		u = u[3:]
	default:
		return t, false
	}
	return strings.TrimLeft(u, " "), true
}

// snapTable lists the decimals that stand for thirds, sixths and twelfths, cut
// off or rounded. Two digits of a twelfth would be a guess, so three are asked.
var snapTable = []struct {
	digits string
	n, d   int64
}{
	{"33", 1, 3}, {"333", 1, 3}, {"3333", 1, 3}, {"66", 2, 3}, {"67", 2, 3}, {"666", 2, 3}, {"667", 2, 3}, {"6667", 2, 3}, {"6666", 2, 3},
	{"16", 1, 6}, {"17", 1, 6}, {"166", 1, 6}, {"167", 1, 6}, {"1667", 1, 6}, {"1666", 1, 6}, {"83", 5, 6}, {"833", 5, 6}, {"8333", 5, 6},
	{"083", 1, 12}, {"0833", 1, 12}, {"416", 5, 12}, {"417", 5, 12}, {"4167", 5, 12}, {"583", 7, 12}, {"5833", 7, 12}, {"916", 11, 12}, {"917", 11, 12}, {"9167", 11, 12},
}

// snaps tells whether the decimals are taken for a third, sixth or twelfth
// when the unit is u: cups and spoons and counts come in such steps, weights
// and metric measures do not.
func (w written) snaps(u Unit) bool {
	return !w.snapped(u).Equal(w.value)
}

func (w written) snapped(u Unit) Num {
	if w.decimals == "" || u.Kind() == Weight || u == Ml || u == L {
		return w.value
	}
	for _, s := range snapTable {
		if s.digits == w.decimals {
			return w.whole.Add(Frac(s.n, s.d))
		}
	}
	return w.value
}
