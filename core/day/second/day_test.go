package second_test

import "math/big"

// A total is a group, or a part of it, held against its target.
type total struct {
	target  targetRow
	amount  span
	juice   span
	capped  bool
	verdict string
	gap     *big.Rat
	above   *big.Rat
}

// A split is the share of each portion's beans that counts as vegetables.
type split []*big.Rat

// A counted day is the credits of each portion, in order.
type countedDay struct {
	credits [][]credit
	sides   []string
	targets []targetRow
}

func (d countedDay) sum(group, sub string, juice bool, shares split) span {
	sum := exactly(nought)
	for i, list := range d.credits {
		for _, c := range list {
			share := frac(1, 1)
			if c.alt != nil {
				share = shares[i]
				if c.alt.group == group && sub == "" && !juice {
					sum = sum.plus(c.alt.by(new(big.Rat).Sub(frac(1, 1), share)))
				}
			}
			if c.group == group && (sub == "" || c.sub == sub) && c.juice == juice {
				sum = sum.plus(c.by(share))
			}
		}
	}
	return sum
}

// check adds the day up under the given split of the beans.
//
// Reading: the half of the day's fruit or vegetables that may be juice (rule
// juice-half) is half of the day's target, as its source has it for fruit.
func (d countedDay) check(shares split) (groups, parts []total) {
	for _, group := range []string{"fruit", "vegetable", "grain", "protein", "dairy", "oil"} {
		for _, t := range d.targets {
			if !t.daily || t.group != group || t.part != "" {
				continue
			}
			r := total{target: t, amount: d.sum(group, t.sub, false, shares), juice: d.sum(group, t.sub, true, shares)}
			if t.sub == "" && t.low != nil {
				half := div(t.low, frac(2, 1))
				r.capped = r.juice.best.Cmp(half) > 0 // Reading: by the best guess
				r.amount = r.amount.plus(r.juice.atMost(half))
			}
			r.judge()
			if t.sub == "" {
				groups = append(groups, r)
			} else {
				parts = append(parts, r)
			}
		}
	}
	return groups, parts
}

// judge holds the total against its target. It is met when no end of it is
// outside, short or over when all of it is, and too close to call when an end
// of the target lies inside of it. Without a high end nothing is over.
func (r *total) judge() {
	low, high := r.target.low, r.target.high
	r.gap, r.above = new(big.Rat), new(big.Rat)
	if low != nil && r.amount.best.Cmp(low) < 0 {
		r.gap = sub(low, r.amount.best)
	}
	ceiling := high
	if ceiling == nil {
		ceiling = low
	}
	if r.amount.best.Cmp(ceiling) > 0 {
		r.above = sub(r.amount.best, ceiling)
	}
	switch {
	case low != nil && r.amount.hi.Cmp(low) < 0:
		r.verdict = "short"
	case high != nil && r.amount.lo.Cmp(high) > 0:
		r.verdict = "over"
	case low != nil && r.amount.lo.Cmp(low) < 0, high != nil && r.amount.hi.Cmp(high) > 0:
		r.verdict = "close"
	default:
		r.verdict = "met"
	}
}

// A worth is how good a day is by rule best-split: more targets met first,
// less missing next.
//
// Reading: targets are held against the best guesses, and what is missing is
// counted in shares of its target, since cups and ounces don't add up. Of
// splits that are equally good the one with most vegetables is meant; the rule
// does not say, and without it nothing says what half of such days come to.
type worth struct {
	met        int
	missing    *big.Rat
	vegetables *big.Rat
}

func (w worth) better(than worth) bool {
	if w.met != than.met {
		return w.met > than.met
	}
	if c := w.missing.Cmp(than.missing); c != 0 {
		return c < 0
	}
	return w.vegetables.Cmp(than.vegetables) > 0
}

func (d countedDay) worth(shares split) worth {
	w := worth{missing: new(big.Rat), vegetables: new(big.Rat)}
	groups, _ := d.check(shares)
	for _, g := range groups {
		t := g.target
		if t.group != "vegetable" && t.group != "protein" {
			continue
		}
		best := total{target: t, amount: exactly(g.amount.best)}
		best.judge()
		if best.verdict == "met" {
			w.met++
		}
		if t.group == "vegetable" {
			w.vegetables = g.amount.best
		}
		if t.low != nil {
			w.missing.Add(w.missing, div(best.gap, t.low))
		}
	}
	return w
}

// bestWorth is the worth of the best split that there is. The days that splits
// can make are a polygon of vegetables against protein; its edges give portions
// to one side in the order of what they bring there, and on an edge the worth
// changes its course only where a target is reached. So it is enough to try the
// corners and those points.
func (d countedDay) bestWorth(fixed split) worth {
	var free []int
	for i, list := range d.credits {
		if d.sides[i] == "" && beans(list) != nil {
			free = append(free, i)
		}
	}
	best := worth{met: -1}
	try := func(s split) {
		if w := d.worth(s); w.better(best) {
			best = w
		}
	}
	for _, rising := range []bool{true, false} {
		order := append([]int(nil), free...)
		for i := range order { // the plainest sort
			for j := i + 1; j < len(order); j++ {
				a, b := beans(d.credits[order[i]]), beans(d.credits[order[j]])
				// protein lost for vegetables won, a against b
				c := mul(a.alt.best, b.best).Cmp(mul(b.alt.best, a.best))
				if rising && c > 0 || !rising && c < 0 {
					order[i], order[j] = order[j], order[i]
				}
			}
		}
		at := append(split(nil), fixed...)
		for _, i := range free {
			at[i] = nought
		}
		try(at)
		for _, i := range order {
			for _, share := range d.turns(at, i) {
				next := append(split(nil), at...)
				next[i] = share
				try(next)
			}
			at = append(split(nil), at...)
			at[i] = frac(1, 1)
			try(at)
		}
	}
	return best
}

// turns lists the shares of portion i, inside 0 and 1, at which a target of
// vegetables or protein is just reached.
func (d countedDay) turns(at split, i int) (list []*big.Rat) {
	value := func(share *big.Rat) (x []*big.Rat, marks [][]*big.Rat) {
		s := append(split(nil), at...)
		s[i] = share
		groups, _ := d.check(s)
		for _, g := range groups {
			if g.target.group == "vegetable" || g.target.group == "protein" {
				x = append(x, g.amount.best)
				marks = append(marks, []*big.Rat{g.target.low, g.target.high})
			}
		}
		return x, marks
	}
	from, marks := value(nought)
	to, _ := value(frac(1, 1))
	for k := range from {
		slope := sub(to[k], from[k])
		for _, mark := range marks[k] {
			if mark == nil || slope.Sign() == 0 {
				continue
			}
			share := div(sub(mark, from[k]), slope)
			if share.Sign() > 0 && share.Cmp(frac(1, 1)) < 0 {
				list = append(list, share)
			}
		}
	}
	return list
}

// beans finds the credit that may count on either side; nil when there is none.
func beans(list []credit) *credit {
	for i := range list {
		if list[i].alt != nil {
			return &list[i]
		}
	}
	return nil
}
