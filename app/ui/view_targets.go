package ui

import (
	"cupsum/core/guide"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// targets is where the target set is picked.
func (v *view) targets() app.UI {
	set := v.Day.Report.Set
	sets := guide.Sets()
	var groups []app.UI
	for _, pattern := range guide.Patterns() {
		var options []app.UI
		for _, s := range sets {
			if s.Pattern == pattern {
				options = append(options, el("option", at{"value", s.ID, "selected", s.ID == set.ID}, v.w.Line(s.Title())))
			}
		}
		groups = append(groups, el("optgroup", at{"label", v.t("pattern-name." + pattern)}, options))
	}
	if _, listed := guide.SetByID(set.ID); !listed || set.AgeTo > 0 && set.ID != baseSet(sets, set.ID) {
		groups = append(groups, el("option", at{"value", set.ID, "selected", true}, v.w.Line(set.Title())))
	}
	return details("targets", v.t("targets.title"),
		el("div.field", el("label", at{"for", inputID("set")}, v.t("targets.set")), el("select", types("set"), groups)),
		v.source(set.Source, set.Origin),
		v.person(),
	)
}

func baseSet(sets []guide.Set, id string) string {
	for _, s := range sets {
		if s.ID == id {
			return id
		}
	}
	return ""
}

// person finds the published target for somebody.
func (v *view) person() app.UI {
	p := v.Person
	list := func(kind string, ids ...string) []option {
		var options []option
		for _, id := range ids {
			options = append(options, option{id, v.t(kind + "." + id)})
		}
		return options
	}
	patterns := make([]option, 0, len(personPatterns))
	for _, id := range personPatterns {
		patterns = append(patterns, option{id, v.t("pattern-name." + id)})
	}
	return el("div.person",
		el("h3", v.t("person.title")),
		el("p.quiet", v.t("person.private")),
		v.entry(entry{field: "age", label: v.t("person.age"), value: p.Age, hint: v.t("person.age-hint"), mode: "numeric"}),
		v.chips("sex", v.t("person.sex"), p.Sex, list("sex", "female", "male")),
		v.chips("activity", v.t("person.activity"), p.Activity, list("activity", "sedentary", "moderate", "active")),
		v.choice("state", v.t("person.state"), p.State, []option{
			{"", v.t("person.state-none")}, {"pregnant", v.t("person.state-pregnant")},
			{"breastfeeding", v.t("person.state-breastfeeding")}, {"diet", v.t("person.state-diet")}}),
		v.choice("pattern", v.t("person.pattern"), p.pattern(), patterns),
		el("div.found", at{"role", "status"}, when(p.started(), v.found)),
	)
}

// found is the target for the person, or what the table can't say.
func (v *view) found() app.UI {
	set, lines, err := guide.SetFor(v.Person.person(), v.Person.pattern())
	if err != nil {
		return el("div", el("p", v.w.Problem(err)),
			el("div.row", el("button.plain", at{"type", "button"}, press("person-use", "class"), v.t("person.use-class"))))
	}
	return el("div",
		el("p.found-set", v.w.Line(set.Title())),
		each(lines, func(_ int, l say.Line) app.UI { return el("p", v.w.Line(l)) }),
		el("div.row", el("button.main", at{"type", "button"}, press("person-use", set.ID), v.t("person.use"))),
		el("ul.quiet", each(guide.Cautions(guide.InTarget), func(_ int, c guide.Caution) app.UI { return el("li", v.w.Line(c.Line())) })),
	)
}
