package portion

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/label"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// maxServings bounds how many servings one portion may have.
var maxServings = amount.Int(500)

// fromLabel reads a portion measured by its label: so many servings of the
// printed size, as packed or drained.
func (w *work) fromLabel() error {
	m := w.p.Measure
	if m.Size == "" && m.Net == "" {
		return say.Wrong("portion.no-size").In("size")
	}
	var net label.Net
	if m.Net != "" {
		var err error
		if net, err = label.ReadNet(m.Net); err != nil {
			return inField(err, "net")
		}
		w.notes = append(w.notes, net.Flags...)
	}
	if m.Size == "" {
		return w.wholePackage(net)
	}
	serving, err := label.ReadServing(m.Size)
	if err != nil {
		return inField(err, "size")
	}
	w.notes = append(w.notes, serving.Flags...)
	perCup, asPacked := w.gramsPerLabelCup(serving)
	weight, weightSteps, weightErr := serving.Grams(perCup)
	n, err := w.servings(serving, weight, weightErr == nil, net)
	if err != nil {
		return err
	}
	return w.times(n, serving, net, perCup, asPacked, weight, weightSteps, weightErr == nil)
}

// gramsPerLabelCup is the food's weight per cup in the state that the label
// measures it in, and whether that is with its liquid.
func (w *work) gramsPerLabelCup(s label.Serving) (perCup amount.Amount, asPacked bool) {
	asPacked = w.detail.Form.Packed() && !s.State.Has(label.Drained)
	for _, second := range s.Seconds {
		asPacked = asPacked && !second.State.Has(label.Drained)
	}
	switch {
	case w.detail.GramAs.Sign() > 0 && (asPacked || !w.detail.Form.Packed()): // dry beans have a label cup of their own too
		return amount.Exactly(w.detail.GramAs), asPacked
	case asPacked:
		return amount.Amount{}, true
	}
	return w.detail.GramCup, false
}

// servings tells how many servings were eaten.
func (w *work) servings(s label.Serving, weight amount.Amount, hasWeight bool, net label.Net) (amount.Amount, error) {
	m := w.p.Measure
	if m.EatenBy == "servings" {
		return w.eaten(amount.Exactly(amount.Int(1)))
	}
	per, err := w.perPackage(s, weight, hasWeight, net)
	if err != nil {
		return per, err
	}
	return w.eaten(per)
}

// perPackage tells how many servings one package holds.
func (w *work) perPackage(s label.Serving, weight amount.Amount, hasWeight bool, net label.Net) (amount.Amount, error) {
	m := w.p.Measure
	switch {
	case m.Servings != "":
		per, meta, err := label.ReadServings(m.Servings)
		if err != nil {
			return per, inField(err, "servings")
		}
		w.notes = append(w.notes, meta.Flags...)
		if step, ok := meta.Step(); ok {
			w.steps = append(w.steps, step)
		}
		return per, nil
	case s.Servings.High.Sign() > 0:
		return s.Servings, nil
	case s.IsPackage() && s.Amount.Low.Sign() > 0:
		return amount.Exactly(amount.Int(1)).Quo(s.Amount), nil
	case net.HasWeight && hasWeight && weight.Low.Sign() > 0:
		per := net.Weight.Quo(weight)
		w.step(rule.LabelServings, "step.servings-from-net", grams(net.Weight), grams(weight), per)
		return per, nil
	}
	return amount.Amount{}, say.Wrong("portion.no-servings").In("servings")
}

// eaten multiplies what one package (or one serving) holds by how much of it
// was eaten; an empty field is all of it.
func (w *work) eaten(of amount.Amount) (amount.Amount, error) {
	m := w.p.Measure
	if m.Eaten == "" && m.EatenBy == "servings" {
		return of, say.Wrong("portion.no-eaten").In("eaten")
	}
	share, err := w.share()
	if err != nil {
		return of, err
	}
	total := of.Mul(share)
	if m.Eaten != "" && m.EatenBy != "servings" {
		w.step(rule.LabelServings, "step.share-of-package", share, of, total)
	}
	if maxServings.Less(total.High) {
		return of, say.Wrong("portion.too-many-servings", total, maxServings).In("servings")
	}
	return total, nil
}

// share reads how much was eaten: packages, or servings where that is said.
func (w *work) share() (amount.Amount, error) {
	text := w.p.Measure.Eaten
	if text == "" {
		return amount.Exactly(amount.Int(1)), nil
	}
	r, err := amount.ReadNumber(text)
	switch {
	case err != nil:
		return r.Amount, inField(err, "eaten")
	case r.Amount.High.Sign() <= 0:
		return r.Amount, say.Wrong("portion.zero", text).In("eaten")
	}
	return r.Amount, nil
}

// times multiplies the serving by n.
func (w *work) times(n amount.Amount, s label.Serving, net label.Net, perCup amount.Amount, asPacked bool,
	weight amount.Amount, weightSteps []rule.Step, hasWeight bool) error {
	if asPacked && w.pourOff() {
		if !hasWeight {
			return say.Wrong("portion.no-label-weight", w.food.Term()).In("size")
		}
		packed, err := w.packedWeight(n, weight, weightSteps, net)
		if err != nil {
			return err
		}
		w.checkNet(s, n, net)
		if err := w.drain(packed); err != nil {
			return err
		}
		if one, _, _, err := s.Cups(perCup); err == nil && w.detail.GramCup.Low.Sign() > 0 {
			return w.noMoreThan(one.Mul(n))
		}
		return nil
	}
	one, steps, flags, err := s.Cups(perCup)
	w.notes = append(w.notes, flags...)
	if err == nil && (s.Kind == label.ByVolume || !hasWeight || w.countsByCup()) {
		w.steps = append(w.steps, steps...)
		w.setCups(one.Mul(n))
		w.volume = s.Kind == label.ByVolume || s.Kind == label.MetricOnly && s.Metric.Unit == amount.Ml
		w.step(rule.LabelServings, "step.servings-cups", n, cups(one), cups(w.cups))
		if s.Kind == label.ByVolume && !isOne(one) && !isOne(n) {
			w.note("slip.servings", n, cups(one), cups(w.cups))
		}
	} else if !hasWeight {
		return inField(err, "size")
	}
	if hasWeight {
		if !w.hasCups {
			w.steps = append(w.steps, weightSteps...)
			w.step(rule.LabelServings, "step.servings-weight", n, grams(weight), grams(weight.Mul(n)))
		}
		w.setGrams(weight.Mul(n))
		w.checkNet(s, n, net)
		if asPacked {
			w.offerDrained(weight.Mul(n))
		}
	}
	if asPacked && !w.hasCups && w.detail.GramAs.Sign() <= 0 && w.countsByCup() {
		// Its weight holds the liquid, so a drained cup's weight must not divide it.
		return say.Wrong("portion.no-packed-weight", w.food.Term()).In("size")
	}
	return nil
}

// pourOff tells whether the liquid is to be taken off. Where nothing was said,
// the label's cups stand for fruit, vegetables and beans, as classes teach;
// the oil or water of canned fish and meat is never the food.
func (w *work) pourOff() bool {
	if w.p.Liquid == Drained {
		return true
	}
	return w.p.Liquid == LiquidUnsaid && w.food.Group == food.Protein && w.food.Subgroup != food.Legume && w.detail.Drained.High.Sign() > 0
}

// drain takes the liquid off a weight as packed, by published drained weights.
func (w *work) drain(packed amount.Amount) error {
	if w.detail.Drained.High.Sign() <= 0 {
		return say.Wrong("portion.no-drained", w.food.Term()).In("liquid")
	}
	left := packed.Mul(w.detail.Drained)
	w.step(rule.DrainedWeight, "step.drained", grams(packed), percentRange(w.detail.Drained), grams(left))
	w.setGrams(left)
	return nil
}

// packedWeight is the weight with liquid of what was eaten: the net weight
// where the label's own is typed, else servings times their weight, whose
// rounding adds up.
func (w *work) packedWeight(n, weight amount.Amount, weightSteps []rule.Step, net label.Net) (amount.Amount, error) {
	if net.HasWeight && w.p.Measure.EatenBy != "servings" {
		share, err := w.share()
		if err != nil {
			return share, err
		}
		if !isOne(share) {
			w.step(rule.LabelServings, "step.net", share, grams(net.Weight), grams(net.Weight.Mul(share)))
		}
		return net.Weight.Mul(share), nil
	}
	w.steps = append(w.steps, weightSteps...)
	w.step(rule.LabelServings, "step.servings-weight", n, grams(weight), grams(weight.Mul(n)))
	return weight.Mul(n), nil
}

// noMoreThan keeps drained cups below the cups with the liquid: what is poured
// off was there too.
func (w *work) noMoreThan(packed amount.Amount) error {
	if err := w.needCups(); err != nil {
		return err
	}
	if less := w.cups.NoMoreThan(packed); !less.Equal(w.cups) {
		w.setCups(less)
		w.step(rule.DrainedWeight, "step.drained-at-most", cups(packed), cups(w.cups))
	}
	return nil
}

// offerDrained says beside an answer with liquid what it would be drained.
func (w *work) offerDrained(packed amount.Amount) {
	if w.detail.Drained.High.Sign() <= 0 || w.detail.GramCup.Low.Sign() <= 0 || w.p.Liquid == WithLiquid {
		return
	}
	left := packed.Mul(w.detail.Drained).Quo(w.detail.GramCup)
	if w.hasCups {
		left = left.NoMoreThan(w.cups)
	}
	w.note("note.drained-instead", cups(left))
}

func isOne(a amount.Amount) bool { return a.Equal(amount.Exactly(amount.Int(1))) }

func percentRange(a amount.Amount) string {
	if a.IsExact() {
		return percent(a.Best)
	}
	return percent(a.Low) + "–" + percent(a.High)
}

// checkNet lets the label be compared with itself: servings times serving
// size against the net weight.
func (w *work) checkNet(s label.Serving, n amount.Amount, net label.Net) {
	if !net.HasWeight || w.p.Measure.Servings == "" || w.p.Measure.EatenBy == "servings" || w.p.Measure.Eaten != "" {
		return
	}
	whole := label.Panel{Servings: n, HasServings: true, Serving: s, HasServing: true, Net: net, HasNet: true}
	w.notes = append(w.notes, whole.Check(label.Context{})...)
}

// wholePackage reads a package by its net weight alone.
func (w *work) wholePackage(net label.Net) error {
	if !net.HasWeight && !net.HasVolume {
		return say.Wrong("portion.no-size").In("size")
	}
	share, err := w.share()
	if err != nil {
		return err
	}
	if !net.HasWeight {
		q := amount.Quantity{Amount: net.Volume.Mul(share), Unit: amount.Ml}
		c, _ := q.In(amount.Cup, amount.Label)
		w.step(rule.UnitLabel, "step.to-cups", q, c)
		w.setCups(c.Amount)
		return nil
	}
	packed := net.Weight.Mul(share)
	if !w.detail.Form.Packed() {
		w.setGrams(packed)
		return nil
	}
	if w.pourOff() {
		return w.drain(packed)
	}
	w.setGrams(packed)
	if !w.countsByCup() {
		return nil
	}
	if w.detail.GramAs.Sign() <= 0 {
		return say.Wrong("portion.no-packed-weight", w.food.Term()).In("net")
	}
	w.setCups(packed.Scale(w.detail.GramAs.Inv()))
	w.step(rule.WeightPerCup, "step.grams-to-cups", grams(packed), grams(amount.Exactly(w.detail.GramAs)), cups(w.cups))
	w.offerDrained(packed)
	return nil
}
