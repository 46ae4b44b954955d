package label

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"cupsum/core/amount"
	"cupsum/core/say"
)

// fold makes the many ways of writing alike, before anything is read: spaces,
// dashes, quotes, broken bytes, tokens glued together, and the form fields
// that data files join with "|" in the wrong order.
func fold(text string) string {
	t := foldRunes(text)
	if a, b, cut := strings.Cut(t, "|"); cut { // "2 SLICES | ABOUT": what stood before comes after
		if strings.ContainsAny(b, "0123456789") {
			t = a + " ; " + b
		} else if b = strings.TrimSpace(strings.Trim(strings.TrimSpace(b), "()")); strings.EqualFold(b, "null") || b == "" {
			t = a
		} else {
			t = b + " " + strings.TrimRight(strings.TrimSpace(a), ")")
		}
		t = strings.ReplaceAll(t, "|", " ; ")
	}
	if i := strings.Index(strings.ToLower(t), " random weight"); i > 0 { // what follows is about other packages
		t = t[:i]
	}
	return strings.Join(strings.Fields(t), " ")
}

func foldRunes(text string) string {
	var b strings.Builder
	var prev rune
	put := func(c rune) { b.WriteRune(c); prev = c }
	for i, c := range text {
		switch c {
		case '\u2012', '\u2013', '\u2014', '\u2212', '\u2010', '\u2011':
			c = '-'
		case '\u2044', '\u2215':
			c = '/'
		case '“', '”', '″', '˝':
			c = '"'
		case '’', '‘', '′':
			c = '\''
		case '{':
			c = '('
		case '}':
			c = ')'
		case '†', '‡', '*', '®', '™', '°', utf8.RuneError, '\u200b', '\ufeff':
			c = ' '
		case 'Â': // half of a UTF-8 pair read as Latin-1
			next, _ := utf8.DecodeRuneInString(text[i+len("Â"):])
			if next == '¼' || next == '½' || next == '¾' || next == '\u00a0' {
				continue
			}
		}
		if unicode.IsSpace(c) || c < ' ' {
			c = ' '
		}
		if c == '0' && zeroForO(text[i+1:]) {
			c = 'O'
		}
		digit, letter := c >= '0' && c <= '9', unicode.IsLetter(c)
		if code := b.Len() > 0 && digit && (prev == 'G' || prev == 'H') && isCode(text[i-1:]); !code {
			if digit && unicode.IsLetter(prev) || letter && (prev >= '0' && prev <= '9' || isVulgar(prev)) {
				put(' ')
			}
		}
		put(c)
	}
	return b.String()
}

// zeroForO tells whether a zero before this text is the O of "OZ".
func zeroForO(rest string) bool {
	return rest != "" && (rest[0] == 'z' || rest[0] == 'Z') && (len(rest) == 1 || !isAlnum(rest[1]))
}

// isCode tells whether the text begins with one of the exchange codes that
// have digits: G21 is a cup, H87 a piece.
func isCode(text string) bool {
	for _, code := range []string{"G21", "H87"} {
		if strings.HasPrefix(text, code) && (len(text) == 3 || !isAlnum(text[3])) {
			return true
		}
	}
	return false
}

func isAlnum(c byte) bool {
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

func isVulgar(c rune) bool { return c == '¼' || c == '½' || c == '¾' || c >= '⅐' && c <= '⅞' }

// A token is a number, a word or a mark.
type token struct {
	kind   byte   // 'n' number, 'w' word, or the mark itself: ( ) [ ] , ; / = & + " - :
	word   string // lower case, without a final point
	raw    string // as written
	number amount.Reading
	places int // decimals of the number as written, for snapping shares
}

// tokens splits folded text. A number that can't be one (over zero, negative)
// is the amount package's own problem.
func tokens(t string) ([]token, error) {
	var out []token
	for t = strings.TrimSpace(t); t != ""; t = strings.TrimLeft(t, " ") {
		if startsNumber(t) {
			r, rest, err := amount.ReadPrefix(t)
			if err != nil {
				return nil, err
			}
			// The unit is read again as a word, since it may be misspelt. A
			// range keeps the unit that its reading needed.
			tok := token{kind: 'n', number: r, raw: t[:len(t)-len(rest)]}
			if r.Unit != amount.NoUnit {
				tok.raw = strings.TrimSpace(tok.raw)
			}
			tok.places = decimalsOf(tok.raw)
			out = append(out, tok)
			t = rest
			continue
		}
		c, size := utf8.DecodeRuneInString(t)
		if unicode.IsLetter(c) {
			n := wordLen(t)
			raw := t[:n]
			if low := strings.ToLower(raw); (low == "w") && strings.HasPrefix(t[n:], "/") { // w/, w/o, w/out
				raw, n = "with", n+1
				for _, o := range []string{"out", "o"} {
					if k := len(o); len(t) >= n+k && strings.EqualFold(t[n:n+k], o) && (len(t) == n+k || !isAlnum(t[n+k])) {
						raw, n = "without", n+k
						break
					}
				}
			}
			out = append(out, token{kind: 'w', word: strings.TrimRight(strings.ToLower(raw), ".'"), raw: raw})
			t = t[n:]
			continue
		}
		if c == '~' || c == '≈' {
			out = append(out, token{kind: 'w', word: "about", raw: "~"})
		}
		if c == '%' {
			out = append(out, token{kind: 'w', word: "percent", raw: "%"})
		}
		if strings.ContainsRune("()[],;/=&+\"-:", c) {
			out = append(out, token{kind: byte(c), raw: string(c)})
		}
		t = t[size:]
	}
	return out, nil
}

func startsNumber(t string) bool {
	c, _ := utf8.DecodeRuneInString(t)
	return c >= '0' && c <= '9' || isVulgar(c) || (c == '.' || c == ',') && len(t) > 1 && t[1] >= '0' && t[1] <= '9'
}

// wordLen is the length of the word at the start of t: letters, with hyphens
// and apostrophes inside, and codes such as G21.
func wordLen(t string) int {
	if isCode(t) {
		return 3
	}
	for i, c := range t {
		if unicode.IsLetter(c) || unicode.IsMark(c) {
			continue
		}
		if c == '-' || c == '\'' {
			if next, _ := utf8.DecodeRuneInString(t[i+1:]); unicode.IsLetter(next) {
				continue
			}
		}
		return i
	}
	return len(t)
}

func decimalsOf(raw string) int {
	i := strings.IndexByte(raw, '.')
	if i < 0 {
		return 0
	}
	n := 0
	for _, c := range raw[i+1:] {
		if c < '0' || c > '9' {
			break
		}
		n++
	}
	return n
}

// unitWords are spellings that the amount package does not know: codes of data
// exchange, and words of several tokens.
var unitWords = []struct {
	words string
	unit  amount.Unit
}{
	{"g21", amount.Cup}, {"fz", amount.FlOz}, {"fl oz", amount.FlOz}, {"fl ozs", amount.FlOz}, {"fi oz", amount.FlOz}, {"f oz", amount.FlOz}, {"fl az", amount.FlOz}, {"fl ounce", amount.FlOz}, {"fl ounces", amount.FlOz},
	{"fluid oz", amount.FlOz}, {"fluid ounce", amount.FlOz}, {"fluid ounces", amount.FlOz}, {"fl", amount.FlOz}, {"onzas líquidas", amount.FlOz}, {"onzas liquidas", amount.FlOz}, {"onza líquida", amount.FlOz}, {"tbl spoon", amount.Tbsp}, {"tbl spoons", amount.Tbsp},
	{"table spoon", amount.Tbsp}, {"table spoons", amount.Tbsp}, {"tea spoon", amount.Tsp}, {"tea spoons", amount.Tsp}, {"mi", amount.Ml}, {"gs", amount.G}, {"cda", amount.Tbsp}, {"cdas", amount.Tbsp}, {"cdtas", amount.Tsp},
	{"gramo", amount.G}, {"mililitros", amount.Ml}, {"mililitro", amount.Ml}, {"litro", amount.L}, {"litros", amount.L}, {"onces", amount.Oz}, {"ltr", amount.L}, {"dry ounce", amount.Oz}, {"dry ounces", amount.Oz}, {"dry oz", amount.Oz},
	{"cu", amount.Cup}, {"tbsn", amount.Tbsp}, {"tbspn", amount.Tbsp}, {"tblspn", amount.Tbsp}, {"tspn", amount.Tsp}, {"tb", amount.Tbsp}, {"ozw", amount.Oz}, {"wt oz", amount.Oz}, {"oz wt", amount.Oz}, {"ounce weight", amount.Oz},
}

// slips are misspelt units that are too short to be found by their letters.
var slips = []struct {
	word string
	unit amount.Unit
}{
	{"cuo", amount.Cup}, {"cpu", amount.Cup}, {"cip", amount.Cup}, {"cupp", amount.Cup}, {"ccup", amount.Cup}, {"cuup", amount.Cup}, {"vup", amount.Cup}, {"xup", amount.Cup}, {"cyp", amount.Cup}, {"cuos", amount.Cup}, {"cpus", amount.Cup}, {"cusp", amount.Cup}, {"csup", amount.Cup}, {"cop", amount.Cup}, {"ucp", amount.Cup}, {"cups's", amount.Cup}, {"cuop", amount.Cup}, {"cupa", amount.Cup}, {"cuups", amount.Cup}, {"cupps", amount.Cup}, {"cups s", amount.Cup},
	{"ox", amount.Oz}, {"zo", amount.Oz}, {"ozz", amount.Oz}, {"oa", amount.Oz}, {"os", amount.Oz}, {"onc", amount.Oz}, {"oun", amount.Oz}, {"mll", amount.Ml}, {"nl", amount.Ml}, {"lm", amount.Ml}, {"lsb", amount.Lb}, {"ibs", amount.Lb}, {"ib", amount.Lb},
}

// longUnits are the unit words long enough to be known with a letter wrong.
var longUnits = []struct {
	word string
	unit amount.Unit
}{
	{"ounce", amount.Oz}, {"ounces", amount.Oz}, {"tablespoon", amount.Tbsp}, {"tablespoons", amount.Tbsp}, {"teaspoon", amount.Tsp}, {"teaspoons", amount.Tsp}, {"grams", amount.G},
	{"gallon", amount.Gallon}, {"quart", amount.Quart}, {"pound", amount.Lb}, {"pounds", amount.Lb}, {"milliliter", amount.Ml}, {"milliliters", amount.Ml}, {"tablespoonful", amount.Tbsp}, {"teaspoonful", amount.Tsp},
}

// unitAt reads a unit at the start of the tokens. slipped is what was read for
// a unit though it is misspelt.
func unitAt(ts []token) (u amount.Unit, n int, slipped string) {
	words := make([]string, 0, 2)
	for _, t := range ts {
		if t.kind != 'w' || len(words) == 2 {
			break
		}
		words = append(words, t.word)
	}
	if len(words) == 0 {
		return amount.NoUnit, 0, ""
	}
	for _, x := range unitWords {
		if k := wordsStart(words, x.words); k > n {
			u, n = x.unit, k
		}
	}
	if n > 0 {
		return u, n, ""
	}
	// T and t differ, so the word is asked for as it was written.
	if v, ok := amount.ReadUnit(ts[0].raw); ok {
		return v, 1, ""
	}
	return slipAt(words[0])
}

func slipAt(w string) (amount.Unit, int, string) {
	for _, s := range slips {
		if s.word == w {
			return s.unit, 1, w
		}
	}
	if len(w) <= 6 && !strings.ContainsAny(w, "aeiouy") && w != "tsp" {
		// A spoon without vowels: the b tells which.
		if near(w, "tbsp") || near(w, "tbsps") || near(w, "tbls") {
			if strings.ContainsRune(w, 'b') {
				return amount.Tbsp, 1, w
			}
		}
		if near(w, "tsp") && strings.ContainsRune(w, 't') && len(w) >= 3 && !strings.ContainsRune(w, 'b') {
			return amount.Tsp, 1, w
		}
	}
	for _, l := range longUnits {
		if near(w, l.word) {
			return l.unit, 1, w
		}
	}
	return amount.NoUnit, 0, ""
}

// near tells whether a and b differ by at most one letter: one more, one less,
// another, or two neighbours swapped.
func near(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) < len(b) {
		return a[i:] == b[i+1:]
	}
	if i == len(a) || a[i+1:] == b[i+1:] {
		return true
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}

// quote keeps what is quoted back to a person to a readable length.
func quote(s string) string {
	return say.Quote(strings.Join(strings.Fields(foldRunes(s)), " "))
}

func wrong(id string, args ...any) *say.Problem { return say.Wrong(id, args...) }
