package label

import (
	"strings"
	"unicode/utf8"

	"cupsum/core/amount"
	"cupsum/core/say"
)

// MaxServing is the longest serving size, in bytes, that [ReadServing] reads.
const MaxServing = 200

// ReadServing reads a printed serving size: "1/2 cup (130 g)", "2 halves (128
// g)", "1/4 package (28g)", "115 g (0.5 cup)", "1/4 cup dry (45g) makes 3/4 cup
// cooked". What isn't a size is refused with a [*say.Problem] whose id begins
// with "label." or "amount."; what contradicts itself comes with Flags.
func ReadServing(text string) (Serving, error) {
	if len(text) > MaxServing {
		return Serving{}, wrong("label.serving-long", MaxServing)
	}
	t := fold(text)
	if t == "" {
		return Serving{}, wrong("label.serving-empty")
	}
	ts, err := tokens(strings.TrimPrefix(t, "|"))
	if err != nil {
		return Serving{}, err
	}
	if minusAt(t) {
		return Serving{}, wrong("amount.negative", quote(text))
	}
	r := phrasesOf(ts)
	s := Serving{Text: t}
	if err := s.take(r, text); err != nil {
		return Serving{}, err
	}
	for _, w := range r.slips {
		s.Flags = append(s.Flags, say.New("label.slip", w, amountWord(s)))
	}
	s.doubt()
	return s, nil
}

// amountWord names the unit that a slip was read for.
func amountWord(s Serving) say.Term {
	u := s.Unit
	if u == amount.NoUnit && s.HasMetric {
		u = s.Metric.Unit
	}
	return say.Term{Kind: "units", ID: u.ID(), Text: u.ID()}
}

// minusAt tells whether the text begins with a negative number.
func minusAt(t string) bool { return len(t) > 1 && t[0] == '-' && startsNumber(t[1:]) }

// take turns phrases into the serving.
func (s *Serving) take(r *reader, text string) error {
	phrases := r.phrases[:0:0]
	skip := false
	for i, p := range r.phrases {
		if skip {
			skip = false
			continue
		}
		if p.each && len(phrases) > 0 {
			p.amount = p.amount.Mul(phrases[len(phrases)-1].amount)
		}
		if p.bare() && i+1 < len(r.phrases) && len(r.phrases[i+1].words) > 1 && strings.HasPrefix(r.phrases[i+1].words[0], "calorie") {
			p.words, skip = r.phrases[i+1].words[1:], true // "1 100 calorie pack"
		}
		if isYears(p) { // "Children 1 through 3 years": whom the label is for
			if n := len(phrases); n > 0 && phrases[n-1].unit == amount.NoUnit && (len(phrases[n-1].words) == 0 || oneOf([]string{"through", "to", "thru"}, phrases[n-1].words[0])) {
				phrases = phrases[:n-1]
			}
			continue
		}
		if p.bare() && i+1 < len(r.phrases) {
			if next := &r.phrases[i+1]; next.unit != amount.NoUnit && next.pre == nil && next.mark == 0 && len(next.words) > 0 {
				// "2 4 oz patties": two, of 4 oz each.
				p.words, next.words = next.words, nil
				next.amount = next.amount.Mul(p.amount)
			}
		}
		if p.apart && isSold(p.unit) && len(p.words) > 0 {
			if noun, _, _, _ := nounOf(p.words, true); noun != "" { // "2 - 4 oz patties": two, of 4 oz each
				each := p
				each.amount, each.isRange, each.words, each.pre, each.mark = amount.Exactly(p.amount.High).Mul(amount.Exactly(p.amount.Low)), false, nil, nil, 0
				p.amount, p.unit, p.isRange = amount.Exactly(p.amount.Low), amount.NoUnit, false
				phrases = append(phrases, p, each)
				continue
			}
		}
		if p.bare() && !p.isRange && i+1 < len(r.phrases) && twoNumbers(r.phrases[i+1]) {
			return wrong("label.two-numbers", quote(text))
		}
		phrases = append(phrases, p)
	}
	if len(phrases) == 0 {
		return noNumber(r, text)
	}
	b := builder{Serving: s, text: text, last: -1}
	for i := range phrases {
		if err := b.phrase(&phrases[i]); err != nil {
			return err
		}
	}
	if !b.hasMain {
		if err := b.promote(); err != nil {
			return err
		}
	}
	return b.finish(append(r.loose, r.tail...))
}

// twoNumbers tells whether the phrase follows a bare number with nothing in
// between: "1 2 packet", which was "1/2 packet" once.
func twoNumbers(next phrase) bool {
	return next.pre == nil && next.mark == 0 && !next.dimension
}

// isSold tells whether packages and pieces are sold by the unit.
func isSold(u amount.Unit) bool {
	return u == amount.Oz || u == amount.FlOz || u == amount.Lb || u == amount.G || u == amount.Ml
}

func isYears(p phrase) bool {
	return len(p.words) > 0 && oneOf([]string{"year", "years", "yr", "yrs", "months", "month"}, p.words[0])
}

// noNumber says why a text without a number is no serving size.
func noNumber(r *reader, text string) error {
	words := append(append([]string(nil), r.loose...), r.tail...)
	for _, w := range words {
		if u, ok := amount.ReadUnit(w); ok && len(w) > 1 {
			return wrong("label.no-amount", quote(text), say.Term{Kind: "units", ID: u.ID(), Text: u.ID()})
		}
	}
	for _, w := range words {
		if oneOf([]string{"serving", "servings", "container", "amount", "portion"}, w) {
			return wrong("label.heading", quote(text))
		}
	}
	return wrong("label.serving-none", quote(text))
}

// A builder fills a serving from its phrases, one at a time.
type builder struct {
	*Serving
	text    string
	hasMain bool // the household measure is found
	last    int  // the second that a metric amount belongs to; -1 for the serving
	within  Relation
	depth   int // bracket depth where within holds
	metric  []phrase

	makesOnly bool // the text says only what the serving makes
}

func (b *builder) phrase(p *phrase) error {
	if p.amount.High.Sign() == 0 {
		return wrong("label.serving-zero", quote(b.text))
	}
	if b.perContainer(p) {
		return nil
	}
	noun, size, state, rest := nounOf(p.words, p.unit == amount.NoUnit)
	if p.size != "" {
		size = strings.TrimSpace(p.size + " " + size)
	}
	if p.dimension && noun == "" {
		return nil // "(2" diameter)" or a length alone
	}
	if p.dimension && strings.Contains(p.size, ".") && len(p.words) > 0 && singular(p.words[len(p.words)-1]) != p.words[len(p.words)-1] {
		b.Flags = append(b.Flags, say.New("label.length", quote(b.text)))
	}
	if p.unit == amount.NoUnit && (noun != "" && oneOf(notFood, firstWord(noun))) {
		return wrong("label.not-food-unit", quote(b.text), firstWord(noun))
	}
	if p.bare() && !p.dimension {
		return b.bare(p)
	}
	if p.unit == amount.NoUnit && noun == "" {
		return b.bare(p)
	}
	if p.improper {
		b.Flags = append(b.Flags, say.New("label.improper", quote(b.text), p.amount))
	}
	m := Measure{Amount: p.amount, Unit: p.unit, Noun: noun, Size: size, State: state, About: p.about}
	if p.unit != amount.NoUnit {
		b.Rest = strings.TrimSpace(b.Rest + " " + strings.Join(rest, " "))
		if isContainer(noun) && (p.unit.Kind() == amount.Weight || p.unit == amount.FlOz || p.unit == amount.Ml) {
			m.Noun = noun // "4.5 oz cup"
		} else {
			m.Noun = ""
			b.Rest = strings.TrimSpace(b.Rest + " " + noun)
		}
	} else {
		b.Rest = strings.TrimSpace(b.Rest + " " + strings.Join(rest, " "))
		m.Amount = snapShare(m.Amount, p.places)
	}
	rel := b.relation(p, m)
	if before, _ := cutStates(p.pre); before != 0 && rel != Besides { // "drained 1/2 cup", "recon. 8 fl oz", but "4 oz raw, about 1 fillet"
		if b.hasMain && rel != Makes {
			b.State |= before
		} else {
			m.State |= before
		}
	}
	switch {
	case isMetric(p.unit):
		b.takeMetric(p, m, rel)
	case !b.hasMain && rel != Makes:
		b.Measure, b.hasMain, b.last = m, true, -1
		b.Kind = kindOf(m)
	default:
		b.addSecond(Second{Relation: rel, Measure: m}, p)
	}
	return nil
}

func firstWord(s string) string {
	w, _, _ := strings.Cut(s, " ")
	return w
}

// bare is a number with neither unit nor noun.
func (b *builder) bare(p *phrase) error {
	if !b.hasMain && len(b.metric) == 0 && len(b.Seconds) == 0 && !b.HasMetric {
		return wrong("label.no-unit", quote(b.text))
	}
	if b.hasMain && p.amount.Equal(b.Amount) { // "one (1) bar"
		return nil
	}
	b.Flags = append(b.Flags, say.New("label.stray-number", p.amount, quote(b.text)))
	return nil
}

// perContainer takes a number of servings per container out of the size.
func (b *builder) perContainer(p *phrase) bool {
	if p.unit != amount.NoUnit || len(p.words) == 0 || !oneOf([]string{"serving", "servings"}, p.words[0]) {
		return false
	}
	if len(p.words) > 1 && oneOf([]string{"per", "in"}, p.words[1]) || b.hasMain && p.words[0] == "servings" {
		b.Servings = p.amount
		if p.about {
			b.Servings = servingsRange(p.amount.Best)
		}
		return true
	}
	return b.hasMain && p.words[0] == "serving" // "[1 serving = 2 sheets]"
}

// relation says how the phrase stands to the serving.
func (b *builder) relation(p *phrase, m Measure) Relation {
	if b.last >= 0 && b.depth > 0 && p.paren >= b.depth && p.mark != ')' { // inside the bracket of a second amount
		if r := relationOf(p.pre); r != Same {
			return r
		}
		return b.within
	}
	if rel := relationOf(p.pre); rel != Same {
		if rel == Besides && !b.hasMain && !b.HasMetric {
			return Same
		}
		return rel
	}
	if !b.hasMain || isMetric(p.unit) {
		return Same
	}
	k := kindOf(m)
	switch {
	case m.State.Made() && !b.State.Made() && !m.State.Has(Dry):
		return Makes
	case b.Kind == ByContainer && k == ByPiece:
		return Holds
	case strings.Contains(b.Noun, "mix") && k == ByPiece:
		return Makes
	case p.mark == ',' && p.paren == 0 && k == b.Kind && (k == ByWeight || k == ByVolume) && len(p.words) > 0:
		return Besides
	case k == ByPiece && b.Kind == ByPiece && m.Noun == b.Noun && p.mark == 0:
		return Holds
	}
	return Same
}

func (b *builder) addSecond(x Second, p *phrase) {
	if b.hasMain && x.Relation == Holds && x.Noun == b.Noun {
		b.Flags = append(b.Flags, say.New("label.two-counts", b.Amount, x.Amount, quote(b.text)))
	}
	if x.Relation == Besides {
		b.Flags = append(b.Flags, say.New("label.two-foods", quote(b.text)))
	}
	b.Seconds = append(b.Seconds, x)
	b.last, b.within, b.depth = len(b.Seconds)-1, x.Relation, max(p.paren, 1)
}

// takeMetric gives grams and millilitres to the amount that they stand by.
func (b *builder) takeMetric(p *phrase, m Measure, rel Relation) {
	q := metricQuantity(m)
	if rel == Makes && b.last < 0 || rel == Besides && len(p.pre) > 0 {
		b.addSecond(Second{Relation: rel, Measure: m, Metric: q, HasMetric: true}, p)
		return
	}
	if b.last >= 0 {
		x := &b.Seconds[b.last]
		if (x.Relation == Makes || x.Relation == Besides) && !x.HasMetric && !b.belongsToMain(x, q) {
			x.Metric, x.HasMetric = q, true
			x.State |= m.State
			return
		}
	}
	switch {
	case !b.HasMetric:
		b.Metric, b.HasMetric = q, true
		b.State |= m.State
		b.About = b.About || !b.hasMain && m.About
		b.metric = append(b.metric, *p)
	case b.Metric.Unit == q.Unit && b.Metric.Amount.Equal(q.Amount):
		// "39 g (39 g)" says it twice
	default:
		b.Seconds = append(b.Seconds, Second{Relation: Same, Measure: m, Metric: q, HasMetric: true})
	}
}

// madeCup is the least weight, in grams, of a cup of food that is made up or
// cooked. Lighter grams after "makes 1 cup" are those of the serving itself.
const madeCup = 130

func (b *builder) belongsToMain(x *Second, q amount.Quantity) bool {
	if x.Relation != Makes || q.Unit != amount.G || b.HasMetric {
		return false
	}
	cups, ok := amount.Quantity{Amount: x.Amount, Unit: x.Unit}.In(amount.Cup, amount.Label)
	if !ok {
		return x.Unit == amount.NoUnit && b.hasMain
	}
	return q.Amount.Best.Less(cups.Amount.Best.Mul(amount.Int(madeCup)))
}

// promote makes the household measure of what is left, where no phrase gave
// it: a text that only says what the serving makes.
func (b *builder) promote() error {
	for i, x := range b.Seconds {
		if x.Relation == Makes && !b.HasMetric {
			b.Measure, b.hasMain, b.Kind = x.Measure, true, kindOf(x.Measure)
			b.State |= Prepared
			b.makesOnly = true
			b.Metric, b.HasMetric = x.Metric, x.HasMetric
			b.Seconds = append(b.Seconds[:i:i], b.Seconds[i+1:]...)
			b.Flags = append(b.Flags, say.New("label.makes-only", quote(b.text)))
			return nil
		}
	}
	if !b.HasMetric {
		return wrong("label.no-unit", quote(b.text))
	}
	b.Kind = MetricOnly
	return nil
}

// finish reads the words that stood with no number.
func (b *builder) finish(loose []string) error {
	state, rest := cutStates(loose)
	if b.HasMetric || b.hasMain {
		b.State |= state
	}
	if b.makesOnly {
		b.State &^= Dry
	}
	words := rest[:0:0]
	for _, w := range rest {
		if w != ";" {
			words = append(words, w)
		}
	}
	b.Rest = strings.Join(strings.Fields(strings.Join(words, " ")+" "+b.Rest), " ")
	if strings.Contains(" "+b.Rest+" ", " plus ") { // "1 cup salad plus dressing"
		b.Flags = append(b.Flags, say.New("label.two-foods", quote(b.Text)))
	}
	if b.Unit == amount.Oz && b.HasMetric && b.Metric.Unit == amount.Ml {
		b.Unit, b.Kind = amount.FlOz, ByVolume // "8 oz (240 mL)"
	}
	if strings.HasPrefix(strings.ToLower(b.Text), "per ") && b.Kind == MetricOnly && len(b.Flags) == 0 {
		b.Flags = append(b.Flags, say.New("label.per-metric", b.Metric))
	}
	if (b.Noun == "serving" || b.Noun == "portion") && !b.HasMetric && len(b.Seconds) == 0 {
		b.Flags = append(b.Flags, say.New("label.serving-word", quote(b.Text)))
	}
	if utf8.RuneCountInString(b.Noun) > 40 {
		b.Noun = string([]rune(b.Noun)[:40])
	}
	return b.bounds()
}

func isMetric(u amount.Unit) bool {
	return u == amount.G || u == amount.Kg || u == amount.Ml || u == amount.L
}

// metricQuantity gives grams for kilograms and millilitres for litres.
func metricQuantity(m Measure) amount.Quantity {
	q := amount.Quantity{Amount: m.Amount, Unit: m.Unit}
	to := amount.Ml
	if m.Unit.Kind() == amount.Weight {
		to = amount.G
	}
	q, _ = q.In(to, amount.Label)
	return q
}

// kindOf says what kind of measure it is.
func kindOf(m Measure) Kind {
	switch m.Unit.Kind() {
	case amount.Volume:
		return ByVolume
	case amount.Weight:
		return ByWeight
	}
	switch {
	case m.Amount.High.Less(amount.Int(1)):
		return ByShare
	case isContainer(m.Noun):
		return ByContainer
	}
	return ByPiece
}

// snapShare takes a rounded decimal share for the even part that it stands
// for: 0.111 of a pie is 1/9. Only where one alone of 1/2 to 1/24 rounds to
// it.
func snapShare(a amount.Amount, places int) amount.Amount {
	if places < 2 || !a.IsExact() || !a.Best.Less(amount.Int(1)) {
		return a
	}
	scale := int64(1)
	for range min(places, 9) {
		scale *= 10
	}
	found := amount.Num{}
	for n := int64(2); n <= 24; n++ {
		part := amount.Frac(1, n)
		if part.Equal(a.Best) {
			return a
		}
		if part.Round(amount.Frac(1, scale)).Equal(a.Best) {
			if found.Sign() > 0 {
				return a
			}
			found = part
		}
	}
	if found.Sign() == 0 {
		return a
	}
	return amount.Exactly(found)
}
