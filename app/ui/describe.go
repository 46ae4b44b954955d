package ui

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/portion"
	"cupsum/core/say"
)

// measured tells a portion in words, as it was measured: "1/2 cup of peas,
// frozen", "2 fists of rice, cooked".
func (v view) measured(p portion.Portion, f food.Food) string {
	form, _ := food.FormByID(p.Form)
	return v.t("portion.of", v.howMuch(p), v.foodLine(f, form))
}

// howMuch is the measure alone: "½ cup", "2 × fist", "the whole package".
func (v view) howMuch(p portion.Portion) string {
	m := p.Measure
	r, err := amount.Read(m.Amount)
	switch m.By {
	case portion.ByHand:
		return v.t("portion.times", v.number(r, err, m.Amount), say.Term{Kind: "hand", ID: m.Hand})
	case portion.ByPiece:
		return v.t("portion.times", v.number(r, err, m.Amount), say.Term{Kind: "piece", ID: m.Piece, Text: m.Piece})
	case portion.ByLabel:
		return v.fromLabel(m)
	}
	if err != nil {
		return m.Amount
	}
	if r.Unit == amount.NoUnit {
		if u, ok := amount.UnitByID(m.Unit); ok {
			r.Unit = u
		}
	}
	text := v.w.Quantity(r.Quantity)
	if m.Bought {
		return v.t("portion.bought", text)
	}
	return text
}

func (v view) number(r amount.Reading, err error, typed string) string {
	switch {
	case typed == "":
		return "1"
	case err != nil:
		return typed
	}
	return v.w.Amount(r.Amount)
}

func (v view) fromLabel(m portion.Measure) string {
	r, err := amount.Read(m.Eaten)
	switch {
	case m.EatenBy == "servings":
		return v.t("portion.servings", v.number(r, err, m.Eaten), m.Size)
	case m.Eaten == "":
		return v.t("portion.package")
	}
	return v.t("portion.share", v.number(r, err, m.Eaten))
}
