package portion

import (
	"slices"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// ounce is the weight of one avoirdupois ounce in grams.
var ounce = amount.Oz.Size(amount.Customary)

// Credit reads the portion and tells what it counts as under an edition of the
// guidelines. hands are the person's own measured hands and may be nil. The
// error is a [*say.Problem] whose Field is the json name of the field that it
// is about; the result is then zero.
func (p Portion) Credit(e guide.EditionID, hands Hands) (Result, error) {
	w := &work{p: p, edition: e, hands: hands}
	if err := w.find(); err != nil {
		return Result{}, err
	}
	if err := w.measure(); err != nil {
		return Result{}, err
	}
	if err := w.bounds(); err != nil {
		return Result{}, err
	}
	if err := w.cook(); err != nil {
		return Result{}, err
	}
	credits, err := w.credits()
	if err != nil {
		return Result{}, err
	}
	w.slips()
	w.fillCups()
	return Result{
		Food: w.food, Detail: w.detail, Credits: credits, Steps: w.steps, Notes: w.notes,
		Cups: w.cups, Grams: w.grams, HasCups: w.hasCups, HasGrams: w.hasGrams,
		Cautions: guide.CautionsFor(w.food, w.detail),
	}, nil
}

// slips says what people most often get wrong about such a food.
func (w *work) slips() {
	switch w.detail.Class {
	case "fruit-dried", "veg-dried":
		w.note("slip.dried")
	case "leafy-raw":
		w.note("slip.leafy")
	}
}

// find looks the food and its form up.
func (w *work) find() error {
	if w.p.Custom != nil {
		form, ok := food.FormByID(w.p.Form)
		if !ok {
			return say.Wrong("portion.form", w.p.Form, say.Term{Text: w.p.Custom.Name}).In("form")
		}
		f, err := w.p.Custom.Food(form)
		if err != nil {
			return inField(err, "custom")
		}
		w.food, w.detail = f, f.Forms[0]
		return nil
	}
	f, ok := food.ByID(w.p.Food)
	if !ok {
		return say.Wrong("portion.food", w.p.Food).In("food")
	}
	form, ok := food.FormByID(w.p.Form)
	if !ok {
		return say.Wrong("portion.form", w.p.Form, f.Term()).In("form")
	}
	d, ok := f.In(form)
	if !ok {
		return say.Wrong("portion.form", form.Term(), f.Term()).In("form")
	}
	w.food, w.detail = f, d
	return nil
}

// cook turns a form that isn't eaten as it is (raw meat, dry beans) into the
// cooked one, where its class counts it cooked.
func (w *work) cook() error {
	ones := guide.Ones(w.edition, w.detail.Class)
	if w.detail.Cooked.Sign() <= 0 || len(ones) == 0 || !ones[0].Cooked {
		return nil
	}
	if err := w.needGrams(); err != nil {
		return err
	}
	after := w.grams.Scale(w.detail.Cooked)
	w.step(rule.CookedYield, "step.cooked", grams(w.grams), w.detail.Form.Term(), grams(after))
	w.setGrams(after)
	w.hasCups, w.hasPieces, w.volume = false, false, false
	for _, form := range []food.Form{food.Cooked, food.Canned, food.Ready} {
		if done, ok := w.food.In(form); ok {
			w.detail = done
			break
		}
	}
	return nil
}

// credits finds what the quantity counts as in each group.
func (w *work) credits() ([]Credit, error) {
	if len(w.detail.Parts) > 0 {
		return w.countParts()
	}
	ones := guide.Ones(w.edition, w.detail.Class)
	var credits []Credit
	for _, one := range ones {
		if one.Subgroup != food.NoSubgroup && one.Subgroup != w.food.Subgroup {
			continue
		}
		a, err := w.equivalents(one)
		if err != nil {
			return nil, err
		}
		credits = append(credits, w.credit(one.Group, a, one.Unit))
	}
	if len(credits) == 2 && w.food.Subgroup == food.Legume {
		return w.either(credits[0], credits[1]), nil
	}
	if len(credits) == 0 {
		w.countsNowhere(len(ones) > 0)
	}
	return credits, nil
}

// credit makes a credit in a group; the food's subgroup goes with it where it
// is one of that group.
func (w *work) credit(g food.Group, a amount.Amount, u guide.Unit) Credit {
	c := Credit{Group: g, Amount: a, Unit: u}
	if w.food.Subgroup.Group() == g {
		c.Subgroup = w.food.Subgroup
	}
	c.Juice = w.detail.Form == food.Juice
	return c
}

// either joins the two sides on which beans may count, and obeys the side that
// the person chose.
func (w *work) either(vegetable, protein Credit) []Credit {
	if vegetable.Group == food.Protein {
		vegetable, protein = protein, vegetable
	}
	switch w.p.Side {
	case SideVegetable:
		return []Credit{vegetable}
	case SideProtein:
		return []Credit{protein}
	}
	w.step(rule.BeansOnce, "step.beans-once", guide.Counted{Amount: vegetable.Amount, Unit: vegetable.Unit}, guide.Counted{Amount: protein.Amount, Unit: protein.Unit})
	vegetable.Alt = &protein
	return []Credit{vegetable}
}

// countsNowhere says why a food has no credit.
func (w *work) countsNowhere(inEdition bool) {
	switch {
	case inEdition:
		w.step(rule.NotInEdition, "step.not-in-edition", w.food.Term(), w.food.Subgroup.Term())
	case slices.Contains(w.food.Cautions, "allergen-milk"):
		w.step(rule.DairyGroup, "step.not-dairy-group", w.food.Term())
	case w.food.Calcium:
		w.step(rule.PlantDrinks, "step.not-dairy", w.food.Term())
		w.note("slip.plant-drink", w.food.Term())
	default:
		w.step(rule.NoGroup, "step.no-group", w.food.Term())
	}
}

// equivalents finds how much the quantity is by one line of the edition.
func (w *work) equivalents(one guide.One) (amount.Amount, error) {
	if a, ok := w.published(one); ok {
		return a, nil
	}
	switch one.Per {
	case guide.PerCup:
		if !w.hasCups && w.detail.GramCup.Low.Sign() <= 0 && w.detail.Eq100g.Sign() > 0 {
			return w.per100g(one, w.detail.Eq100g)
		}
		if w.p.Measure.By == ByWeight && !w.hasCups && w.detail.Eq100g.Sign() > 0 {
			return w.twoWeights(one)
		}
		if err := w.needCups(); err != nil {
			return amount.Amount{}, err
		}
		a := w.cups.Scale(one.Factor)
		w.showCount(one, cups(w.cups), a)
		return a, nil
	case guide.PerOunce:
		if err := w.needGrams(); err != nil {
			return amount.Amount{}, err
		}
		oz := amount.Quantity{Amount: w.grams.Scale(ounce.Inv()), Unit: amount.Oz}
		a := oz.Amount.Scale(one.Factor)
		w.showCount(one, oz, a)
		return a, nil
	case guide.PerPiece:
		n, err := w.needPieces()
		if err != nil {
			return amount.Amount{}, err
		}
		a := n.Scale(one.Factor)
		w.step(one.Rule, "step.count-pieces", n, guide.Counted{Amount: amount.Exactly(one.Factor), Unit: one.Unit}, guide.Counted{Amount: a, Unit: one.Unit}, one.Group.Within())
		return a, nil
	}
	return w.per100g(one, w.detail.Eq100g)
}

// showCount shows the last step: so many cups or ounces count as so much.
func (w *work) showCount(one guide.One, have amount.Quantity, a amount.Amount) {
	each := amount.Quantity{Amount: amount.Exactly(amount.Int(1)), Unit: have.Unit}
	same := one.Factor.Equal(amount.Int(1)) && (one.Per == guide.PerCup && one.Unit == guide.CupEq || one.Per == guide.PerOunce && one.Unit == guide.OzEq)
	if same || have.Amount.Equal(each.Amount) {
		w.step(one.Rule, "step.count-one", have, guide.Counted{Amount: a, Unit: one.Unit}, one.Group.Within())
		return
	}
	w.step(one.Rule, "step.count", have, each,
		guide.Counted{Amount: amount.Exactly(one.Factor), Unit: one.Unit}, guide.Counted{Amount: a, Unit: one.Unit}, one.Group.Within())
}

// per100g counts by the equivalents database's weight factor.
func (w *work) per100g(one guide.One, eq amount.Num) (amount.Amount, error) {
	if err := w.needGrams(); err != nil {
		return amount.Amount{}, err
	}
	factor := eq.Mul(w.ratio(one))
	a := w.grams.Scale(factor.Quo(amount.Int(100)))
	w.step(one.Rule, "step.count-weight", grams(w.grams), guide.Counted{Amount: amount.Exactly(factor), Unit: one.Unit}, guide.Counted{Amount: a, Unit: one.Unit}, one.Group.Within())
	return a, nil
}

// twoWeights counts a weight where two published tables weigh a cup of the
// food differently: the equivalents database is taken, since it is made for
// weights, and the household weight is the other end of the range.
func (w *work) twoWeights(one guide.One) (amount.Amount, error) {
	a, err := w.per100g(one, w.detail.Eq100g)
	if err != nil {
		return a, err
	}
	other := w.grams.Quo(w.detail.GramCup).Scale(one.Factor)
	both := amount.Between(a.Low.Min(other.Low), a.Best, a.High.Max(other.High))
	w.step(rule.WeightPerCup, "step.two-weights", grams(w.detail.GramCup), guide.Counted{Amount: other, Unit: one.Unit}, guide.Counted{Amount: both, Unit: one.Unit})
	return both, nil
}

// published uses what a table says of these very pieces, or of a cup of this
// very food, before any weight is used. Such tables are in the equivalents of
// the 2020-2025 guidelines; another edition takes them by the ratio of its
// line to that edition's, and where the two don't go by the same measure, not
// at all.
func (w *work) published(one guide.One) (amount.Amount, bool) {
	k, ok := w.scale(one)
	if !ok {
		return amount.Amount{}, false
	}
	to := func(a amount.Amount) guide.Counted { return guide.Counted{Amount: a, Unit: one.Unit} }
	switch {
	case w.hasPieces && w.piece.Eq.High.Sign() > 0:
		each := w.piece.Eq.Scale(k)
		a := w.pieces.Mul(each).Scale(w.piece.Count.Inv())
		table := amount.Exactly(w.piece.Count)
		if w.pieces.Equal(table) {
			w.step(rule.PieceCounts, "step.count-one", w.some(table), to(a), one.Group.Within())
		} else {
			w.step(rule.PieceCounts, "step.piece-counts", w.some(table), to(each), w.some(w.pieces), to(a), one.Group.Within())
		}
		return a, true
	case w.volume && w.detail.EqCup.Sign() > 0:
		each := w.detail.EqCup.Mul(k)
		a := w.cups.Scale(each)
		w.showCount(guide.One{Rule: rule.CupOfThis, Factor: each, Unit: one.Unit, Group: one.Group}, cups(w.cups), a)
		return a, true
	}
	return amount.Amount{}, false
}

// countsByCup tells whether the edition counts the food by the cup.
func (w *work) countsByCup() bool {
	for _, one := range guide.Ones(w.edition, w.detail.Class) {
		if one.Per == guide.PerCup {
			return true
		}
	}
	return w.detail.EqCup.Sign() > 0
}

// base is the 2020-2025 line for the same class that the food's own published
// figures are in: its own group's.
func (w *work) base() (guide.One, bool) {
	ones := guide.Ones(guide.DGA2020, w.detail.Class)
	for _, o := range ones {
		if o.Group == w.food.Group {
			return o, true
		}
	}
	if len(ones) == 0 {
		return guide.One{}, false
	}
	return ones[0], true
}

// scale is what a 2020-2025 equivalent of this food is worth by another line.
func (w *work) scale(one guide.One) (amount.Num, bool) {
	b, ok := w.base()
	if !ok || b.Factor.Sign() == 0 || b.Per != one.Per {
		return amount.Num{}, false
	}
	return one.Factor.Quo(b.Factor), true
}

// ratio is scale for weight factors, where a line without a base is worth its
// own factor.
func (w *work) ratio(one guide.One) amount.Num {
	if one.Per == guide.Per100g {
		return one.Factor
	}
	if k, ok := w.scale(one); ok {
		return k
	}
	return amount.Int(1)
}

// needGrams finds the weight where the measure was cups.
func (w *work) needGrams() error {
	switch {
	case w.hasGrams:
		return nil
	case w.hasCups && w.detail.GramCup.High.Sign() > 0:
		w.setGrams(w.cups.Mul(w.detail.GramCup))
		w.step(rule.WeightPerCup, "step.cups-to-grams", cups(w.cups), grams(w.detail.GramCup), grams(w.grams))
		return nil
	}
	return say.Wrong("portion.no-cup-weight", w.food.Term()).In("by")
}

// needCups finds the cups where the measure was a weight.
func (w *work) needCups() error {
	switch {
	case w.hasCups:
		return nil
	case w.hasGrams && w.detail.GramCup.Low.Sign() > 0:
		w.setCups(w.grams.Quo(w.detail.GramCup))
		w.step(rule.WeightPerCup, "step.grams-to-cups", grams(w.grams), grams(w.detail.GramCup), cups(w.cups))
		return nil
	}
	return say.Wrong("portion.no-cup-weight", w.food.Term()).In("by")
}

// fillCups gives the result its cups for the picture where the weight tells
// them, without a step: nothing is counted by them.
func (w *work) fillCups() {
	if !w.hasCups && w.hasGrams && w.detail.GramCup.Low.Sign() > 0 {
		w.setCups(w.grams.Quo(w.detail.GramCup))
	}
}

// needPieces finds how many pieces it is, by weight where it was weighed.
func (w *work) needPieces() (amount.Amount, error) {
	if w.hasPieces {
		return w.pieces, nil
	}
	if err := w.needGrams(); err != nil {
		return amount.Amount{}, err
	}
	for _, id := range []string{"large", "piece", "medium"} {
		if p, ok := w.detail.Piece(id); ok && p.Grams.Sign() > 0 {
			n := w.grams.Scale(p.Grams.Inv())
			w.step(rule.PieceWeight, "step.grams-to-pieces", grams(w.grams), grams(amount.Exactly(p.Grams)), n)
			return n, nil
		}
	}
	return amount.Amount{}, say.Wrong("portion.no-piece-weight", w.food.Term()).In("by")
}
