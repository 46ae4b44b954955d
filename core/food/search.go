package food

import (
	"bytes"
	"math/bits"
	"strings"

	"cupsum/core/food/spell"
)

// A Hit is a food that a search found.
type Hit struct {
	Food  Food
	Form  Form   // the form that the words name ("frozen corn"), where the food has it; else NoForm
	Match string // the name that matched: Food.Name or one of Food.Also
	Score int    // how well, up to about 1000; only good for comparing the hits of one search
}

// A formPhrase is a word or a few that name a form in what people type, with
// the forms that it may mean, likeliest first.
type formPhrase struct {
	phrase string
	forms  [5]Form
	source uint8 // in phraseSources
}

// among picks the likeliest of the phrase's forms that is in the set.
func (p *formPhrase) among(forms uint16) Form {
	for _, f := range p.forms {
		if f != NoForm && forms>>f&1 != 0 {
			return f
		}
	}
	return NoForm
}

// choices is how many forms the phrase may mean: one is more telling than five.
func (p *formPhrase) choices() int {
	n := 0
	for _, f := range p.forms {
		if f != NoForm {
			n++
		}
	}
	return n
}

// Search finds foods by what a person types, from the first letter on, best
// match first and at most limit of them. Case, accents, plurals and the order
// of words do not matter; a word may be cut short or have a letter or two
// wrong; words that name a form are taken as such. Text past
// [spell.MaxText] bytes is not looked at. It finds nothing for text without
// letters.
func Search(text string, limit int) []Hit {
	limit = min(limit, Count())
	if limit <= 0 {
		return nil
	}
	ix := searchIndex()
	var q query
	q.read(ix, text)
	if q.n == 0 {
		return nil
	}
	best := q.rank(ix, make([]candidate, 0, limit))
	hits := make([]Hit, len(best))
	for i, c := range best {
		f := at(int(c.food))
		hits[i] = Hit{Food: f, Form: c.form, Match: f.Name, Score: int(c.score)}
		if c.other > 0 {
			hits[i].Match = f.Also[c.other-1]
		}
	}
	return hits
}

const (
	maxTokens = 8
	maxForms  = 3 // form phrases in one search
	noForm    = 255
)

// A token is one word of the search.
type token struct {
	raw, fold []byte
	form      uint8 // place in query.forms of the phrase that it belongs to, or noForm
	amount    bool  // "2", "cups": it counts only where a name has it
	best      uint8 // how well it matches the word nearest to it
}

// A query is a search made ready.
type query struct {
	text   [spell.MaxText + maxTokens*spell.MaxWord]byte
	folds  [maxTokens * (spell.MaxWord + 1)]byte
	tokens [maxTokens]token
	n      int
	forms  [maxForms]*formPhrase
	formsN int
	clean  []byte  // the whole text, clean
	match  []uint8 // how well token i matches word w of the index: match[i*words+w], 0 to 100
}

// read splits the text into tokens and compares each with every word that
// names have.
func (q *query) read(ix *wordIndex, text string) {
	clean := spell.Clean(q.text[:0], text)
	q.clean = clean
	used := len(clean)
	var words [2 * maxTokens][]byte
	var form [2 * maxTokens]uint8
	n := 0
	for len(clean) > 0 && n < len(words) {
		var w []byte
		w, clean, _ = bytes.Cut(clean, []byte(" "))
		words[n], form[n] = w[:min(len(w), spell.MaxWord)], noForm
		n++
	}
	q.findForms(ix, words[:n], form[:n])
	for i := 0; i < n && q.n < maxTokens; i++ {
		w := words[i]
		if form[i] == noForm && n > 1 && (isStop(w) || isAmount(w) && !ix.has(w)) {
			continue
		}
		if i+1 < n && form[i] == noForm && form[i+1] == noForm { // "pop corn"
			joined := append(append(q.text[used:used:cap(q.text)], w...), words[i+1]...)
			if len(joined) <= spell.MaxWord && ix.has(joined) && !ix.hasPair(w, words[i+1]) {
				used += len(joined)
				w = joined
				i++
			}
		}
		q.add(w, form[i])
	}
	for i := range q.n {
		q.tokens[i].amount = q.n > 1 && isAmount(q.tokens[i].raw)
	}
	if q.n == 0 && n > 0 { // nothing but "the", or the start of "theatre"
		q.add(words[n-1], noForm)
	}
	q.match = make([]uint8, maxTokens*len(ix.words))
	for i := 0; i < q.n; i++ {
		q.compare(ix, i)
		if q.tokens[i].best < fuzzyOne && q.tokens[i].form == noForm && q.split(ix, i) {
			q.compare(ix, i)
		}
	}
}

func (q *query) add(w []byte, form uint8) {
	at := q.n * (spell.MaxWord + 1)
	q.tokens[q.n] = token{raw: w, fold: spell.Fold(q.folds[at:at:at+spell.MaxWord+1], w), form: form}
	q.n++
}

// split parts "brownrice" in two words that names have, in place of token i.
func (q *query) split(ix *wordIndex, i int) bool {
	w := q.tokens[i].raw
	for k := 3; k <= len(w)-3 && q.n < maxTokens; k++ {
		if ix.has(w[:k]) && ix.has(w[k:]) {
			clear(q.match[i*len(ix.words) : (i+1)*len(ix.words)])
			q.tokens[i].raw = w[:k]
			q.tokens[i].fold = spell.Fold(q.tokens[i].fold[:0], w[:k])
			q.add(w[k:], noForm) // compared in its turn
			return true
		}
	}
	return false
}

// findForms marks the words that belong to a phrase for a form, the longest
// phrase first.
func (q *query) findForms(ix *wordIndex, words [][]byte, form []uint8) {
	for i := 0; i < len(words) && q.formsN < maxForms; i++ {
		var best *formPhrase
		length := 0
		for p := range formPhrases {
			if n := startsWith(words[i:], formPhrases[p].phrase); n > length {
				best, length = &formPhrases[p], n
			}
		}
		if best == nil && len(words) > 1 && !ix.has(words[i]) {
			if best = nearPhrase(words[i], i == len(words)-1); best != nil {
				length = 1
			}
		}
		if best == nil {
			continue
		}
		for k := range length {
			form[i+k] = uint8(q.formsN)
		}
		q.forms[q.formsN] = best
		q.formsN++
		i += length - 1
	}
}

// startsWith tells how many words the phrase has if the words start with it;
// else 0.
func startsWith(words [][]byte, phrase string) int {
	for n, w := range words {
		first, rest, more := strings.Cut(phrase, " ")
		if first != string(w) {
			return 0
		}
		if !more {
			return n + 1
		}
		phrase = rest
	}
	return 0
}

// nearPhrase finds a one-word phrase with one letter wrong, or one that the
// last word has begun.
func nearPhrase(word []byte, last bool) *formPhrase {
	if len(word) < 3 {
		return nil
	}
	var p spell.Pattern
	p.Make(word)
	for i := range formPhrases {
		phrase := formPhrases[i].phrase
		if strings.Contains(phrase, " ") || len(phrase) < 5 {
			continue
		}
		if last && strings.HasPrefix(phrase, string(word)) {
			return &formPhrases[i]
		}
		if d, _ := p.Distance([]byte(phrase)); d == 1 && len(word) >= 5 {
			return &formPhrases[i]
		}
	}
	return nil
}

// How well a word matches, of 100.
const (
	sameWord   = 100
	sameFold   = 98 // singular for plural
	startOf    = 80 // cut short; a little more the longer it is
	fuzzyOne   = 76 // a letter wrong
	fuzzyTwo   = 60
	fuzzyStart = 50 // cut short and a letter wrong
	haveForm   = 95 // a word for a form that the food has
	lackForm   = 40 // one that it has not
)

// compare fills the row of token i.
func (q *query) compare(ix *wordIndex, i int) {
	t := &q.tokens[i]
	row := q.match[i*len(ix.words) : (i+1)*len(ix.words)]
	t.best = 0
	for w, first := range ix.first {
		if first != t.raw[0] {
			continue
		}
		m := exactMatch(t, ix.words[w], ix.folds[w])
		row[w] = m
		t.best = max(t.best, m)
	}
	if t.best >= sameFold || len(t.raw) < 4 {
		return
	}
	var p spell.Pattern
	p.Make(t.fold)
	letters := letterSet(t.fold)
	for w := range ix.words {
		if row[w] == 0 && bits.OnesCount32(letters&^ix.letters[w]) <= 2 {
			row[w] = fuzzyMatch(&p, t.fold, ix.folds[w])
			t.best = max(t.best, row[w])
		}
	}
}

func exactMatch(t *token, word, fold []byte) uint8 {
	switch {
	case bytes.Equal(t.raw, word):
		return sameWord
	case bytes.Equal(t.fold, fold):
		return sameFold
	case bytes.HasPrefix(word, t.raw):
		return uint8(startOf + 3*len(t.raw)/len(word))
	case len(t.fold) >= 3 && bytes.HasPrefix(fold, t.fold):
		return uint8(startOf - 5 + 3*len(t.fold)/len(fold))
	}
	return 0
}

func fuzzyMatch(p *spell.Pattern, typed, fold []byte) uint8 {
	if len(fold)+2 < len(typed) || len(fold) < 3 {
		return 0
	}
	whole, start := p.Distance(fold)
	m := 0
	switch {
	case whole == 1:
		m = fuzzyOne
	case whole == 2 && len(typed) >= 6 && len(fold) >= 5:
		m = fuzzyTwo
	case start == 1 && len(typed) >= 4, start == 2 && len(typed) >= 8:
		m = fuzzyStart - 10*(start-1)
	default:
		return 0
	}
	if typed[0] != fold[0] { // people know how a word begins
		m -= 10
	}
	return uint8(m)
}
