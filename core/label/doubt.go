package label

import (
	"cupsum/core/amount"
	"cupsum/core/say"
)

// The bounds of what one serving can be. Above them a sign was likely lost:
// data entry turns "1/4 cup" into "4 cup" and "12 cup".
var most = []struct {
	unit    amount.Unit
	doubt   int64 // from here on it is doubted
	refused int64 // above this it is refused
}{
	{amount.Cup, 4, 100}, {amount.Tbsp, 9, 500}, {amount.Tsp, 9, 1000}, {amount.FlOz, 41, 1000}, {amount.Pint, 3, 50}, {amount.Quart, 2, 25}, {amount.Gallon, 1, 10},
	{amount.Oz, 25, 1000}, {amount.Lb, 3, 100}, {amount.G, 1001, 50000}, {amount.Ml, 1001, 50000}, {amount.NoUnit, 101, 1000},
}

// bounds refuses what can't be one serving and doubts what hardly is.
func (s *Serving) bounds() error {
	if err := s.bound(amount.Quantity{Amount: s.Amount, Unit: s.Unit}); err != nil {
		return err
	}
	if s.HasMetric {
		return s.bound(s.Metric)
	}
	return nil
}

func (s *Serving) bound(q amount.Quantity) error {
	for _, m := range most {
		if m.unit != q.Unit {
			continue
		}
		if amount.Int(m.refused).Less(q.Amount.High) {
			return wrong("label.serving-huge", quote(s.Text))
		}
		if !q.Amount.High.Less(amount.Int(m.doubt)) {
			s.Flags = append(s.Flags, say.New("label.serving-big", quote(s.Text)))
		}
	}
	return nil
}

// The weights, in grams, that a cup of any food can have: popped or puffed
// grain is the lightest, heavy syrup and salt the heaviest.
const (
	lightestCup = 4
	heaviestCup = 420
)

// doubt looks for amounts that contradict each other.
func (s *Serving) doubt() {
	if !s.HasMetric {
		s.doubtSeconds()
		return
	}
	house := amount.Quantity{Amount: s.Amount, Unit: s.Unit}
	switch s.Unit.Kind() {
	case amount.Volume:
		if s.Metric.Unit == amount.Ml {
			s.compare(house, s.Metric)
		} else {
			s.density(house, s.Metric)
		}
	case amount.Weight:
		if s.Metric.Unit == amount.G {
			s.compare(house, s.Metric)
		}
	}
	s.doubtSeconds()
}

func (s *Serving) doubtSeconds() {
	for _, x := range s.Seconds {
		if x.HasMetric && x.Unit.Kind() == x.Metric.Unit.Kind() && !isMetric(x.Unit) {
			s.compare(amount.Quantity{Amount: x.Amount, Unit: x.Unit}, x.Metric)
		}
		if x.Relation != Same || x.Unit == amount.NoUnit || s.Kind == ByContainer && s.State.Has(Drained) {
			continue // the size of a can is not the weight of what is drained
		}
		q := amount.Quantity{Amount: x.Amount, Unit: x.Unit}
		switch {
		case s.Unit != amount.NoUnit && s.Unit.Kind() == x.Unit.Kind():
			s.compare(amount.Quantity{Amount: s.Amount, Unit: s.Unit}, q)
		case s.HasMetric && s.Metric.Unit.Kind() == x.Unit.Kind():
			s.compare(q, s.Metric)
		}
	}
}

// compare flags two amounts of one kind that differ by more than a tenth and
// by more than their rounding: labels round to 28 or 28.35 g an ounce, to 30
// or 29.57 mL a fluid ounce, and to whole grams.
func (s *Serving) compare(a, b amount.Quantity) {
	to := amount.Ml
	if a.Unit.Kind() == amount.Weight {
		to = amount.G
	}
	x, ok1 := a.In(to, amount.Label)
	y, ok2 := b.In(to, amount.Label)
	if !ok1 || !ok2 {
		return
	}
	low, high := x.Amount.Low.Mul(amount.Frac(9, 10)), x.Amount.High.Mul(amount.Frac(11, 10))
	half := amount.Frac(1, 2)
	if y.Amount.High.Add(half).Less(low) || high.Less(y.Amount.Low.Sub(half)) {
		s.Flags = append(s.Flags, say.New("label.differ", a, b, x))
	}
}

// density flags a volume and a weight that no food joins.
func (s *Serving) density(v, w amount.Quantity) {
	cups, ok := v.In(amount.Cup, amount.Label)
	if !ok {
		return
	}
	half := amount.Frac(1, 2)
	light := cups.Amount.Low.Mul(amount.Int(lightestCup))
	heavy := cups.Amount.High.Mul(amount.Int(heaviestCup))
	if w.Amount.High.Add(half).Less(light) || heavy.Less(w.Amount.Low.Sub(half)) {
		s.Flags = append(s.Flags, say.New("label.density", v, w))
	}
}
