package portion

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
)

// countParts counts a mixed dish: each of its parts by its share of the
// weight. Beans in it may count on either side, as anywhere.
func (w *work) countParts() ([]Credit, error) {
	if err := w.needGrams(); err != nil {
		return nil, err
	}
	var credits []Credit
	for _, part := range w.detail.Parts {
		a := w.grams.Scale(part.Eq100g.Quo(amount.Int(100)))
		c, ok := w.partCredit(part, a)
		if !ok {
			continue
		}
		w.step(rule.DishParts, "step.part", grams(w.grams), part.Group.Within(), guide.Counted{Amount: c.Amount, Unit: c.Unit})
		credits = append(credits, c)
	}
	if len(credits) == 0 {
		w.countsNowhere(len(w.detail.Parts) > 0)
	}
	return credits, nil
}

// partCredit puts a part's 2020-2025 equivalents into the edition's.
func (w *work) partCredit(part food.Part, a amount.Amount) (Credit, bool) {
	base := partOne(guide.DGA2020, part.Class, part.Group, part.Subgroup)
	one := partOne(w.edition, part.Class, part.Group, part.Subgroup)
	if one == nil || base == nil {
		return Credit{}, false
	}
	k := amount.Int(1)
	if one.Per == base.Per && base.Factor.Sign() > 0 {
		k = one.Factor.Quo(base.Factor)
	}
	c := Credit{Group: one.Group, Amount: a.Scale(k), Unit: one.Unit, Juice: part.Class == "fruit-juice" || part.Class == "veg-juice"}
	if part.Subgroup.Group() == one.Group {
		c.Subgroup = part.Subgroup
	}
	if part.Subgroup != food.Legume {
		return c, true
	}
	alt := partOne(w.edition, part.Class, food.Protein, food.NoSubgroup)
	if alt == nil || one.Factor.Sign() == 0 {
		return c, true
	}
	protein := Credit{Group: food.Protein, Amount: c.Amount.Scale(alt.Factor.Quo(one.Factor)), Unit: alt.Unit}
	switch w.p.Side {
	case SideProtein:
		return protein, true
	case SideAuto:
		c.Alt = &protein
	}
	return c, true
}

// partOne finds the edition's line for a part, by its class and group; nil when
// it counts nowhere there.
func partOne(e guide.EditionID, class food.Class, g food.Group, s food.Subgroup) *guide.One {
	ones := guide.Ones(e, class)
	for i := range ones {
		if ones[i].Group == g && (ones[i].Subgroup == food.NoSubgroup || ones[i].Subgroup == s) {
			return &ones[i]
		}
	}
	return nil
}
