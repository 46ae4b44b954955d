package ui

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/rule"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// oneTables are the tables of what counts as one: rows of the crediting table,
// by the rule that says them, so that no figure is written down twice.
var oneTables = []struct {
	title string
	group food.Group
	unit  guide.Unit
	rules []rule.ID
}{
	{"tables.fruit", food.Fruit, guide.CupEq, []rule.ID{rule.OneFruit, rule.OneDried, rule.OneJuice}},
	{"tables.vegetable", food.Vegetable, guide.CupEq, []rule.ID{rule.OneVegetable, rule.OneLeafy, rule.OneBeansVegetable}},
	{"tables.grain", food.Grain, guide.OzEq, []rule.ID{rule.OneBread, rule.OneGrainCooked, rule.OneGrainDry, rule.OneCereal, rule.OnePopcorn}},
	{"tables.protein", food.Protein, guide.OzEq, []rule.ID{rule.OneMeat, rule.OneEgg, rule.OneBeansProtein, rule.OneNutButter, rule.OneNuts, rule.OneTofu}},
	{"tables.dairy", food.Dairy, guide.CupEq, []rule.ID{rule.OneMilk, rule.OneCheese, rule.OneCheeseProcessed}},
}

// tablesView is what counts as a cup and as an ounce, to read and to print.
func (v *view) tablesView() app.UI {
	return el("div",
		el("h1", at{"id", "tables-title", "tabindex", "-1"}, v.t("tables.title")),
		el("p", v.t("tables.how", guide.DGA2020.Term())),
		el("div.ones", each(oneTables, func(i int, t struct {
			title string
			group food.Group
			unit  guide.Unit
			rules []rule.ID
		}) app.UI {
			return el("table",
				el("caption", v.t(t.title)),
				el("tbody", each(t.rules, func(_ int, id rule.ID) app.UI { return v.oneRow(t.group, id) })))
		})),
	)
}

// oneRow is how much of a kind of food makes one, from the crediting table.
func (v *view) oneRow(g food.Group, id rule.ID) app.UI {
	r, _ := rule.ByID(id)
	for _, one := range guide.Crediting(guide.DGA2020) {
		if one.Rule != id || one.Group != g || one.Factor.Sign() <= 0 {
			continue
		}
		return el("tr",
			el("td.picture", v.onePicture(one)),
			el("th", at{"scope", "row"}, v.oneAmount(one)),
			el("td", v.t("one."+string(id))),
		)
	}
	return el("tr", el("td"), el("th", at{"scope", "row"}, r.Title), el("td", r.Text))
}

// oneAmount is the amount that makes one equivalent: "½ cup" where half a cup
// counts as one.
func (v *view) oneAmount(one guide.One) string {
	n := one.Factor.Inv()
	switch one.Per {
	case guide.PerCup:
		q := amount.Quantity{Amount: amount.Exactly(n), Unit: amount.Cup}
		if n.Less(amount.Frac(1, 8)) {
			q, _ = q.In(amount.Tbsp, amount.Customary)
		}
		return v.w.Quantity(q)
	case guide.PerOunce:
		return v.w.Quantity(amount.Quantity{Amount: amount.Exactly(n), Unit: amount.Oz})
	}
	return v.w.Num(n)
}

// onePicture draws the amount: cups as cups, ounces as weights.
func (v *view) onePicture(one guide.One) app.UI {
	n := amount.Exactly(one.Factor.Inv())
	switch {
	case one.Per == guide.PerCup && !n.Best.Less(amount.Frac(1, 8)):
		return measures(n, guide.CupEq)
	case one.Per == guide.PerOunce:
		return measures(n, guide.OzEq)
	}
	return nil
}

// exampleCan is the trade's commonest slip: five servings of half a cup.
var exampleCan = portion.Portion{
	Food: "peach", Form: "canned-juice",
	Measure: portion.Measure{By: portion.ByLabel, Servings: "5", Size: "1/2 cup (124 g)"},
}

// example is a worked example: what the page says of one can.
func (v *view) example() app.UI {
	r, err := exampleCan.Credit(guide.DGA2020, nil)
	if err != nil {
		return el("p.problem", v.w.Problem(err)) // a test sees to it that this can't be
	}
	credits := v.credits(r)
	return el("div.example", at{"id", "example"},
		el("h2", v.t("example.title")),
		el("div.can",
			el("p.can-name", v.w.Food(exampleCan)),
			el("p.can-line", v.t("example.servings", exampleCan.Measure.Servings)),
			el("p.can-line", v.t("example.size", exampleCan.Measure.Size)),
		),
		el("p.ask", v.t("example.ask")),
		el("div.answer",
			el("div.big", v.drawCredits(credits, len(credits))),
			el("p.note", v.t("example.slip", exampleCan.Measure.Servings)),
			el("div", v.working("example", r.Steps)),
		),
	)
}
