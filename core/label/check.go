package label

import (
	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// A Context is what a check needs beside the label. Each part may be zero when
// it is not known.
type Context struct {
	AsPacked amount.Amount // grams in a cup of the food as packed, with its liquid
	Drained  amount.Amount // grams in a cup of it drained
	Typed    amount.Amount // cups that the person took for the whole package
}

// Check looks for what contradicts itself on the label and returns a line for
// each, the gravest first; none when all fits. It adds to the Flags of the
// parts, which say what one text alone contradicts.
func (p Panel) Check(c Context) []say.Line {
	var lines []say.Line
	add := func(l say.Line, ok bool) {
		if ok {
			lines = append(lines, l)
		}
	}
	add(p.servingsAsCups(c))
	add(p.netAgainstServings())
	add(p.cupsAgainstGrams(c))
	for _, n := range []Nutrient{Sodium, AddedSugars} {
		if f, ok := p.Fact(n); ok && !f.fitsPercent(n) {
			want, _ := PercentDaily(n, amount.Exactly(f.Printed), FromFour)
			lines = append(lines, say.New("label.percent-differs", n.Term(), f.Printed, n.Unit(), f.Percent, want.Best.Round(amount.Int(1))))
		}
	}
	if p.HasSugars && p.HasAdded && p.Sugars.Range(TotalSugars).High.Less(p.Added.Range(AddedSugars).Low) {
		lines = append(lines, say.New("label.added-over-total", p.Added.Printed, p.Sugars.Printed))
	}
	for _, cl := range p.Claims {
		f, ok := p.Fact(cl.Nutrient)
		if ok && cl.Limit.Sign() > 0 && cl.Limit.Less(f.Range(cl.Nutrient).Low) {
			lines = append(lines, say.New("label.claim-differs", say.Term{Kind: "claim-name", ID: cl.ID, Text: cl.ID}, cl.Limit, cl.Nutrient.Unit(), f.Printed))
		}
	}
	return lines
}

// RuleOf names the rule behind a flag, a line of [Panel.Check] or one of
// [FiveTwenty]; ok is false for those that follow from the text alone.
func RuleOf(l say.Line) (id rule.ID, ok bool) {
	switch l.ID {
	case "label.net-far", "label.net-solids", "label.net-each", "label.net-drained-weight":
		return rule.NetServings, true
	case "label.plastic-cup":
		return rule.PlasticCup, true
	case "label.cup-weight", "label.cup-drained", "label.cup-packed":
		return rule.WeightPerCup, true
	case "label.five-twenty.low", "label.five-twenty.middle", "label.five-twenty.high", "label.five-twenty.close":
		return rule.FiveTwenty, true
	case "label.differ":
		return rule.UnitLabel, true
	case "label.percent-differs":
		return rule.DailyValue, true
	case "label.servings-as-cups", "label.servings-not-cups":
		return rule.LabelSize, true
	}
	return "", false
}

// ServingsAsCups tells whether a number of cups that somebody took for a whole
// package is its number of servings: the commonest slip. The line says what a
// serving is. It is none when a serving is a cup.
func ServingsAsCups(cups, servings amount.Amount, s Serving) (say.Line, bool) {
	if !cups.Best.Equal(servings.Best) || servings.Best.Sign() == 0 {
		return say.Line{}, false
	}
	each, _, _, err := s.Cups(amount.Amount{})
	if err != nil {
		return say.New("label.servings-not-cups", servings), amount.Int(1).Less(servings.Best)
	}
	if isOne(each) {
		return say.Line{}, false
	}
	return say.New("label.servings-as-cups", servings.Best, quantity(each, amount.Cup), quantity(each.Mul(amount.Exactly(servings.Best)), amount.Cup)), true
}

func (p Panel) servingsAsCups(c Context) (say.Line, bool) {
	if !p.HasServings || !p.HasServing {
		return say.Line{}, false
	}
	return ServingsAsCups(c.Typed, amount.Exactly(p.ServingsMeta.Printed), p.Serving)
}

// far is how many percent servings x serving weight may be off the net weight.
// Of 295 real labels 283 are within 10 %; the misses from about 20 % on are
// drained foods, cooked weights and wrong sizes.
const far = 20

// netAgainstServings compares servings x serving with the net quantity.
func (p Panel) netAgainstServings() (say.Line, bool) {
	if !p.HasServings || !p.HasServing || !p.HasNet || p.ServingsMeta.Varied {
		return say.Line{}, false
	}
	unit, net := amount.G, p.Net.Weight
	each, _, err := p.Serving.Grams(amount.Amount{})
	if err != nil || !p.Net.HasWeight {
		v, ok := p.millilitres()
		if !ok || !p.Net.HasVolume {
			return say.Line{}, false
		}
		unit, net, each = amount.Ml, p.Net.Volume, v
	}
	servings := p.Servings
	if servings.IsExact() { // most labels leave the "about" out
		servings = servingsRange(servings.Best)
	}
	total := servings.Mul(each)
	solids := p.Serving.State.Has(Drained) || p.Serving.State.Made()
	if p.Net.HasDrained && unit == amount.G && within(total, p.Net.Drained) {
		if within(total, net) {
			return say.Line{}, false
		}
		return say.New("label.net-drained-weight", quantity(exactBest(total), unit), quantity(p.Net.Drained, unit), quantity(net, unit)), true
	}
	if within(total, net) {
		return say.Line{}, false
	}
	args := []any{amount.Exactly(p.ServingsMeta.Printed), quantity(each, unit), quantity(exactBest(total), unit), quantity(net, unit)}
	if solids && total.High.Less(net.Low) {
		return say.New("label.net-solids", args...), true
	}
	if p.Net.Count.Sign() > 0 && within(total, net.Scale(p.Net.Count)) {
		return say.New("label.net-each", append(args, p.Net.Count)...), true
	}
	return say.New("label.net-far", args...), true
}

func exactBest(a amount.Amount) amount.Amount { return amount.Exactly(a.Best) }

// within tells whether the two agree to [far] percent, the ends of the total
// counting.
func within(total, net amount.Amount) bool {
	low, high := amount.Frac(100-far, 100), amount.Frac(100+far, 100)
	return !total.High.Less(net.Low.Mul(low)) && !net.High.Mul(high).Less(total.Low)
}

// millilitres is the serving as a volume, for net contents in fluid ounces.
func (p Panel) millilitres() (amount.Amount, bool) {
	if p.Serving.HasMetric && p.Serving.Metric.Unit == amount.Ml {
		return p.Serving.Metric.Amount, true
	}
	v, ok := p.Serving.volume()
	if !ok {
		return amount.Amount{}, false
	}
	ml, ok := v.In(amount.Ml, amount.Label)
	return ml.Amount, ok
}

// cupsAgainstGrams compares the serving's cups with its grams for the food,
// as packed and drained.
func (p Panel) cupsAgainstGrams(c Context) (say.Line, bool) {
	if !p.HasServing {
		return say.Line{}, false
	}
	s := p.Serving
	per, other, id := c.AsPacked, c.Drained, "label.cup-drained"
	if s.State.Has(Drained) {
		per, other, id = c.Drained, c.AsPacked, "label.cup-packed"
	}
	if per.Low.Sign() <= 0 {
		return say.Line{}, false
	}
	_, _, flags, err := s.Cups(per)
	if err != nil || len(flags) == 0 {
		return say.Line{}, false
	}
	if flags[0].ID == "label.cup-weight" && other.Low.Sign() > 0 {
		if _, _, more, err := s.Cups(other); err == nil && len(more) == 0 {
			return say.New(id, flags[0].Args...), true
		}
	}
	return flags[0], true
}
