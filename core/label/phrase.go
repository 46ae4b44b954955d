package label

import (
	"strings"

	"cupsum/core/amount"
)

// A phrase is one number of the text with the words that belong to it.
type phrase struct {
	pre       []string // words before the number, since the last phrase or mark
	amount    amount.Amount
	places    int // decimals, for snapping shares
	isRange   bool
	unit      amount.Unit
	words     []string // words after it, as far as they belong to it
	size      string
	about     bool
	paren     int  // depth of brackets that it stands in
	mark      byte // the mark before it: ( , / ; or 0
	improper  bool // written as a fraction over one: "11/4"
	apart     bool // a range with blanks round its dash: "1 - 4 oz"
	each      bool // it is the size of each of those before it: "2 (1 oz) slices"
	dimension bool // it is only a length: 4" of a 4" pancake
}

func (p *phrase) bare() bool {
	return p.unit == amount.NoUnit && len(p.words) == 0 && !p.dimension
}

// A reader collects phrases and the words between them.
type reader struct {
	phrases []phrase
	loose   []string // words that stand with no number
	slips   []string // misspelt words that were read for units
	depth   int
	tail    []string // loose words after the last number
}

var aboutWords = []string{"about", "approx", "approximately", "around", "ca", "aprox", "aproximadamente", "alrededor", "abt", "apx", "appx"}

// phrasesOf groups the tokens.
func phrasesOf(ts []token) *reader {
	r := &reader{}
	var pre []string
	var mark byte
	open := -1 // index of the phrase that words still belong to
	about := false
	for i := 0; i < len(ts); i++ {
		t := ts[i]
		switch t.kind {
		case 'n':
			if open >= 0 && r.phrases[open].unit == amount.NoUnit && endsWithLink(r.phrases[open].words) && lengthAt(ts[i+1:]) == 0 && !t.number.IsRange && isOne(t.number.Amount) {
				continue // "of 1 crust"
			}
			i += r.number(ts, i, pre, mark, open, about)
			pre, mark, about = nil, 0, false
			open = len(r.phrases) - 1
		case 'w':
			switch {
			case oneOf(aboutWords, t.word), isAboutSlip(t.word, ts[i+1:]):
				about, open = true, -1
			case open >= 0 && startsNext(t.word, ts[i+1:]):
				pre, open = append(pre, t.word), -1
			case open >= 0:
				r.phrases[open].words = append(r.phrases[open].words, t.word)
			default:
				if n := numberWord(t.word); n != "" && i+1 < len(ts) && (ts[i+1].kind != 'n' || lengthAt(ts[i+2:]) > 0) {
					reading, _, err := amount.ReadPrefix(n)
					if err == nil && !oneOf(links, previous(pre)) {
						ts[i] = token{kind: 'n', number: reading, raw: n}
						i--
						continue
					}
				}
				if t.word == "half" && halfMeasure(ts[i+1:]) {
					reading, _, _ := amount.ReadPrefix("1/2")
					ts[i] = token{kind: 'n', number: reading, raw: "1/2"}
					i--
					continue
				}
				pre = append(pre, t.word)
			}
		case '(', '[':
			r.depth++
			mark, open = t.kind, -1
			pre = r.setLoose(pre)
		case ')', ']':
			r.depth = max(0, r.depth-1)
			open = -1
			pre = r.setLoose(pre)
			mark = ')'
			if n := len(r.phrases); n > 1 && r.phrases[n-2].bare() && r.phrases[n-1].mark == '(' {
				open = n - 2 // "1 (6 oz) container"
				r.phrases[n-1].each = true
			}
		case '&', '+':
			open = -1
			pre = append(pre, "&")
		case '=':
			open = -1
			pre = append(pre, "=")
		case ',', ';', '/', ':':
			if open >= 0 && t.kind != '/' && r.phrases[open].bare() {
				continue // "1, medium"
			}
			mark, open = t.kind, -1
			if t.kind != '/' {
				if !leadsOn(pre) {
					pre = r.setLoose(pre)
				}
			}
		}
	}
	r.tail = pre
	if about && len(r.phrases) > 0 {
		r.phrases[0].about = true // "2 SLICES ABOUT", the field torn off its number
	}
	return r
}

// isAboutSlip tells whether the word is a misspelt "about" before a number.
func isAboutSlip(w string, after []token) bool {
	return len(after) > 0 && after[0].kind == 'n' && len(w) >= 4 && (near(w, "about") || near(w, "approx"))
}

// leadsOn tells whether the words lead on to a number over a mark: "makes,".
func leadsOn(pre []string) bool {
	return len(pre) > 0 && relationOf(pre[len(pre)-1:]) == Makes
}

func (r *reader) setLoose(pre []string) []string {
	if len(pre) > 0 && leadsOn(pre) {
		return pre
	}
	r.loose = append(r.loose, pre...)
	if len(pre) > 0 {
		r.loose = append(r.loose, ";") // phrases of states don't run over a mark
	}
	return nil
}

func previous(pre []string) string {
	if len(pre) == 0 {
		return ""
	}
	return pre[len(pre)-1]
}

func endsWithLink(words []string) bool {
	return len(words) > 0 && oneOf(links, words[len(words)-1]) && words[len(words)-1] != "one"
}

func isOne(a amount.Amount) bool { return a.IsExact() && a.Best.Equal(amount.Int(1)) }

func numberWord(w string) string {
	for _, n := range numberWords {
		if n.word == w {
			return n.n
		}
	}
	return ""
}

// halfMeasure tells whether "half" before these tokens is the number: "half
// cup", "half a package".
func halfMeasure(ts []token) bool {
	if len(ts) == 0 || ts[0].kind != 'w' {
		return false
	}
	_, n, slip := unitAt(ts)
	return n > 0 && slip == "" || oneOf([]string{"a", "an", "of"}, ts[0].word) || isContainer(singular(ts[0].word))
}

// startsNext tells whether the word belongs to the number that follows rather
// than to the one before: "makes", "and", "or" before a number.
func startsNext(w string, after []token) bool {
	if w == "makes" || w == "yields" || w == "reconstituted" || w == "coats" || w == "prepares" || w == "rinde" {
		return true
	}
	if len(after) == 0 || relationOf([]string{w}) == Same && !oneOf([]string{"or", "o", "equals"}, w) {
		return false
	}
	for _, t := range after {
		switch {
		case t.kind == 'n':
			return true
		case t.kind == 'w' && (oneOf(aboutWords, t.word) || oneOf(links, t.word) || numberWord(t.word) != ""):
		default:
			return false
		}
	}
	return false
}

// relationOf is the relation that the last of the words that names one gives;
// Same when none does.
func relationOf(words []string) Relation {
	for i := len(words) - 1; i >= 0; i-- {
		for _, w := range relationWords {
			if w.word == words[i] {
				return w.relation
			}
		}
	}
	return Same
}

// number adds the phrase that begins with the number at ts[i] and returns how
// many further tokens it took.
func (r *reader) number(ts []token, i int, pre []string, mark byte, open int, about bool) int {
	t := ts[i]
	p := phrase{pre: pre, mark: mark, about: about || t.number.About, paren: r.depth, amount: t.number.Amount, places: t.places, isRange: t.number.IsRange, unit: t.number.Unit, improper: isImproper(t.raw, t.number), apart: t.number.IsRange && strings.Contains(t.raw, " - ")}
	taken := 0
	if open >= 0 && isBy(r.phrases[open]) && (r.phrases[open].dimension || lengthAt(ts[i+1:]) > 0) { // 2.5 x 3 inch
		q := &r.phrases[open]
		q.size = strings.TrimSuffix(firstOf(q.size, decimal(q.amount.Best)), "-inch") + "x" + decimal(p.amount.Best) + "-inch"
		q.amount, q.dimension, q.words = amount.Exactly(amount.Int(1)), true, nil
		return lengthAt(ts[i+1:])
	}
	if n := lengthAt(ts[i+1:]); n > 0 && p.unit == amount.NoUnit && p.isRange { // 2-6" tortillas: two of 6"
		p.size = decimal(p.amount.High) + "-inch"
		p.amount, p.isRange = amount.Exactly(p.amount.Low), false
		r.phrases = append(r.phrases, p)
		return n
	}
	if n := lengthAt(ts[i+1:]); n > 0 && p.unit == amount.NoUnit {
		size := decimal(p.amount.Best) + "-inch"
		taken = n
		if open >= 0 && (r.phrases[open].bare() || endsWithLink(r.phrases[open].words)) {
			r.phrases[open].size = size
			return taken
		}
		p.amount, p.size, p.dimension = amount.Exactly(amount.Int(1)), size, true
		r.phrases = append(r.phrases, p)
		return taken
	}
	if p.unit == amount.NoUnit {
		j := i + 1
		for j < len(ts) && ts[j].kind == 'w' && (oneOf(fills, ts[j].word) || oneOf(links, ts[j].word)) {
			j++
		}
		if j > i+1 { // "1 level cup"; but "2 cooked patties" has no unit there
			if _, n, _ := unitAt(ts[j:]); n == 0 {
				j = i + 1
			}
		}
		dash := j < len(ts) && ts[j].kind == '-'
		if dash {
			j++
		}
		if u, n, slip := unitAt(ts[j:]); n > 0 {
			for _, w := range ts[i+1 : j] {
				if w.kind == 'w' && !oneOf(links, w.word) {
					p.words = append(p.words, w.word)
				}
			}
			p.unit = u
			taken = j - i - 1 + n
			if slip != "" {
				r.slips = append(r.slips, slip)
			}
		}
	}
	r.phrases = append(r.phrases, p)
	return taken
}

// isBy tells whether the phrase ends in the x of "2 x 3 inch".
func isBy(p phrase) bool { return len(p.words) == 1 && p.words[0] == "x" && p.unit == amount.NoUnit }

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// isImproper tells whether a number is written as one fraction that is more
// than 1. Labels print mixed numbers, so a blank was likely lost.
func isImproper(raw string, r amount.Reading) bool {
	if r.IsRange || !amount.Int(1).Less(r.Amount.Best) {
		return false
	}
	digits := strings.TrimLeft(raw, "0123456789")
	return strings.HasPrefix(digits, "/")
}

// shapes are what an "in." before them makes a length.
var shapes = []string{"cube", "cubes", "ball", "balls", "slice", "slices", "square", "squares", "circle", "piece", "pieces", "strip", "strips", "crust", "pancake", "pancakes", "diameter", "diam", "dia", "across", "x", "long", "wide", "thick", "round", "rounds", "stick", "sticks", "wedge", "tortilla", "tortillas", "cookie", "cookies"}

// lengthAt tells how many tokens make the number before them a length: 4",
// 1 inch, 1.5 in.
func lengthAt(ts []token) int {
	if len(ts) == 0 {
		return 0
	}
	if ts[0].kind == '-' && len(ts) > 1 && (ts[1].word == "inch" || ts[1].word == "in") {
		return 2
	}
	switch {
	case ts[0].kind == '"', ts[0].word == "inch", ts[0].word == "inches":
		return 1
	case ts[0].word == "in" && len(ts) > 1 && (oneOf(shapes, ts[1].word) || ts[1].kind == ')'):
		return 1
	case ts[0].word == "cm", ts[0].word == "mm":
		return 1
	}
	return 0
}

// decimal prints a length for a size: "1", "1.5".
func decimal(n amount.Num) string {
	s, _ := amount.Decimal(n, 2)
	return s
}

// nounOf takes the noun out of the words after a number: what is counted, its
// size and its states. rest is what is left over. counted tells that there is
// no unit, so that a state may be the noun itself: "1/6 dry mix".
func nounOf(words []string, counted bool) (noun, size string, state State, rest []string) {
	for len(words) > 0 && (oneOf(links, words[0]) || words[0] == "approximately") {
		words = words[1:]
	}
	head := len(words)
	for i, w := range words {
		if i > 0 && oneOf(stops, w) || i == 0 && oneOf(stops, w) && w != "serving" && w != "servings" && w != "each" {
			head = i
			break
		}
	}
	all := words
	s, left := cutStates(words[:head])
	tailState, tailRest := cutStates(all[head:])
	state = s | tailState
	rest = tailRest
	var kept []string
	for _, w := range left {
		if sz := sizeWord(w); sz != "" && len(kept) == 0 {
			size = strings.TrimSpace(size + " " + sz)
			continue
		}
		kept = append(kept, w)
	}
	if len(kept) > 1 && kept[0] == "bite" && sizeWord(kept[1]) == "" && kept[1] == "size" {
		kept, size = kept[2:], "bite-size"
	}
	if len(kept) == 0 {
		if counted && s != 0 && head > 0 { // "1/6 dry mix": the state is the noun
			noun = strings.Join(words[:head], " ")
		}
		return noun, size, state, rest
	}
	n := len(kept)
	first := singular(kept[0])
	switch {
	case isContainer(first) && first != "cup", oneOf(parts, first) && n > 1 && !oneOf(parts, singular(kept[n-1])) && !isContainer(singular(kept[n-1])):
		rest = append(kept[1:n:n], rest...)
		kept = kept[:1]
	case n > 4:
		rest = append(kept[4:n:n], rest...)
		kept = kept[:4]
	}
	kept = append([]string(nil), kept...)
	kept[len(kept)-1] = singular(kept[len(kept)-1])
	if len(kept) == 1 && counted {
		kept[0] = mend(kept[0])
	}
	return strings.Join(kept, " "), size, state, rest
}

func sizeWord(w string) string {
	for _, s := range sizes {
		if s.word == w {
			return s.size
		}
	}
	return ""
}

// mend sets right a misspelt container or piece.
func mend(noun string) string {
	if len(noun) < 4 || isContainer(noun) || oneOf(parts, noun) || oneOf([]string{"pocket", "stack", "spice", "slide", "pooch", "baggie", "stock", "slicer", "water"}, noun) {
		return noun
	}
	for _, list := range [][]string{containers, {"piece", "slice", "scoop", "stick", "wafer", "cracker", "cookie", "serving", "portion"}} {
		for _, c := range list {
			if len(c) >= 5 && near(noun, c) {
				return c
			}
		}
	}
	return noun
}
