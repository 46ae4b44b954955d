package portion

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
)

// Ways lists how a form of a food can be measured, the one to offer first in
// front: a can has its label, dried food a cup, fresh food a piece or a hand,
// meat a palm or a scale. A way is there when one of it can be counted under
// every edition; nothing is offered that would end in a problem.
func Ways(f food.Food, d food.Detail) []Way {
	var ways []Way
	for _, by := range orderFor(f, d) {
		m := Measure{By: by, Amount: "1"}
		switch by {
		case ByLabel:
			if d.Form != food.Fresh && d.Form != food.Cooked {
				ways = append(ways, by)
			}
			continue
		case ByPiece:
			if len(d.Pieces) == 0 {
				continue
			}
			m.Piece = d.Pieces[0].ID
		case ByHand:
			if len(HandsFor(f, d)) > 0 {
				ways = append(ways, by)
			}
			continue
		}
		if counts(f, d, m) {
			ways = append(ways, by)
		}
	}
	return ways
}

// counts tells whether a measure of the food can be counted under every
// edition.
func counts(f food.Food, d food.Detail, m Measure) bool {
	for _, e := range guide.Editions() {
		w := &work{p: Portion{Measure: m}, edition: e, food: f, detail: d}
		if w.measure() != nil || w.cook() != nil {
			return false
		}
		if _, err := w.credits(); err != nil {
			return false
		}
	}
	return true
}

func orderFor(f food.Food, d food.Detail) []Way {
	switch {
	case d.Form.Packed():
		return []Way{ByLabel, ByCup, ByPiece, ByWeight, ByHand}
	case d.Form == food.Dried, d.Form == food.Dry, d.Form == food.Juice:
		return []Way{ByCup, ByLabel, ByWeight, ByHand, ByPiece}
	case f.Group == food.Protein && f.Subgroup != food.Plant && d.Class != "egg":
		return []Way{ByHand, ByWeight, ByPiece, ByCup, ByLabel}
	case d.Form == food.Frozen:
		return []Way{ByCup, ByLabel, ByHand, ByWeight, ByPiece}
	case d.Class == "egg":
		return []Way{ByPiece, ByWeight, ByCup, ByHand, ByLabel}
	case d.Class == "leafy-raw":
		return []Way{ByCup, ByHand, ByPiece, ByWeight, ByLabel}
	case d.Form == food.Cooked:
		return []Way{ByCup, ByHand, ByPiece, ByWeight, ByLabel}
	}
	return []Way{ByPiece, ByCup, ByHand, ByWeight, ByLabel}
}

// Units lists the units to offer beside the amount field of a way, first the
// one that is meant when none is picked.
func Units(w Way) []amount.Unit {
	switch w {
	case ByCup:
		return []amount.Unit{amount.Cup, amount.Tbsp, amount.Tsp, amount.FlOz, amount.Ml, amount.Pint, amount.Quart}
	case ByWeight:
		return []amount.Unit{amount.Oz, amount.G, amount.Lb, amount.Kg}
	}
	return nil
}

// HandsFor lists the hand measures that fit a food and can be counted, the
// usual one first.
func HandsFor(f food.Food, d food.Detail) []string {
	var fit []string
	for _, id := range handsOf(f, d) {
		if _, ok := guide.HandByID(id); ok && counts(f, d, Measure{By: ByHand, Amount: "1", Hand: id}) {
			fit = append(fit, id)
		}
	}
	return fit
}

func handsOf(f food.Food, d food.Detail) []string {
	switch {
	case f.Group == food.Protein && f.Subgroup == food.Plant:
		return []string{"handful", "cupped", "thumb"}
	case f.Group == food.Protein && f.Subgroup != food.Legume:
		return []string{"palm", "fist"}
	case f.Group == food.Oil, f.Group == food.Extra:
		return []string{"thumb-tip", "thumb"}
	case d.Class == "cheese-natural", d.Class == "cheese-processed":
		return []string{"thumb-cheese", "fist"}
	case d.Class == "leafy-raw":
		return []string{"fist", "two-cupped", "cupped"}
	case d.Form == food.Dried:
		return []string{"cupped", "handful"}
	}
	return []string{"fist", "cupped"}
}
