package ui

import (
	"strconv"

	"cupsum/core/food"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// convert is the section that turns one thing measured into what it counts as.
// Its parts stand in wrappers that are always there, so that none of them
// takes the focus along when it comes or goes.
func (v *view) convert() []app.UI {
	turn := v.turn()
	return []app.UI{
		el("h1", at{"id", "convert-title", "tabindex", "-1"}, v.t("convert.title")),
		v.finder(),
		v.stays("div.slot", "added", !v.Convert.Added.IsZero(), turn, (*view).added),
		v.keyed("draft", turn, func(v *view) app.UI { return el("div.slot", when(v.Convert.Drafting, v.draft)) }),
		v.stays("div.slot.measuring", "measuring", v.Convert.Chosen, turn, (*view).measuring),
		v.stays("div.slot", "example", !v.Convert.Chosen && !v.Convert.Drafting, "as ever", (*view).example),
		v.stays("div.slot.bar-slot", "bar", v.Convert.Chosen && v.Convert.Err == nil && !v.kept().chosen, turn, (*view).bar),
	}
}

// finder is the food field with its list.
func (v *view) finder() app.UI {
	c := v.Convert
	key := strconv.FormatBool(c.Open) + strconv.FormatBool(c.Chosen) + strconv.Itoa(c.Active) + strconv.Itoa(len(v.kept().hits)) + c.Query
	return v.keyed("finder", key, (*view).drawFinder)
}

func (v *view) drawFinder() app.UI {
	c := v.Convert
	attrs := at{
		"id", "food", "data-in", "food", "type", "text", "role", "combobox", "autocomplete", "off", "autocapitalize", "none", "spellcheck", "false",
		"aria-expanded", strconv.FormatBool(c.Open), "aria-controls", "foods", "aria-autocomplete", "list", "aria-describedby", "food-about",
		"enterkeyhint", "search", "value", c.Query,
	}
	if c.Open {
		attrs = append(attrs, "aria-activedescendant", optionID(c.Active))
	}
	label := "convert.food"
	if c.Chosen {
		label = "convert.food-other"
	}
	return el("div.finder",
		el("label", at{"for", "food"}, v.t(label)),
		el("div.finder-box",
			el("input", attrs),
			el("ul.foods", at{"id", "foods", "role", "listbox", "aria-label", v.t("convert.foods"), "hidden", !c.Open}, v.hits()),
		),
		el("p.hint", at{"id", "food-about"}, v.t("convert.food-hint")),
	)
}

func optionID(i int) string { return "food-" + strconv.Itoa(i) }

// hits are the lines of the list. Lines that are not needed just now are
// hidden, with what they showed last: to make them anew when the next letter is
// typed would take a slow phone too long.
func (v *view) hits() []app.UI {
	c := v.Convert
	n := 0
	if c.Open {
		n = len(c.Hits)
		v.live.hits = over(c.Hits, v.live.hits)
	}
	option := func(i int, press at, parts ...any) app.UI {
		class, marks := "li", at{"role", "option", "hidden", i < 0}
		if i >= 0 {
			marks = append(marks, "id", optionID(i), "aria-selected", strconv.FormatBool(i == c.Active))
		}
		if i == c.Active {
			class = "li.active"
		}
		return el(class, append([]any{marks, press}, parts...)...)
	}
	list := each(v.live.hits, func(i int, h food.Hit) app.UI {
		form := h.Form
		if form == food.NoForm && len(h.Food.Forms) > 0 {
			form = h.Food.Forms[0].Form
		}
		if i >= n {
			i = -1
		}
		return option(i, press("food", h.Food.ID+"/"+form.ID()),
			el("span.what", v.w.Term(h.Food.Term())), el("span.how", v.forms(h)))
	})
	last := n
	if !c.Open {
		last = -1
	}
	return append(list, option(last, press("own", ""), el("span.what", v.t("convert.own")), el("span.how", v.t("convert.own-how"))))
}

// forms names the form that was meant, or those that there are.
func (v *view) forms(h food.Hit) string {
	if h.Form != food.NoForm || len(h.Food.Forms) == 0 {
		return v.w.Term(h.Form.Term())
	}
	const most = 3
	text := v.w.Term(h.Food.Forms[0].Form.Term())
	for i, d := range h.Food.Forms[1:] {
		if i+1 == most {
			return v.t("convert.forms-more", text)
		}
		text = v.t("convert.forms", text, d.Form.Term())
	}
	return text
}

func (v *view) added() app.UI {
	return el("div.added", at{"id", "added", "tabindex", "-1", "role", "group", "aria-labelledby", "added-what"},
		el("p", at{"id", "added-what"}, v.w.Line(v.Convert.Added)),
		el("p", el("a", at{"href", "#day"}, press("go", "day-title"), v.t("convert.see-day"))))
}

// draft asks what a food is that the list does not have.
func (v *view) draft() app.UI {
	c := v.Convert
	group, _ := food.GroupByID(c.Draft.Group)
	form, _ := food.FormByID(c.Portion.Form)
	sub, _ := food.SubgroupByID(group, c.Draft.Subgroup)
	problem := func(field string) string {
		text, _ := v.problemAt(c.DraftErr, field, "x")
		return text
	}
	groups := make([]option, 0, 8)
	for _, g := range append(food.Groups(), food.Extra) {
		groups = append(groups, option{g.ID(), v.w.Term(g.Term())})
	}
	var subs []option
	if c.Draft.Subgroup == "" {
		subs = append(subs, option{"", v.t("own.not-sure")})
	}
	for _, s := range group.Subgroups() {
		subs = append(subs, option{s.ID(), v.w.Term(s.Term())})
	}
	var forms []option
	for f := food.Fresh; f <= food.Ready; f++ {
		forms = append(forms, option{f.ID(), v.w.Term(f.Term())})
	}
	var kinds []option
	for _, k := range food.Kinds(group, sub, form) {
		kinds = append(kinds, option{string(k), v.w.Term(say.Term{Kind: "class", ID: string(k)})})
	}
	kind := string(c.Draft.Kind)
	if kind == "" && len(kinds) > 0 {
		kind = kinds[0].value
	}
	return el("div.card",
		el("h2", v.t("own.title")),
		v.entry(entry{field: "own-name", label: v.t("own.name"), value: c.Draft.Name, problem: problem("name")}),
		el("div.fields",
			v.choice("own-group", v.t("own.group"), c.Draft.Group, groups),
			el("div", when(len(subs) > 1, func() app.UI { return v.choice("own-subgroup", v.t("own.subgroup"), c.Draft.Subgroup, subs) })),
			v.choice("own-form", v.t("own.form"), c.Portion.Form, forms),
			el("div", when(len(kinds) > 1, func() app.UI { return v.choice("own-kind", v.t("own.kind"), kind, kinds) })),
		),
		el("p.problem", problem("group"), problem("subgroup"), problem("form"), problem("kind")),
		el("div.row",
			el("button.main", at{"type", "button"}, press("own-use", ""), v.t("own.use")),
			v.button("cancel", "", "convert.cancel")),
	)
}
