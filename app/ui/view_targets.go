package ui

import (
	"cupsum/app/lang"
	"cupsum/core/guide"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

type setsProps struct {
	W   *lang.Words
	Set guide.Set
	Own guide.Set // the programme's own, when there is one
}

// targets is where the target set is picked.
func (v *view) targets() app.UI {
	set := v.Day.Report.Set
	set.Targets = nil // the menu shows names alone
	var own guide.Set
	if v.Day.Sheet.Own != nil {
		own = *v.Day.Sheet.Own
		own.Targets = nil
	}
	return details("targets", v.t("targets.title"),
		keep(setsProps{v.w, set, own}, setMenu),
		keep(personProps{v.w, v.Person}, person),
	)
}

// setMenu lists the sets by pattern; one that the list does not have, such as
// a child's or a programme's own, is added while it is in use.
func setMenu(p setsProps) app.UI {
	v := &view{w: p.W}
	byPattern := map[string][]app.UI{}
	listed := false
	for _, s := range guide.Sets() {
		listed = listed || s.ID == p.Set.ID
		byPattern[s.Pattern] = append(byPattern[s.Pattern], el("option", at{"value", s.ID, "selected", s.ID == p.Set.ID}, v.w.Line(s.Title())))
	}
	var groups []app.UI
	for _, pattern := range guide.Patterns() {
		groups = append(groups, el("optgroup", at{"label", v.t("pattern-name." + pattern)}, byPattern[pattern]))
	}
	more := []guide.Set{p.Own}
	if !listed && p.Set.ID != p.Own.ID {
		more = append(more, p.Set)
	}
	for _, s := range more {
		if s.ID != "" {
			groups = append(groups, el("option", at{"value", s.ID, "selected", s.ID == p.Set.ID}, v.w.Line(s.Title())))
		}
	}
	return el("div",
		el("div.field", el("label", at{"for", inputID("set")}, v.t("targets.set")), el("select", types("set"), groups)),
		v.source(p.Set.Source, p.Set.Origin),
		el("p.quiet", v.t("targets.own")),
		el("div.row", v.button("open", "", "targets.open")))
}

type personProps struct {
	W      *lang.Words
	Person Person
}

// person finds the published target for somebody.
func person(props personProps) app.UI {
	v := &view{Model: Model{Person: props.Person}, w: props.W}
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
