package label

import (
	"strings"
	"unicode"

	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// MaxServings is the largest number of servings that a package can have here.
const MaxServings = 1000

// ReadServings reads the number of servings per container: "5", "3 1/2",
// "about 2.5", "5 servings per container", "Varied (about 6)". With "about" the
// amount is the range that 21 CFR 101.9(b)(8)(i) rounds to the printed number;
// without, it is exact. Errors are [*say.Problem].
func ReadServings(text string) (amount.Amount, Meta, error) {
	var m Meta
	if len(text) > amount.MaxText {
		return amount.Amount{}, m, wrong("label.servings-long", amount.MaxText)
	}
	t := strings.TrimSpace(foldRunes(text))
	if t == "" {
		return amount.Amount{}, m, wrong("label.servings-empty")
	}
	low := strings.ToLower(t)
	if i := strings.Index(low, "varie"); i >= 0 || strings.Contains(low, "varía") {
		m.Varied = true
	}
	if minusAt(t) {
		return amount.Amount{}, m, wrong("label.servings-negative", quote(text))
	}
	start := strings.IndexFunc(t, func(c rune) bool { return c >= '0' && c <= '9' || isVulgar(c) })
	if start > 0 && (t[start-1] == '.' || t[start-1] == ',') {
		start--
	}
	lead := low
	if start >= 0 {
		lead = low[:min(start, len(low))]
	}
	if start < 0 {
		if n := wordServings(low); n != "" {
			t, start, lead = n, 0, ""
		} else if m.Varied {
			return amount.Amount{}, m, wrong("label.servings-varied")
		} else {
			return amount.Amount{}, m, wrong("label.servings-none", quote(text))
		}
	}
	if start > 0 && strings.HasSuffix(strings.TrimRight(lead, " "), "-") && !strings.ContainsFunc(lead, unicode.IsLetter) {
		return amount.Amount{}, m, wrong("label.servings-negative", quote(text))
	}
	r, rest, err := amount.ReadPrefix(t[start:])
	if err != nil {
		return amount.Amount{}, m, err
	}
	if r.Unit != amount.NoUnit { // "3 cups" is a size, not a number of servings
		return amount.Amount{}, m, wrong("label.servings-unit", r.Quantity)
	}
	if p := badRest(rest); p != "" {
		if u, _, _ := unitAt([]token{{kind: 'w', word: p, raw: p}}); u != amount.NoUnit {
			return amount.Amount{}, m, wrong("label.servings-unit", amount.Quantity{Amount: r.Amount, Unit: u})
		}
		return amount.Amount{}, m, wrong("label.servings-rest", quote(text), quote(p))
	}
	if r.Amount.High.Sign() == 0 {
		return amount.Amount{}, m, wrong("label.servings-zero")
	}
	if amount.Int(MaxServings).Less(r.Amount.High) {
		return amount.Amount{}, m, wrong("label.servings-huge", quote(text), MaxServings)
	}
	m.Printed = r.Amount.Best
	for _, w := range strings.FieldsFunc(lead+" "+strings.ToLower(rest), func(c rune) bool { return !unicode.IsLetter(c) && c != '~' }) {
		if oneOf(aboutWords, w) || w == "~" {
			m.About = true
		}
	}
	m.About = m.About || r.About
	if m.About && !r.IsRange {
		return servingsRange(m.Printed), m, nil
	}
	return r.Amount, m, nil
}

func wordServings(low string) string {
	for w := range strings.FieldsSeq(low) {
		if n := numberWord(strings.Trim(w, ".,:")); n != "" {
			return n
		}
	}
	return ""
}

// servingsWords may follow the number of servings.
var servingsWords = []string{"serving", "servings", "servngs", "servs", "serv", "per", "container", "containers", "package", "pkg", "packet", "can", "box", "bag", "bottle", "jar", "in", "this", "a", "each", "about", "approx", "approximately", "varied", "varies", "usually",
	"porciones", "porción", "por", "envase", "paquete", "size", "total", "makes", "sv", "portions", "portion", "exact", "exactly", "the", "of", "cont", "pack", "aprox", "raciones", "serve", "serves", "lata"}

// badRest is the first word after the number that has no business there.
func badRest(rest string) string {
	for _, w := range strings.FieldsFunc(rest, func(c rune) bool { return !unicode.IsLetter(c) && !unicode.IsDigit(c) }) {
		low := strings.ToLower(w)
		if !oneOf(servingsWords, low) {
			return low
		}
	}
	return ""
}

// Step is the working line for "about": the range that stands behind the
// printed number. ok is false where the number is taken as printed.
func (m Meta) Step() (step rule.Step, ok bool) {
	if !m.About {
		return rule.Step{}, false
	}
	return rule.Step{Rule: rule.AboutServings, Line: say.New("label.step.about", m.Printed, servingsRange(m.Printed))}, true
}

// servingsRange is the range of true numbers of servings that
// 21 CFR 101.9(b)(8)(i) rounds to n: to the nearest half from 2 to 5, to the
// nearest whole elsewhere. A number that is on neither step is taken to be
// rounded to the step in which it is written, its denominator.
func servingsRange(n amount.Num) amount.Amount {
	two, five := amount.Int(2), amount.Int(5)
	half, quarter := amount.Frac(1, 2), amount.Frac(1, 4)
	below, above := half, half
	switch {
	case !n.Mul(two).IsInt():
		_, d, ok := n.Ints()
		if !ok {
			return amount.Exactly(n)
		}
		below = amount.Frac(1, 2*d)
		above = below
	case !n.IsInt() && (n.Less(two) || five.Less(n)):
		below, above = quarter, quarter // 1.5 and 27.5 are against the rule, but printed
	default:
		if two.Less(n) && !five.Less(n) {
			below = quarter
		}
		if !n.Less(two) && n.Less(five) {
			above = quarter
		}
	}
	return amount.Between(n.Sub(below).Max(amount.Num{}), n, n.Add(above))
}
