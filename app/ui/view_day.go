package ui

import (
	"slices"
	"strconv"

	"cupsum/app/lang"
	"cupsum/app/report"
	"cupsum/core/amount"
	"cupsum/core/day"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/rule"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// dayView is the day: its groups as measuring strips, and its portions.
func (v *view) dayView() app.UI {
	d := v.Day
	return el("div.day-view",
		el("h1", at{"id", "day-title", "tabindex", "-1"}, v.dayTitle()),
		el("div.slot", when(d.Sheet.Demo, v.sampleBanner)),
		el("div.slot", when(d.Undo != nil && v.undoRow() < 0, func() app.UI { return v.undoBar(v.w.Line(d.Undo.What)) })),
		el("div.slot", when(len(d.Notes) > 0, v.dayNotes)),
		el("p.set-line", at{"id", "set-name", "tabindex", "-1"},
			v.t("day.held", d.Report.Set.Title(), d.Report.Set.Edition.Term()), " ", v.origin(d.Report.Set.Origin)),
		v.later("totals", strconv.Itoa(d.Version), (*view).totals),
		v.items(),
		v.targets(),
		v.kitchen(),
		v.files(),
	)
}

// totals are what all of the day comes to.
func (v *view) totals() app.UI {
	r := v.Day.Report
	return el("div.totals",
		el("ul.groups", each(r.Groups, v.group)),
		el("div.slot", v.parts()),
		el("div.slot.notes", each(r.Notes, v.dayNote)))
}

func (v *view) dayTitle() string {
	switch {
	case v.Day.Sheet.Title != "":
		return v.Day.Sheet.Title
	case v.Day.Sheet.Demo:
		return v.t("day.sample-title")
	}
	return v.t("day.title")
}

func (v *view) sampleBanner() app.UI {
	return el("div.sample", el("p", v.t("day.sample")), el("div.row", v.button("own-day", "", "day.own")))
}

// undoRow is the line in which the last change can be taken back: where the
// portion that was removed stood. -1: above the day.
func (v *view) undoRow() int {
	if u := v.Day.Undo; u != nil {
		if i, ok := v.Day.row(u.Row); ok {
			return i
		}
	}
	return -1
}

func (v *view) undoBar(what string) app.UI {
	return el("div.undo", at{"role", "group", "aria-label", v.t("day.undo")},
		el("p", what),
		el("div.row",
			el("button.plain", at{"type", "button", "id", "undo"}, press("undo", ""), v.t("day.undo")),
			v.button("undo-ok", "", "page.ok")))
}

func (v *view) dayNotes() app.UI {
	return el("div.notice", at{"id", "day-notes", "tabindex", "-1"},
		each(v.Day.Notes, func(_ int, l say.Line) app.UI { return el("p", v.w.Line(l)) }),
		el("div.row", v.button("notes-ok", "", "page.ok")))
}

// dayNote is one thing about the whole day, with its rule.
func (v *view) dayNote(_ int, s rule.Step) app.UI {
	return el("div.note", el("p", v.w.Working(s.Line)), v.rule(v.ruleAt("day", s.Rule)))
}

// groupProps are what a group shows. Ways are those that are open.
type groupProps struct {
	W       *lang.Words
	Group   day.GroupCheck
	Verdict string
	Open    bool
	Ways    []day.Filler
}

func (v *view) group(_ int, g day.GroupCheck) app.UI {
	p := groupProps{W: v.w, Group: g, Verdict: v.verdict(g), Open: v.Day.Ways == groupArg(g)}
	if p.Open {
		p.Ways = v.Day.Report.Ways(g)
	}
	return keep(p, group)
}

// group is one food group: how much there is of how much, as a strip and in
// words, and what would close its gap.
func group(p groupProps) app.UI {
	v, g := &view{w: p.W}, p.Group
	return el("li.group."+string(g.Verdict),
		el("div.group-head", el("h2", v.w.Term(report.Name(g.Target))), el("p.tally", v.tally(g.Total, g.Target)), v.unsure(g.Target)),
		strip(g.Total, g.Target),
		el("p.verdict", p.Verdict),
		el("div.slot", when(g.Gap.Sign() > 0, func() app.UI { return v.ways(p) })),
	)
}

// tally is "1¾ of 2 cups".
func (v *view) tally(total amount.Amount, t guide.Target) string {
	if t.Low.Sign() == 0 {
		return v.t("day.within", v.w.Best(total), report.Goals(v.w, t))
	}
	return v.t("day.of", v.w.Best(total), report.Goals(v.w, t))
}

// unsure marks a target that nobody has read in its document.
func (v *view) unsure(t guide.Target) app.UI {
	if t.Origin != rule.Memory {
		return nil
	}
	return v.origin(t.Origin)
}

// verdict says in words how a group stands; when it is too close to call, how
// far the range goes and what to measure better.
func (v *view) verdict(g day.GroupCheck) string {
	text := report.Verdict(v.w, g.Target, g.Verdict, g.Gap, g.Above)
	if g.Verdict != day.Close {
		return text
	}
	text = v.t("page.two", text, v.t("day.may-be", g.Total))
	if g.Settle >= 0 && g.Settle < len(v.Day.Report.Items) {
		text = v.t("page.two", text, v.t("day.settle", v.w.Food(v.Day.Report.Items[g.Settle].Portion)))
	}
	return text
}

// ways are three ways to close a gap, to open on request, each with a button.
// What may hurt someone in them is folded up below each, since the same can's
// note comes often.
func (v *view) ways(p groupProps) app.UI {
	return el("div.ways",
		el("button.opener", at{"type", "button", "aria-expanded", strconv.FormatBool(p.Open)}, press("ways", groupArg(p.Group)), v.t("day.ways")),
		el("ul", v.wayList(p)))
}

func (v *view) wayList(p groupProps) []app.UI {
	return each(p.Ways, func(i int, way day.Filler) app.UI {
		var care []guide.Caution
		for _, f := range way {
			for _, c := range f.Cautions {
				if !slices.ContainsFunc(care, func(d guide.Caution) bool { return d.ID == c.ID }) {
					care = append(care, c)
				}
			}
		}
		return el("li",
			el("div.way",
				each(way, func(_ int, f day.Fill) app.UI {
					text := v.t("check.portion", v.w.Food(f.Portion), v.w.Measured(f.Portion))
					if f.OnHand {
						text = v.t("day.way-have", text)
					}
					return el("p", text)
				})),
			el("button.plain", at{"type", "button"}, press("fill", fillArg(p.Group, i)), v.t("day.way-add")),
			el("div.way-care", when(len(care) > 0, func() app.UI {
				return details("care-list", v.t("answer.cautions"), el("ul", each(care, func(_ int, c guide.Caution) app.UI { return el("li", v.w.Line(c.Line())) })))
			})))
	})
}

// parts are the targets for a part of a group: whole grains, refined grains.
func (v *view) parts() app.UI {
	if len(v.Day.Report.Parts) == 0 {
		return nil
	}
	return el("ul.parts", each(v.Day.Report.Parts, func(_ int, p day.PartCheck) app.UI { return keep(partProps{v.w, p, v.ruleAt("part", p.Rule)}, part) }))
}

type partProps struct {
	W    *lang.Words
	Part day.PartCheck
	Rule ruleProps
}

func part(props partProps) app.UI {
	v, p := &view{w: props.W}, props.Part
	g := day.GroupCheck{Target: p.Target, Total: p.Total, Verdict: p.Verdict, Gap: p.Gap, Above: p.Above, Settle: -1}
	return el("li",
		el("p.part", v.w.Term(report.Name(p.Target))), el("p.tally", v.tally(p.Total, p.Target)), v.unsure(p.Target),
		el("p.verdict", v.verdict(g)), v.rule(props.Rule))
}

// items is what is on the day. Its parts keep their places, so that the focus
// does not go with the last portion.
func (v *view) items() app.UI {
	n := len(v.Day.Report.Items)
	title := v.t("day.items")
	if n > 0 {
		title = v.t("day.items-count", n)
	}
	var rows []app.UI
	if n > 0 || v.undoRow() >= 0 {
		rows = v.rows()
	}
	return el("div.items",
		el("h2", title),
		el("ol", rows),
		el("div", when(n == 0, func() app.UI { return el("p", v.t("day.empty")) })),
		el("div.row",
			el("div", when(n > 0, func() app.UI { return v.button("clear", "", "day.clear") })),
			el("div", when(!v.Day.Sheet.Demo, func() app.UI { return v.button("sample", "", "day.see-sample") }))))
}

// rows are the lines of the day. One whose portion is gone stays without a
// sign of it, or offers to take that back.
func (v *view) rows() []app.UI {
	if len(v.kept().lines) > 4*len(v.Day.Rows)+100 {
		v.live.lines = map[string]line{}
	}
	items, undo := v.Day.Report.Items, v.undoRow()
	return each(v.Day.Rows, func(row int, id string) app.UI {
		if len(items) > 0 && items[0].Portion.ID == id {
			it := items[0]
			items = items[1:]
			return v.item(row, it)
		}
		gone := v.live.lines[id].props // as it was, to change little in the page
		gone.W, gone.Gone = v.w, true
		if row == undo {
			gone.Undo, gone.Name = true, v.w.Line(v.Day.Undo.What)
		}
		key := goneKey + strconv.Itoa(row)
		if l, ok := v.live.lines[key]; ok && l.props == gone {
			return v.line(row, key)
		}
		return v.make(row, key, line{props: gone})
	})
}

// goneKey begins the keys of lines without a portion; no portion's id does.
const goneKey = "gone "

// make notes a line that has to be drawn anew.
func (v *view) make(row int, key string, l line) app.UI {
	v.live.made++
	l.made = v.live.made
	v.live.lines[key] = l
	return v.line(row, key)
}

func (v *view) line(row int, key string) app.UI {
	return &lineView{Row: row, Made: v.live.lines[key].made, Key: key, live: v.live}
}

// itemProps are what a line of the day shows. Row is its place: the ids of its
// elements come from that.
type itemProps struct {
	W                         *lang.Words
	Row                       int
	Gone                      bool // its portion was removed
	Undo                      bool // and taking that back is offered
	ID                        string
	Name, Line, Note, Problem string
	Beans                     bool
	Side                      portion.Side
}

// A line is what an item of the day was drawn with.
type line struct {
	item  day.Item
	props itemProps
	made  int // tells it from the lines before it
}

// lineView is a line that is drawn anew when it was made anew. It compares two
// numbers, where a memo would compare all texts of each line at each press.
type lineView struct {
	app.Compo
	Row, Made int
	Key       string
	live      *live
}

func (l *lineView) Render() app.UI {
	p := l.live.lines[l.Key].props
	p.Row = l.Row
	return item(p)
}

// item is a line of the day. Its texts are made anew only when its portion was
// counted anew, since most lines stand still at most presses.
func (v *view) item(row int, it day.Item) app.UI {
	key := it.Portion.ID
	if l, ok := v.live.lines[key]; ok && same(l.item, it) {
		return v.line(row, key)
	}
	return v.make(row, key, line{item: it, props: v.itemProps(it)})
}

// same tells whether an item is one that was there before, with its portion
// neither changed nor counted anew: results are handed on from check to check.
func same(a, b day.Item) bool {
	x, y := a.Result.Steps, b.Result.Steps
	return a.Portion == b.Portion && a.Err == b.Err && a.Vegetable.Equal(b.Vegetable) &&
		len(x) == len(y) && (len(x) == 0 || &x[0] == &y[0])
}

func (v *view) itemProps(it day.Item) itemProps {
	p := it.Portion
	props := itemProps{W: v.w, ID: p.ID, Name: v.w.Food(p), Note: p.Note, Side: p.Side}
	if it.Err != nil {
		props.Problem = v.w.Problem(it.Err)
	} else {
		props.Line = v.t("day.counts", v.w.Measured(p), v.itemCounts(it))
		props.Beans = splits(it.Result)
	}
	return props
}

// item draws a line. One that offers to take a removal back has the same
// elements with other texts: were the button that was pressed taken out of the
// page, the browser would look for another place for the focus, which is slow.
func item(p itemProps) app.UI {
	v := &view{w: p.W}
	name := "item-" + strconv.Itoa(p.Row)
	act := func(do, own, id string) app.UI {
		return el("button.plain", at{"type", "button", "id", own, "aria-labelledby", own + " " + name, "data-do", do}, v.t(id))
	}
	edit, remove := act("edit", "edit-"+strconv.Itoa(p.Row), "day.edit"), act("remove", "remove-"+strconv.Itoa(p.Row), "day.remove")
	class := "li.item"
	if p.Gone {
		class = "li.item.gone"
		edit, remove = act("undo", "undo", "day.undo"), act("undo-ok", "undo-ok", "page.ok")
		if !p.Undo {
			edit, remove = nil, nil
		}
	}
	return el(class, at{"data-arg", p.ID, "hidden", p.Gone && !p.Undo},
		el("div.item-what",
			el("p.item-name", at{"id", name}, p.Name),
			el("p.item-counts", p.Line),
			when(p.Note != "", func() app.UI { return el("p.note", p.Note) }),
			when(p.Problem != "", func() app.UI { return el("p.problem", p.Problem) }),
		),
		el("div.row.item-acts", edit, remove),
		// the split of beans can be changed
		el("div.item-side", when(p.Beans, func() app.UI {
			return v.choice("side/"+p.ID, v.t("side.legend"), string(p.Side), v.sideOptions())
		})),
	)
}

// itemCounts is what an item counts as; beans as they were split.
func (v *view) itemCounts(it day.Item) string {
	r := it.Result
	if len(r.Credits) == 0 || r.Credits[0].Alt == nil {
		return v.answerLine(r)
	}
	vegetable, protein := r.Credits[0], *r.Credits[0].Alt
	one := amount.Int(1)
	switch {
	case it.Vegetable.Equal(one):
		return v.creditLine(vegetable)
	case it.Vegetable.Sign() == 0:
		return v.creditLine(protein)
	}
	vegetable.Amount = vegetable.Amount.Scale(it.Vegetable)
	protein.Amount = protein.Amount.Scale(one.Sub(it.Vegetable))
	return v.t("answer.and", v.creditLine(vegetable), v.creditLine(protein))
}

type kitchenProps struct {
	W    *lang.Words
	Have []string
}

// kitchen lists the foods at home, which are suggested first.
func (v *view) kitchen() app.UI { return keep(kitchenProps{v.w, v.Day.Sheet.OnHand}, kitchen) }

func kitchen(p kitchenProps) app.UI {
	v, have := &view{w: p.W}, p.Have
	return details("kitchen", v.t("kitchen.title", len(have)),
		el("p", v.t("kitchen.how")),
		el("ul", each(have, func(_ int, id string) app.UI {
			name := id
			if f, ok := food.ByID(id); ok {
				name = v.w.Term(f.Term())
			}
			return el("li", el("span", name),
				el("button.plain", at{"type", "button", "aria-label", v.t("day.remove-what", name)}, press("have", id), v.t("day.remove")))
		})))
}

type filesProps struct {
	W     *lang.Words
	Title string
}

// files are the ways in and out of the page.
func (v *view) files() app.UI { return keep(filesProps{v.w, v.Day.Sheet.Title}, files) }

func files(p filesProps) app.UI {
	v := &view{w: p.W}
	return details("files", v.t("files.title"),
		el("p", v.t("files.how")),
		v.entry(entry{field: "title", label: v.t("files.name"), value: p.Title, hint: v.t("files.name-hint")}),
		el("div.row",
			v.button("print", "", "files.print"), v.button("export", "", "day.export"), v.button("open", "", "files.open"), v.button("csv", "", "files.csv")))
}
