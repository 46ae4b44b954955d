package day

import (
	"slices"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
)

// A bean is a credit that may count on either side.
type bean struct {
	item               int // index in the report
	vegetable, protein amount.Amount
	share              amount.Num // of it that counts as vegetables, 0..1
}

// beans lists the day's credits that may count on either side.
func (r *Report) beans() []bean {
	var beans []bean
	for i, it := range r.Items {
		for _, c := range it.Result.Credits {
			if c.Alt != nil {
				beans = append(beans, bean{item: i, vegetable: c.Amount, protein: c.Alt.Amount, share: amount.Int(1)})
			}
		}
	}
	return beans
}

// A side is what one of the two groups has without beans, and its target.
type side struct {
	have   amount.Num
	target *guide.Target
}

// A score tells how a split leaves the two groups: fewer targets missed is
// better, then less missing as a share of the targets.
type score struct {
	missed int
	miss   amount.Num
}

func (s score) betterThan(o score) bool {
	if s.missed != o.missed {
		return s.missed < o.missed
	}
	return s.miss.Less(o.miss)
}

// rate scores the two groups' best totals.
func rate(vegetable, protein side) (s score) {
	for _, x := range []side{vegetable, protein} {
		if x.target == nil {
			continue
		}
		low, high := x.target.Low, x.target.High
		if low.Sign() > 0 && x.have.Less(low) {
			s.missed++
			s.miss = s.miss.Add(low.Sub(x.have).Quo(low))
		}
		if high.Sign() > 0 && high.Less(x.have) {
			s.missed++
			s.miss = s.miss.Add(x.have.Sub(high).Quo(high))
		}
	}
	return s
}

// split decides which share of the beans counts as vegetables. The day's beans
// are one pot: all that exchange at the same rate get the same share, so
// neither the order of the portions nor how they are cut up matters. Beans
// that give most protein for their vegetable go to the protein side first,
// which traces the best totals that any split can reach; between two corners
// of that line the score can only turn where a target is just met.
func (r *Report) split(beans []bean, vegetable, protein side) {
	if len(beans) == 0 {
		return
	}
	pots := byRate(beans)
	for _, b := range beans { // start with all of it on the vegetable side
		vegetable.have = vegetable.have.Add(b.vegetable.Best)
	}
	best := rate(vegetable, protein)
	bestPot, bestTaken := 0, amount.Num{}
	for i, pot := range pots {
		for _, f := range turns(pot, vegetable, protein) {
			v, p := pot.moved(f, vegetable, protein)
			if s := rate(v, p); s.betterThan(best) {
				best, bestPot, bestTaken = s, i, f
			}
		}
		vegetable, protein = pot.moved(amount.Int(1), vegetable, protein)
	}
	for i, pot := range pots {
		share := amount.Int(1) // on the vegetable side
		switch {
		case i < bestPot:
			share = amount.Num{}
		case i == bestPot:
			share = amount.Int(1).Sub(bestTaken)
		}
		for _, b := range pot.beans {
			b.share = share
		}
	}
	for _, b := range beans {
		r.Items[b.item].Vegetable = b.share
	}
}

// A pot is all beans that exchange at one rate.
type pot struct {
	rate               amount.Num // protein for one vegetable
	vegetable, protein amount.Num // best amounts
	beans              []*bean
}

// moved takes share f of the pot from the vegetable to the protein side.
func (p pot) moved(f amount.Num, vegetable, protein side) (side, side) {
	vegetable.have = vegetable.have.Sub(p.vegetable.Mul(f))
	protein.have = protein.have.Add(p.protein.Mul(f))
	return vegetable, protein
}

// byRate pools the beans, those with most protein for their vegetable first.
func byRate(beans []bean) []pot {
	var pots []pot
	for i := range beans {
		b := &beans[i]
		if b.vegetable.Best.Sign() <= 0 {
			continue
		}
		rate := b.protein.Best.Quo(b.vegetable.Best)
		at := slices.IndexFunc(pots, func(p pot) bool { return p.rate.Equal(rate) })
		if at < 0 {
			pots = append(pots, pot{rate: rate})
			at = len(pots) - 1
		}
		p := &pots[at]
		p.vegetable = p.vegetable.Add(b.vegetable.Best)
		p.protein = p.protein.Add(b.protein.Best)
		p.beans = append(p.beans, b)
	}
	slices.SortStableFunc(pots, func(a, b pot) int { return b.rate.Cmp(a.rate) })
	return pots
}

// turns lists the shares of a pot at which the score can turn: none, all, and
// where a target is just met.
func turns(p pot, vegetable, protein side) []amount.Num {
	at := []amount.Num{{}, amount.Int(1)}
	meet := func(missing, step amount.Num) {
		if step.Sign() > 0 {
			if f := missing.Quo(step); f.Sign() > 0 && f.Less(amount.Int(1)) {
				at = append(at, f)
			}
		}
	}
	if t := vegetable.target; t != nil {
		meet(vegetable.have.Sub(t.Low), p.vegetable)
		if t.High.Sign() > 0 {
			meet(vegetable.have.Sub(t.High), p.vegetable)
		}
	}
	if t := protein.target; t != nil {
		meet(t.Low.Sub(protein.have), p.protein)
		if t.High.Sign() > 0 {
			meet(t.High.Sub(protein.have), p.protein)
		}
	}
	slices.SortFunc(at, amount.Num.Cmp)
	return at
}

// beanTotals adds up what the beans count on each side.
func (r *Report) beanTotals(beans []bean) (vegetable, protein amount.Amount) {
	for _, b := range beans {
		vegetable = vegetable.Add(b.vegetable.Scale(b.share))
		protein = protein.Add(b.protein.Scale(amount.Int(1).Sub(b.share)))
	}
	return vegetable, protein
}

// noteSplit says where the beans went.
func (r *Report) noteSplit(vegetable, protein amount.Amount, targets [food.Mixed]*guide.Target) {
	v, p := targets[food.Vegetable], targets[food.Protein]
	if v == nil || p == nil {
		return
	}
	in := func(a amount.Amount, t *guide.Target) guide.Counted { return guide.Counted{Amount: a, Unit: t.Unit} }
	switch {
	case vegetable.IsZero() && protein.IsZero():
	case protein.IsZero():
		r.note(rule.BestSplit, "note.beans-vegetable", in(vegetable, v))
	case vegetable.IsZero():
		r.note(rule.BestSplit, "note.beans-protein", in(protein, p))
	default:
		r.note(rule.BestSplit, "note.beans-split", in(vegetable, v), in(protein, p))
	}
}
