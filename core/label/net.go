package label

import (
	"cupsum/core/amount"
	"cupsum/core/say"
)

// ReadNet reads the net quantity of a package: "NET WT 15 OZ (425g)", "1 LB 6
// OZ (624 g)", "64 fl oz/1/2 GAL/1.89 L". The printed grams or millilitres
// count; without them an ounce is 28.35 g, for this is no nutrition label.
// What doesn't fit together comes with Flags. Errors are [*say.Problem].
func ReadNet(text string) (Net, error) {
	if len(text) > MaxServing {
		return Net{}, wrong("label.net-long", MaxServing)
	}
	t := fold(text)
	if t == "" {
		return Net{}, wrong("label.net-empty")
	}
	if minusAt(t) {
		return Net{}, wrong("amount.negative", quote(text))
	}
	ts, err := tokens(t)
	if err != nil {
		return Net{}, err
	}
	n := Net{Text: t}
	var weights, volumes, drained []printed
	phrases := phrasesOf(ts).phrases
	solids := false
	times := amount.Num{}
	var first *printed // the quantity that is said to be there several times
	for i, p := range phrases {
		if p.amount.High.Sign() == 0 {
			return Net{}, wrong("label.net-zero", quote(text))
		}
		if oneOf(p.pre, "drained") || oneOf(p.words, "drained") {
			solids = true
		}
		if p.unit == amount.NoUnit {
			if i+1 < len(phrases) && phrases[i+1].unit != amount.NoUnit && (p.bare() || len(p.words) == 1 && p.words[0] == "x") {
				times = p.amount.Best // "6 x 4 oz"
			} else if len(p.words) > 0 && !oneOf(notFood, p.words[0]) {
				n.Count = p.amount.Best
			}
			continue
		}
		w := printed{quantity(p.amount, p.unit), p.places, times}
		if times.Sign() > 0 && first == nil {
			first = &w
		} else if first != nil && !w.eachLike(*first) {
			w.times = amount.Num{} // "6 x 4 oz (680 g)": the grams are all six
		}
		switch {
		case solids && p.unit.Kind() == amount.Weight:
			drained = append(drained, w)
		case p.unit.Kind() == amount.Weight:
			weights = append(weights, w)
		default:
			volumes = append(volumes, w)
		}
	}
	if len(volumes) > 0 { // "32 OZ/946 ML": the ounces are fluid
		kept := weights[:0:0]
		for _, w := range weights {
			if w.Unit == amount.Oz && len(weights) == 1 {
				w.Unit = amount.FlOz
				volumes = append([]printed{w}, volumes...)
				continue
			}
			kept = append(kept, w)
		}
		weights = kept
	}
	if len(weights)+len(volumes)+len(drained) == 0 {
		return Net{}, wrong("label.net-none", quote(text))
	}
	n.Weight, n.HasWeight = n.settle(addUp(weights), amount.G)
	n.Volume, n.HasVolume = n.settle(volumes, amount.Ml)
	n.Drained, n.HasDrained = n.settle(addUp(drained), amount.G)
	if times.Sign() > 0 {
		n.Count = times
	} else if amount.Int(1).Less(n.Count) && n.HasWeight {
		n.Flags = append(n.Flags, say.New("label.net-count", n.Count, quantity(n.Weight, amount.G)))
	}
	return n, n.bound(text)
}

// The most that a package can hold here: 50 kg or 50 L.
const mostNet = 50000

func (n *Net) bound(text string) error {
	for _, a := range []amount.Amount{n.Weight, n.Volume, n.Drained} {
		if amount.Int(mostNet).Less(a.High) {
			return wrong("label.net-huge", quote(text))
		}
	}
	return nil
}

// printed is one quantity of the net text.
type printed struct {
	amount.Quantity
	places int
	times  amount.Num // so many of it, when not 0
}

func (p printed) in(to amount.Unit) amount.Amount {
	q, _ := p.In(to, amount.Customary)
	if p.times.Sign() > 0 {
		return q.Amount.Scale(p.times)
	}
	return q.Amount
}

// eachLike tells whether p says the size of one, as q does.
func (p printed) eachLike(q printed) bool {
	if p.Unit.Kind() != q.Unit.Kind() {
		return false
	}
	to := amount.Ml
	if p.Unit.Kind() == amount.Weight {
		to = amount.G
	}
	p.times, q.times = amount.Num{}, amount.Num{}
	return fits(q.in(to).Best, p.in(to).Best, p, to)
}

// addUp joins pounds and ounces: "1 LB/6 OZ/624 g" adds up, "1 lbs/16 oz/454 g"
// says the same twice. Without grams to tell, under 16 ounces add up.
func addUp(ws []printed) []printed {
	for i := 0; i+1 < len(ws); i++ {
		a, b := ws[i], ws[i+1]
		if a.Unit != amount.Lb || b.Unit != amount.Oz || !a.Amount.Best.IsInt() || !b.Amount.Best.Less(amount.Int(16)) {
			continue
		}
		sum := printed{quantity(amount.Exactly(a.Amount.Best.Mul(amount.Int(16)).Add(b.Amount.Best)), amount.Oz), b.places, a.times}
		return append(append(ws[:i:i], sum), ws[i+2:]...)
	}
	return ws
}

// settle picks one amount of what is printed and flags what doesn't fit it.
func (n *Net) settle(ps []printed, to amount.Unit) (amount.Amount, bool) {
	if len(ps) == 0 {
		return amount.Amount{}, false
	}
	best := ps[0]
	for _, p := range ps {
		if isMetric(p.Unit) {
			best = p
			break
		}
	}
	a := best.in(to)
	for _, p := range ps {
		b := p.in(to)
		if fits(a.Best, b.Best, p, to) {
			continue
		}
		id := "label.net-differs"
		for _, k := range []int64{10, 100, 1000} {
			if fits(a.Best, b.Best.Quo(amount.Int(k)), p, to) || fits(a.Best, b.Best.Mul(amount.Int(k)), p, to) {
				id = "label.net-point"
			}
		}
		n.Flags = append(n.Flags, say.New(id, p.Quantity, best.Quantity))
	}
	return a, true
}

// fits tells whether two amounts agree within 3 % and the rounding of p.
func fits(a, b amount.Num, p printed, to amount.Unit) bool {
	gap := a.Sub(b)
	if gap.Sign() < 0 {
		gap = gap.Neg()
	}
	step := int64(1)
	for range min(p.places, 6) {
		step *= 10
	}
	half := printed{quantity(amount.Exactly(amount.Frac(1, 2*step)), p.Unit), 0, p.times}.in(to).Best
	if !p.Amount.Best.IsInt() && p.places == 0 {
		half = amount.Num{}
	}
	return !a.Mul(amount.Frac(3, 100)).Add(half).Less(gap)
}
