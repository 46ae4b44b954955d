package ui

import (
	"cupsum/app/browser"
	"cupsum/app/lang"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// A view is a model with the words to show it in. Its methods are the views.
type view struct {
	Model
	w    *lang.Words
	live *live // of the page that this view is of; see keyed
}

// t is a message in words.
func (v *view) t(id string, args ...any) string { return v.w.Text(id, args...) }

// page is everything. day, tables and evidence stand for components; the
// static page gives the plain views.
func (v *view) page(day, tables, evidence app.UI) app.UI {
	class := "div.page"
	if len(v.Day.Sheet.Portions) > 0 {
		class += ".has-day"
	}
	if v.Convert.Chosen {
		class += ".is-measuring"
	}
	if v.Only != "" {
		class += ".only-" + v.Only
	}
	return el(class, at{"id", "page"},
		patterns(),
		v.header(),
		v.classBox(),
		el("main.columns", at{"id", "main"},
			el("section.convert", at{"id", "convert", "aria-labelledby", "convert-title"}, v.convert()),
			el("section.day", at{"id", "day", "aria-labelledby", "day-title"}, day),
		),
		el("section.tables", at{"id", "tables", "aria-labelledby", "tables-title"}, tables),
		el("section.evidence", at{"id", "evidence", "aria-labelledby", "evidence-title"}, evidence),
		v.keyed("care", "", func(v *view) app.UI {
			return el("footer.care", el("p", v.t("care.general")), el("p.quiet", v.t("page.private")))
		}),
	)
}

// headerProps are what the header shows.
type headerProps struct {
	W         *lang.Words
	Updatable bool
	Store     string
	Damaged   bool
}

func (v *view) header() app.UI {
	return keep(headerProps{v.w, v.Updatable, v.Store, len(v.Damaged) > 0}, header)
}

func header(p headerProps) app.UI {
	v := &view{w: p.W}
	link := func(to, id string) app.UI {
		return el("li", el("a", at{"href", "#" + to}, press("go", to+"-title"), v.t(id)))
	}
	return el("header.top",
		el("div.brand",
			el("p.name", v.t("page.name")),
			el("p.motto", v.t("page.motto")),
		),
		el("nav", at{"aria-label", v.t("page.nav")}, el("ul",
			link("convert", "convert.nav"), link("day", "day.nav"), link("tables", "tables.nav"), link("evidence", "evidence.nav"),
		)),
		el("div.notices",
			el("div", when(p.Updatable, func() app.UI {
				return v.notice("page.update", v.button("update", "", "page.update-now"))
			})),
			el("div", when(p.Store != "", func() app.UI {
				save := v.button("export", "", "day.export")
				if p.Store == browser.Lost.ID() {
					save = v.button("open", "", "files.open")
				}
				return v.notice(p.Store, save, v.button("store-ok", "", "page.ok"))
			})),
			el("div", when(p.Damaged, func() app.UI {
				return v.notice("store.damaged", v.button("damage-save", "", "store.damaged-save"), v.button("damage-ok", "", "store.damaged-drop"))
			})),
		),
	)
}

func (v *view) notice(id string, buttons ...app.UI) app.UI {
	return el("div.notice", at{"role", "status"}, el("p", v.t(id)), el("div.row", buttons))
}

// button is a plain button that sends Press{do, arg}.
func (v *view) button(do, arg, id string) app.UI {
	return el("button.plain", at{"type", "button"}, press(do, arg), v.t(id))
}

// An option is one thing to choose from.
type option struct{ value, text string }

// noValue is an option's empty value in the page. go-app drops an empty
// attribute, and the browser would put "on" or the option's words in its place.
const noValue = "-"

func (o option) inPage() string {
	if o.value == "" {
		return noValue
	}
	return o.value
}

// A choiceProps is one choice among options.
type choiceProps struct {
	Field, Label, Chosen string
	Options              []option
}

type chipsProps struct {
	choiceProps
	Shown int // how many of the options; the others are hidden
}

// chips are options of which one is chosen, as a row of large radio buttons.
// Those that are not needed just now are hidden, as in the food list.
func (v *view) chips(field, legend, chosen string, options []option) app.UI {
	all := over(options, v.kept().chips[field])
	v.live.chips[field] = all
	return keep(chipsProps{choiceProps{field, legend, chosen, all}, len(options)}, chips)
}

func chips(p chipsProps) app.UI {
	return el("fieldset.chips", at{"data-in", p.Field}, el("legend", p.Label), el("div.row", each(p.Options, func(i int, o option) app.UI {
		spare := i >= p.Shown
		return el("label.chip", at{"hidden", spare}, // few attributes: each costs a slow phone a good part of a tap
			el("input", at{"type", "radio", "name", p.Field, "value", o.inPage(), "checked", o.value == p.Chosen && !spare, "disabled", spare}),
			el("span", o.text))
	})))
}

// choice is a select.
func (v *view) choice(field, label, chosen string, options []option) app.UI {
	return keep(choiceProps{field, label, chosen, options}, choice)
}

func choice(p choiceProps) app.UI {
	return el("div.field", el("label", at{"for", inputID(p.Field)}, p.Label),
		el("select", types(p.Field), each(p.Options, func(_ int, o option) app.UI {
			return el("option", at{"value", o.inPage(), "selected", o.value == p.Chosen}, o.text)
		})))
}

// An entry is a text field.
type entry struct {
	field, label string
	value        string
	hint         string // what goes in it; shown below
	mode         string // inputmode
	problem      string // what is wrong with it; shown below in place of the hint
	asked        bool   // the problem is only that it is empty: a request, no fault
}

func (v *view) entry(e entry) app.UI { return keep(e, drawEntry) }

func drawEntry(e entry) app.UI {
	id := inputID(e.field)
	attrs := at{"type", "text", "value", e.value, "autocomplete", "off", "aria-describedby", id + "-about"}
	if e.mode != "" {
		attrs = append(attrs, "inputmode", e.mode)
	}
	about := el("p.hint", at{"id", id + "-about"}, e.hint)
	if e.problem != "" {
		about = el("p.problem", at{"id", id + "-about"}, e.problem)
		if e.asked {
			about = el("p.hint", at{"id", id + "-about"}, e.problem)
		} else {
			attrs = append(attrs, "aria-invalid", "true")
		}
	}
	return el("div.field", el("label", at{"for", id}, e.label), el("input", types(e.field), attrs), about)
}

// problemAt is the sentence for a field, when the error is about it. asked
// says that the field is still empty.
func (v *view) problemAt(err error, field, value string) (text string, asked bool) {
	p, ok := err.(*say.Problem)
	if !ok || p.Field != field {
		return "", false
	}
	return v.w.Line(p.Line), value == ""
}

// details is something to open on request.
func details(class, summary string, parts ...any) app.UI {
	return el("details."+class, append([]any{el("summary", summary)}, parts...)...)
}
