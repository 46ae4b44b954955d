package portion

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
)

// Ways lists how a form of a food can be measured, the one to offer first in
// front: a can has its label, dried food a cup, fresh food a piece or a hand,
// meat a palm or a scale.
func Ways(f food.Food, d food.Detail) []Way {
	has := map[Way]bool{
		ByLabel:  d.Form != food.Fresh && d.Form != food.Cooked,
		ByCup:    d.GramCup.High.Sign() > 0 || d.EqCup.Sign() > 0 || byVolume(d.Class),
		ByHand:   true,
		ByPiece:  len(d.Pieces) > 0,
		ByWeight: true,
	}
	var ways []Way
	for _, w := range orderFor(f, d) {
		if has[w] {
			ways = append(ways, w)
		}
	}
	return ways
}

// byVolume tells whether a class is counted by the cup, so that no weight is
// needed.
func byVolume(c food.Class) bool {
	for _, one := range guide.Ones(guide.DGA2020, c) {
		if one.Per == guide.PerCup {
			return true
		}
	}
	return false
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

// HandsFor lists the hand measures that fit a food, the usual one first.
func HandsFor(f food.Food, d food.Detail) []string {
	switch {
	case f.Group == food.Protein && f.Subgroup == food.Plant:
		return []string{"handful", "cupped", "thumb"}
	case f.Group == food.Protein && f.Subgroup != food.Legume:
		return []string{"palm"}
	case f.Group == food.Oil, f.Group == food.Extra:
		return []string{"thumb-tip", "thumb"}
	case d.Class == "cheese-natural", d.Class == "cheese-processed":
		return []string{"thumb"}
	case d.Class == "leafy-raw":
		return []string{"fist", "two-cupped", "cupped"}
	case d.Form == food.Dried:
		return []string{"cupped", "handful"}
	}
	return []string{"fist", "cupped"}
}
