package label

import (
	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// Cups tells how many cups one serving is. gramsPerCup is the food's weight in
// the state in which the label measures it: for canned food with its liquid,
// unless the label says drained. Give the zero Amount where it is not known.
//
// A printed volume is taken as printed; otherwise millilitres count by 240 to
// a cup, and grams by gramsPerCup. flags are doubts that need the food's
// weight: a plastic cup that is called "1 cup", a serving in cups that
// disagrees with its grams. They come on top of s.Flags. The error is a
// [*say.Problem] where the label doesn't say how many cups it is.
func (s Serving) Cups(gramsPerCup amount.Amount) (cups amount.Amount, steps []rule.Step, flags []say.Line, err error) {
	known := gramsPerCup.Low.Sign() > 0
	if v, ok := s.volume(); ok {
		cups, steps = volumeCups(v)
		if !known || !s.HasMetric || s.Metric.Unit != amount.G {
			return cups, steps, nil, nil
		}
		grams := s.Metric.Amount
		want := cups.Mul(gramsPerCup)
		if v.Unit == amount.Cup && isOne(v.Amount) && isPlasticCup(grams, want) {
			cups, steps = weightCups(s.Metric, gramsPerCup)
			steps[0].Rule = rule.PlasticCup
			return cups, steps, []say.Line{say.New("label.plastic-cup", s.Metric, quantity(want, amount.G), cups)}, nil
		}
		if disagree(grams, want) {
			flags = append(flags, say.New("label.cup-weight", v, s.Metric, quantity(want, amount.G)))
		}
		return cups, steps, flags, nil
	}
	if s.HasMetric && s.Metric.Unit == amount.Ml {
		cups, steps = volumeCups(s.Metric)
		return cups, steps, nil, nil
	}
	w, first, ok := s.weight()
	switch {
	case !ok:
		return amount.Amount{}, nil, nil, wrong("label.no-cups", quote(s.Text))
	case !known:
		return amount.Amount{}, nil, nil, wrong("label.needs-weight", quote(s.Text))
	}
	cups, steps = weightCups(w, gramsPerCup)
	return cups, append(first, steps...), nil, nil
}

// Grams tells how many grams one serving is: as printed, by its ounces of 28 g,
// or by its volume and the food's weight per cup. The error is a [*say.Problem]
// where neither is there.
func (s Serving) Grams(gramsPerCup amount.Amount) (grams amount.Amount, steps []rule.Step, err error) {
	if w, first, ok := s.weight(); ok {
		if len(first) == 0 {
			first = []rule.Step{{Rule: rule.LabelSize, Line: say.New("label.step.grams", w)}}
		}
		return w.Amount, first, nil
	}
	if gramsPerCup.Low.Sign() <= 0 {
		return amount.Amount{}, nil, wrong("label.needs-weight", quote(s.Text))
	}
	cups, steps, _, err := s.Cups(amount.Amount{})
	if err != nil {
		return amount.Amount{}, nil, err
	}
	grams = cups.Mul(gramsPerCup)
	line := say.New("label.step.cups-grams", quantity(cups, amount.Cup), quantity(gramsPerCup, amount.G), quantity(grams, amount.G))
	return grams, append(steps, rule.Step{Rule: rule.WeightPerCup, Line: line}), nil
}

// volume is the serving as a volume, where the label prints one for the same
// food in the same state.
func (s Serving) volume() (amount.Quantity, bool) {
	if s.Kind == ByVolume {
		return aboutRange(s.Measure), true
	}
	for _, x := range s.Seconds {
		if x.Relation == Same && x.Unit.Kind() == amount.Volume && !isMetric(x.Unit) {
			return aboutRange(x.Measure), true
		}
	}
	return amount.Quantity{}, false
}

// weight is the serving in grams, where the label prints a weight; steps say
// how where it had to be computed.
func (s Serving) weight() (amount.Quantity, []rule.Step, bool) {
	if s.HasMetric && s.Metric.Unit == amount.G {
		return s.Metric, nil, true
	}
	q := amount.Quantity{Amount: s.Amount, Unit: s.Unit}
	ok := s.Kind == ByWeight
	for _, x := range s.Seconds {
		if !ok && x.Relation == Same && x.Unit.Kind() == amount.Weight {
			q, ok = amount.Quantity{Amount: x.Amount, Unit: x.Unit}, true
		}
	}
	if !ok {
		return q, nil, false
	}
	g, _ := q.In(amount.G, amount.Label)
	return g, []rule.Step{{Rule: rule.UnitLabel, Line: say.New("label.step.ounces", q, g)}}, true
}

func quantity(a amount.Amount, u amount.Unit) amount.Quantity {
	return amount.Quantity{Amount: a, Unit: u}
}

func volumeCups(v amount.Quantity) (amount.Amount, []rule.Step) {
	c, _ := v.In(amount.Cup, amount.Label)
	if v.Unit == amount.Cup {
		return c.Amount, []rule.Step{{Rule: rule.LabelSize, Line: say.New("label.step.size", v)}}
	}
	return c.Amount, []rule.Step{{Rule: rule.UnitLabel, Line: say.New("label.step.volume", v, c)}}
}

func weightCups(w amount.Quantity, gramsPerCup amount.Amount) (amount.Amount, []rule.Step) {
	cups := w.Amount.Quo(gramsPerCup)
	line := say.New("label.step.weight", w, quantity(gramsPerCup, amount.G), quantity(cups, amount.Cup))
	return cups, []rule.Step{{Rule: rule.WeightPerCup, Line: line}}
}

// isPlasticCup tells whether "1 cup" weighs so little that it is the plastic
// single-serve cup: under 150 g, and under seven tenths of a measured cup.
func isPlasticCup(grams, want amount.Amount) bool {
	return grams.High.Less(amount.Int(150)) && grams.High.Less(want.Low.Mul(amount.Frac(7, 10)))
}

// disagree tells whether the grams are more than a quarter off what the cups
// should weigh, at either end of the range.
func disagree(grams, want amount.Amount) bool {
	return grams.High.Less(want.Low.Mul(amount.Frac(3, 4))) || want.High.Mul(amount.Frac(5, 4)).Less(grams.Low)
}

// aboutRange gives "about" its range: half the step in which 21 CFR
// 101.9(b)(5)(i) has that measure printed, each way.
func aboutRange(m Measure) amount.Quantity {
	q := quantity(m.Amount, m.Unit)
	if !m.About || !m.Amount.IsExact() {
		return q
	}
	half := amount.Frac(1, 2)
	switch m.Unit {
	case amount.Cup, amount.Tsp:
		half = amount.Frac(1, 8)
	}
	low := m.Amount.Best.Sub(half)
	if low.Sign() <= 0 {
		low = m.Amount.Best.Mul(amount.Frac(1, 2))
	}
	q.Amount = amount.Between(low, m.Amount.Best, m.Amount.Best.Add(half))
	return q
}
