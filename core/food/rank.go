package food

import (
	"bytes"
	"math/bits"
)

// A candidate is a food with its best name.
type candidate struct {
	score int16
	food  uint16
	other uint8 // 0: its name, else which of its other names
	form  Form
	words uint8
}

func (c candidate) before(d candidate) bool {
	switch {
	case c.score != d.score:
		return c.score > d.score
	case c.words != d.words:
		return c.words < d.words
	}
	return c.food < d.food
}

const (
	leastScore = 430
	leastShare = 58 // per cent of the best hit's score
)

// rank scores every name and keeps the best foods in best, up to its capacity.
func (q *query) rank(ix *wordIndex, best []candidate) []candidate {
	for i := 0; i < len(ix.names); {
		food := ix.names[i].food
		forms := foodForms[food]
		form, formQuality := q.formOf(forms)
		top := candidate{food: food, form: form}
		for ; i < len(ix.names) && ix.names[i].food == food; i++ {
			n := &ix.names[i]
			score := q.score(ix, n, &formQuality)
			if score > top.score {
				top.score, top.other, top.words = score, n.other, uint8(n.end-n.start)
			}
		}
		if top.score < leastScore {
			continue
		}
		top.score += int16(3 * min(bits.OnesCount16(forms), 5)) // what is sold in many forms is eaten often
		switch groupOf(int(food)) {
		case Extra: // milk is dairy before it is almond milk
			top.score -= 12
		case Mixed:
			top.score -= 6
		}
		best = insert(best, top)
	}
	for len(best) > 1 && int(best[len(best)-1].score)*100 < int(best[0].score)*leastShare {
		best = best[:len(best)-1] // next to a good answer these are noise
	}
	return best
}

func insert(best []candidate, c candidate) []candidate {
	if len(best) == cap(best) {
		if !c.before(best[len(best)-1]) {
			return best
		}
	} else {
		best = append(best, c)
	}
	i := len(best) - 1
	for ; i > 0 && c.before(best[i-1]); i-- {
		best[i] = best[i-1]
	}
	best[i] = c
	return best
}

// formOf picks the form that the phrases name among a food's, by the most
// telling phrase, and says how well each phrase fits the food.
func (q *query) formOf(forms uint16) (form Form, quality [maxForms]uint8) {
	telling := 99
	for i, p := range q.forms[:q.formsN] {
		quality[i] = lackForm
		if f := p.among(forms); f != NoForm {
			quality[i] = haveForm
			if n := p.choices(); n < telling {
				form, telling = f, n
			}
		}
	}
	return form, quality
}

// score tells how well the query fits a name.
func (q *query) score(ix *wordIndex, n *indexName, formQuality *[maxForms]uint8) int16 {
	words := ix.list[n.start:n.end]
	last := len(words) - 1
	sum, counted, named := 0, q.n, 0
	inOrder, whole, partly := true, len(words) == q.n, false // partly: the last token has only begun its word
	var covered uint32
	for i := range q.n {
		t := &q.tokens[i]
		row := q.match[i*len(ix.words):]
		m, place := uint8(0), 0
		if t.best > 0 {
			for k, w := range words {
				if row[w] > m {
					m, place = row[w], k
				}
			}
		}
		switch {
		case t.form != noForm && m < sameFold:
			m = max(formQuality[t.form], m/2)
			named += q.onlyForms()
			inOrder = false
		case m < sameFold && t.amount: // "2 peaches" are peaches
			counted--
			inOrder, whole = false, false
		case m == 0:
			inOrder, whole = false, false
		default:
			named++
			covered |= 1 << place
			inOrder = inOrder && place == i
			whole, partly = whole && m >= sameFold, m < sameFold
			if q.n == 1 && len(t.raw) <= 3 && len(words) > 1 {
				m = min(m, startOf) // "pot" may become potato
			}
		}
		sum += int(m)
	}
	if named == 0 {
		return 0
	}
	score := 10 * sum / max(counted, 1)
	score -= 25 * min(len(words)-bits.OnesCount32(covered), 4)
	switch {
	case bytes.Equal(q.clean, ix.text[n.from:n.to]):
		score += 50
	case inOrder && whole:
		score += 25
	case inOrder && partly && covered>>last&1 == 0:
		score += 10 // being typed from its start
	case covered>>last&1 != 0:
		score += 12 // the last word says what it is: banana bread is a bread
	}
	if n.other == 0 {
		score += 8
	}
	return int16(score)
}

// onlyForms is 1 when the query names nothing but forms ("juice"), so that the
// form alone finds foods.
func (q *query) onlyForms() int {
	for _, t := range q.tokens[:q.n] {
		if t.form == noForm {
			return 0
		}
	}
	return 1
}
