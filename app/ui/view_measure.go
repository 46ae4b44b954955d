package ui

import (
	"slices"
	"strconv"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/label"
	"cupsum/core/portion"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// measuring asks for form and measure of the chosen food, and answers.
func (v *view) measuring() app.UI {
	c := v.Convert
	key := c.Food.ID + "/" + c.Food.Name + "/" + c.Portion.Form + "/" + string(c.Portion.Measure.By) + "/" + strconv.FormatBool(v.has(c.Food)) + c.Editing
	return el("div.card",
		v.keyed("asking", key, (*view).asking),
		el("div.measure", v.measure()),
		v.answer(),
	)
}

// asking is the chosen food, and the choice of its form and measure.
func (v *view) asking() app.UI {
	c := v.Convert
	p := c.Portion
	forms := make([]option, 0, len(c.Food.Forms))
	for _, d := range c.Food.Forms {
		forms = append(forms, option{d.Form.ID(), v.w.Term(d.Form.Term())})
	}
	cancel := "convert.cancel"
	if c.Editing != "" {
		cancel = "convert.leave"
	}
	ways := make([]option, 0, len(c.Ways))
	for _, w := range c.Ways {
		ways = append(ways, option{string(w), v.t("way." + string(w))})
	}
	return el("div",
		el("div.chosen",
			el("h2", at{"id", "chosen", "tabindex", "-1"}, v.w.Term(c.Food.Term())),
			el("p.quiet", v.groupLine(c.Food)),
			el("div.row", v.keepButton(c.Food), v.button("cancel", "", cancel)),
		),
		el("div", at{"hidden", len(forms) < 2}, v.chips("form", v.t("convert.form"), p.Form, forms)),
		el("p.quiet", at{"hidden", len(forms) != 1}, v.t("convert.form-only", c.Detail.Form.Term())),
		v.chips("by", v.t("convert.by"), string(p.Measure.By), ways),
	)
}

func (v *view) groupLine(f food.Food) string {
	if f.Subgroup != food.NoSubgroup {
		return v.t("food.group-part", f.Group.Term(), f.Subgroup.Term())
	}
	return v.w.Term(f.Group.Term())
}

// has tells whether the person has the food at home.
func (v *view) has(f food.Food) bool { return slices.Contains(v.Day.Sheet.OnHand, f.ID) }

// keepButton marks a food as one that the person has at home.
func (v *view) keepButton(f food.Food) app.UI {
	if _, listed := food.ByID(f.ID); !listed {
		return nil
	}
	return el("button.plain", at{"type", "button", "aria-pressed", strconv.FormatBool(v.has(f))}, press("have", f.ID), v.t("kitchen.have"))
}

// measure is the fields of the way that was picked: those of a label, or an
// amount of something.
func (v *view) measure() []app.UI {
	label := v.Convert.Portion.Measure.By == portion.ByLabel
	return []app.UI{
		v.stays("div", "label", label, v.turn(), (*view).byLabel),
		v.stays("div", "amount", !label, v.turn(), (*view).byAmount),
	}
}

// asksBought tells whether weighing with peel or bone makes a difference.
func (v *view) asksBought() bool {
	share := v.Convert.Detail.Edible
	return share.Sign() > 0 && v.Convert.Detail.Form == food.Fresh || v.Convert.Portion.Measure.Bought
}

// problemBy shows a problem with the way itself.
func (v *view) problemBy() app.UI {
	for _, field := range []string{"by", "form", "food", "custom", "bought", "unit", "liquid", ""} {
		if text, _ := v.problemAt(v.Convert.Err, field, "x"); text != "" {
			return el("p.problem", text)
		}
	}
	return nil
}

// byAmount asks how many there are of which hand, piece or unit. The ways share
// the fields, so that another way changes a few texts.
func (v *view) byAmount() app.UI {
	m := v.Convert.Portion.Measure
	units := portion.Units(m.By)
	label, hint := "measure.amount", "measure.amount-hint"
	switch m.By {
	case portion.ByWeight:
		label, hint = "measure.weight", "measure.weight-hint"
	case portion.ByHand:
		label, hint = "measure.how-many", "measure.hand-hint"
	case portion.ByPiece:
		label, hint = "measure.how-many", "measure.piece-hint"
	}
	problem, asked := v.problemAt(v.Convert.Err, "amount", m.Amount)
	return el("div",
		v.stays("div", "kinds", len(units) == 0, v.turn(), (*view).kinds),
		el("div.fields",
			v.entry(entry{field: "amount", label: v.t(label), value: m.Amount, hint: v.t(hint), problem: problem, asked: asked}),
			v.stays("div", "unit", len(units) > 0, v.turn(), func(v *view) app.UI {
				m := v.Convert.Portion.Measure
				return v.choice("unit", v.t("measure.unit"), m.Unit, each(portion.Units(m.By), func(_ int, u amount.Unit) option {
					return option{u.ID(), v.t("unit-name." + u.ID())}
				}))
			})),
		el("div", when(m.By == portion.ByWeight && v.asksBought(), v.bought)),
		v.stays("div", "hands", m.By == portion.ByHand, v.turn(), (*view).ownHand),
		v.problemBy(),
	)
}

// kinds are the hands or pieces of the food.
func (v *view) kinds() app.UI {
	c := v.Convert
	m := c.Portion.Measure
	if m.By == portion.ByPiece {
		return v.chips("piece", v.t("measure.piece"), m.Piece, each(c.Detail.Pieces, func(_ int, p food.Piece) option {
			text := v.w.Term(say.Term{Kind: "piece", ID: p.ID, Text: p.ID})
			if p.Size != "" {
				text = v.t("measure.piece-size", text, p.Size)
			}
			return option{p.ID, text}
		}))
	}
	return v.chips("hand", v.t("measure.hand"), m.Hand, each(portion.HandsFor(c.Food, c.Detail), func(_ int, h string) option {
		return option{h, v.w.Term(say.Term{Kind: "hand", ID: h})}
	}))
}

// bought asks whether what was weighed had its peel or bone.
func (v *view) bought() app.UI {
	bought := "no"
	if v.Convert.Portion.Measure.Bought {
		bought = "yes"
	}
	return v.chips("bought", v.t("measure.bought"), bought, []option{{"no", v.t("measure.bought-no")}, {"yes", v.t("measure.bought-yes")}})
}

// ownHand says how rough hands are, and takes what the person's own holds.
func (v *view) ownHand() app.UI {
	m := v.Convert.Portion.Measure
	common, _ := guide.HandByID(m.Hand)
	own := v.Day.Sheet.Hands[m.Hand]
	problem := ""
	if own != "" {
		if _, err := guide.OwnHand(m.Hand, own); err != nil {
			problem = v.w.Problem(err)
		}
	}
	return el("div",
		each(guide.Cautions(guide.InHand), func(_ int, c guide.Caution) app.UI { return el("p.quiet", v.w.Line(c.Line())) }),
		details("more", v.t("hands.own"),
			el("p", v.t("hands.own-how", common.Term(), common.Holds)),
			v.entry(entry{field: "own-hand", label: v.t("hands.own-holds", common.Term()), value: own, hint: v.t("hands.own-hint"), problem: problem}),
		),
	)
}

// byLabel asks for what a Nutrition Facts label says, in its order.
func (v *view) byLabel() app.UI {
	c := v.Convert
	m := c.Portion.Measure
	text := func(field, value, label, hint, mode string) app.UI {
		problem, asked := v.problemAt(c.Err, field, value)
		return v.entry(entry{field: field, label: v.t(label), value: value, hint: v.t(hint), mode: mode, problem: problem, asked: asked})
	}
	eaten, eatenHint := "label.share", "label.share-hint"
	if m.EatenBy == "servings" {
		eaten, eatenHint = "label.eaten-servings", "label.eaten-servings-hint"
	}
	return el("div",
		el("div.fields",
			el("div", at{"hidden", m.EatenBy == "servings"}, text("servings", m.Servings, "label.servings", "label.servings-hint", "")),
			text("size", m.Size, "label.size", "label.size-hint", ""),
		),
		v.chips("eatenBy", v.t("label.eaten"), m.EatenBy, []option{{"", v.t("label.eaten-all")}, {"package", v.t("label.eaten-part")}, {"servings", v.t("label.eaten-some")}}),
		el("div.fields", at{"hidden", m.EatenBy == ""}, text("eaten", m.Eaten, eaten, eatenHint, "")),
		el("div", at{"hidden", !c.Detail.Form.Packed()},
			v.chips("liquid", v.t("label.liquid"), string(c.Portion.Liquid), []option{
				{string(portion.LiquidUnsaid), v.t("label.liquid-unsaid")}, {string(portion.Drained), v.t("label.liquid-drained")}, {string(portion.WithLiquid), v.t("label.liquid-with")}})),
		v.problemBy(),
		details("more", v.t("label.more"),
			el("div.fields", text("net", m.Net, "label.net", "label.net-hint", ""),
				v.nutrientField("sodium", label.Sodium, c.Sodium, v.t("label.sodium"), v.t("label.sodium-hint")),
				v.nutrientField("sugars", label.AddedSugars, c.Sugars, v.t("label.sugars"), v.t("label.sugars-hint"))),
			v.pasteBox(),
		),
	)
}
