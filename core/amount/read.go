package amount

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"cupsum/core/say"
)

// MaxText is the longest text, in bytes, that [Read] looks at.
const MaxText = 200

// A Reading is what a typed or printed amount said.
type Reading struct {
	Quantity
	About   bool // it said "about", "approx." or "~": the range is half a step each way
	Snapped bool // a decimal was read as the third, sixth or twelfth it is rounded from
	IsRange bool // it gave two ends: "2 to 3"
}

// Read reads an amount as people type it and labels print it: "2", "2 1/4",
// "2-1/4", "2¼", ".5", "2,5", "about 2.5", "~2", "2 to 3", "2–3", with or
// without a unit ("1/2 cup", "3 Tbsp", "8 fl oz"). Decimals that are rounded
// thirds, sixths or twelfths (0.33, .667) are taken for those, unless the unit
// is a weight or metric. Errors are [*say.Problem] with an id starting
// "amount.", and say what was read and what would be right.
func Read(text string) (Reading, error) {
	if len(text) > MaxText {
		return Reading{}, say.Wrong("amount.long", MaxText)
	}
	t := clean(text)
	if t == "" {
		return Reading{}, say.Wrong("amount.empty")
	}
	r, rest, err := readPrefix(t)
	if err != nil {
		return Reading{}, err
	}
	if rest = strings.Trim(rest, " ."); rest != "" {
		if lower, ok := cutRange(rest); ok {
			if _, _, err := number(lower); err == nil {
				return Reading{}, say.Wrong("amount.backwards", shorten(text))
			}
		}
		if r.Unit != NoUnit || !startsWithLetter(rest) {
			return Reading{}, say.Wrong("amount.rest", shorten(text), shorten(rest))
		}
		return Reading{}, say.Wrong("amount.unit", shorten(rest))
	}
	return r, nil
}

// ReadPrefix reads the amount at the start of text, as [Read] does, and
// returns what follows it. A word after the number that is no unit is left in
// rest, and the unit is then NoUnit.
func ReadPrefix(text string) (r Reading, rest string, err error) {
	if len(text) > MaxText {
		return Reading{}, "", say.Wrong("amount.long", MaxText)
	}
	return readPrefix(clean(text))
}

// ReadNumber reads a text that must be a number alone, without a unit.
func ReadNumber(text string) (Reading, error) {
	r, err := Read(text)
	if err == nil && r.Unit != NoUnit {
		return Reading{}, say.Wrong("amount.not-a-number", shorten(text))
	}
	return r, err
}

// ReadUnit finds a unit by any of its usual spellings. "T" is a tablespoon
// and "t" a teaspoon; otherwise case does not matter.
func ReadUnit(text string) (Unit, bool) {
	u, rest := unitPrefix(clean(text))
	return u, u != NoUnit && strings.Trim(rest, " .") == ""
}

func readPrefix(t string) (r Reading, rest string, err error) {
	rest, r.About = cutAbout(t)
	a, rest, err := number(rest)
	if err != nil {
		return Reading{}, "", err
	}
	u1, afterUnit := unitPrefix(rest)
	r.Amount, r.Unit = Exactly(a.value), u1
	ends := rest
	if u1 != NoUnit { // "2 cups to 3 cups"
		ends = afterUnit
	}
	if b, tail, ok := upperEnd(ends, a); ok {
		u2, tail2 := unitPrefix(tail)
		if u1 == NoUnit || u2 == u1 || u2 == NoUnit {
			if u1 == NoUnit {
				u1 = u2
			}
			r.Unit, r.IsRange, rest = u1, true, tail2
			x, y := a.snapped(u1), b.snapped(u1)
			r.Amount = Between(x, x.Add(y).Mul(Frac(1, 2)), y)
			r.Snapped = a.snaps(u1) || b.snaps(u1)
			return r, rest, nil
		}
	}
	v := a.snapped(u1)
	r.Snapped = a.snaps(u1)
	r.Amount = Exactly(v)
	if r.About {
		half := Frac(1, 2).Mul(a.step)
		r.Amount = Between(v.Sub(half).Max(Num{}), v, v.Add(half))
	}
	return r, afterUnit, nil
}

// clean folds what looks alike: spaces, dashes, fraction slashes.
func clean(text string) string {
	var b strings.Builder
	space := false
	for _, c := range text {
		switch c {
		case ' ', '\t', '\n', '\r', '\u00a0', '\u2007', '\u2009', '\u202f', '\u200b', '\ufeff':
			space = true
			continue
		case '\u2044', '\u2215':
			c = '/'
		case '\u2012', '\u2013', '\u2014', '\u2212', '\u2010', '\u2011':
			c = '-'
		case '\u223c', '\u2248', '\uff5e':
			c = '~'
		}
		if space && b.Len() > 0 {
			b.WriteByte(' ')
		}
		space = false
		b.WriteRune(c)
	}
	return b.String()
}

var aboutWords = []string{"about", "approximately", "approx.", "approx", "around", "ca.", "~", "aprox.", "aprox"}

func cutAbout(t string) (string, bool) {
	low := strings.ToLower(t)
	for _, w := range aboutWords {
		if strings.HasPrefix(low, w) {
			rest := t[len(w):]
			if strings.HasSuffix(w, "~") || strings.HasSuffix(w, ".") || rest == "" || !startsWithLetter(rest) {
				return strings.TrimLeft(rest, " "), true
			}
		}
	}
	return t, false
}

func startsWithLetter(s string) bool {
	if s == "" {
		return false
	}
	c, _ := utf8.DecodeRuneInString(s)
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= utf8.RuneSelf && unicode.IsLetter(c)
}

// goesOn tells whether a word that has begun goes on in s: "can" after the c,
// "-bone" after the T of a T-bone steak, "21" after the G of a code.
func goesOn(s string) bool {
	if s == "" {
		return false
	}
	return startsWithLetter(s) || isDigit(s[0]) || (s[0] == '-' || s[0] == '\'') && startsWithLetter(s[1:])
}

// shorten keeps what is quoted back to a person on one readable line.
func shorten(s string) string { return say.Quote(clean(s)) }

// unitPrefix takes the longest unit name off the front of t.
func unitPrefix(t string) (Unit, string) {
	t = strings.TrimLeft(t, " ")
	best, size := NoUnit, 0
	if t == "" {
		return best, t
	}
	for i := range unitNames {
		n := &unitNames[i]
		if n.name[0]|0x20 != t[0]|0x20 || len(n.name) > len(t) || len(n.name) < size {
			continue
		}
		head := t[:len(n.name)]
		// A one-letter name counts only as it is written: T is not t.
		if head != n.name && (len(n.name) < 2 || !strings.EqualFold(head, n.name)) {
			continue
		}
		if rest := t[len(n.name):]; goesOn(rest) {
			continue
		}
		best, size = n.unit, len(n.name)
	}
	return best, strings.TrimLeft(t[size:], " ")
}
