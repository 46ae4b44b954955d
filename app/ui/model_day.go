package ui

import (
	"slices"
	"strconv"
	"strings"

	"cupsum/core/day"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/say"
)

// check holds the sheet against its targets anew.
func (d Day) check() Day {
	d.Report = d.Report.Again(d.Sheet)
	d.Rows = rows(d.Rows, d.Sheet.Portions)
	d.Version++
	return d
}

// mostGone is how many lines of portions that are gone stay.
const mostGone = 20

// rows gives each portion its line on screen. The line of a portion that is
// gone stays, empty: so those below it need not move up, which would draw all
// of them anew, and the portion finds its place again when it comes back. old
// are the lines so far.
func rows(old []string, portions []portion.Portion) []string {
	here := make(map[string]bool, len(portions))
	fresh := make([]string, 0, len(portions))
	for _, p := range portions {
		here[p.ID] = true
		fresh = append(fresh, p.ID)
	}
	lines, next := make([]string, 0, len(old)+1), 0
	for _, id := range old {
		if next < len(fresh) && fresh[next] == id {
			next++
		} else if here[id] { // another order
			return fresh
		}
		lines = append(lines, id)
	}
	if len(lines)-next > mostGone || next == 0 && len(fresh) > 0 { // many are gone, or it is another day
		return fresh
	}
	return append(lines, fresh[next:]...)
}

// row finds a portion's line on screen.
func (d Day) row(id string) (int, bool) {
	i := slices.Index(d.Rows, id)
	return i, i >= 0 && id != ""
}

// focusRow moves the focus to the first line from row i on that has a portion.
func (m Model) focusRow(i int) Model {
	for ; i < len(m.Day.Rows); i++ {
		if _, has := find(m.Day.Sheet, m.Day.Rows[i]); has {
			return m.focus("edit-" + strconv.Itoa(i))
		}
	}
	return m.focus("day-title")
}

// change makes the sheet another one, in a way that can be undone.
func (m Model) change(what say.Line, sheet day.Sheet) Model {
	m.Day.Undo = &Undo{What: what, Before: m.Day.Sheet, After: sheet}
	m.Day.Notes = nil
	return m.show(sheet)
}

// show puts a sheet on screen. What is being measured is counted anew, since
// the edition may be another one.
func (m Model) show(sheet day.Sheet) Model {
	m.Day.Sheet = sheet
	m.Day = m.Day.check()
	return m.count()
}

// hands are the person's own hands, those that can be read.
func (m Model) hands() portion.Hands {
	if len(m.Day.Sheet.Hands) == 0 {
		return nil
	}
	own := portion.Hands{}
	for id, text := range m.Day.Sheet.Hands {
		if h, err := guide.OwnHand(id, text); err == nil {
			own[id] = h
		}
	}
	return own
}

// ownHand notes what the person's own hand holds; empty takes it back.
func (m Model) ownHand(text string) Model {
	id := m.Convert.Portion.Measure.Hand
	sheet := m.Day.Sheet
	hands := map[string]string{}
	for k, v := range sheet.Hands {
		hands[k] = v
	}
	if strings.TrimSpace(text) == "" {
		delete(hands, id)
	} else {
		hands[id] = text
	}
	sheet.Hands = hands
	return m.show(sheet)
}

// pressDay carries out the buttons of the day.
func (m Model) pressDay(p Press) Model {
	m.Day.Version++
	sheet := m.Day.Sheet
	switch p.Do {
	case "edit":
		return m.edit(p.Arg)
	case "remove":
		i := slices.IndexFunc(sheet.Portions, func(q portion.Portion) bool { return q.ID == p.Arg })
		if i < 0 {
			return m
		}
		what := say.New("day.removed", m.nameOf(sheet.Portions[i]))
		sheet.Portions = slices.Delete(slices.Clone(sheet.Portions), i, i+1)
		if m.Convert.Editing == p.Arg {
			m.Convert = Convert{}
		}
		m = m.change(what, sheet)
		if _, ok := m.Day.row(p.Arg); ok {
			m.Day.Undo.Row = p.Arg
		}
		return m.focus("undo")
	case "clear":
		what := say.New("day.cleared")
		sheet.Portions = nil
		return m.change(what, sheet).focus("undo")
	case "undo":
		return m.undo()
	case "undo-ok":
		u := m.Day.Undo
		m.Day.Undo = nil
		if u != nil {
			if i, ok := m.Day.row(u.Row); ok {
				return m.focusRow(i)
			}
		}
		return m.focus("day-title")
	case "ways":
		if m.Day.Ways == p.Arg {
			p.Arg = ""
		}
		m.Day.Ways = p.Arg
	case "fill":
		return m.fill(p)
	case "have":
		return m.have(p.Arg)
	case "sample":
		if !sheet.Demo {
			m.Day.Own = sheet
		}
		m.Day.Undo, m.Day.Notes = nil, nil
		return m.show(day.Demo()).focus("day-title")
	case "own-day":
		own := m.Day.Own
		if own.Set == "" {
			own.Set = day.DefaultSet
		}
		m.Day.Own, m.Day.Undo, m.Day.Notes = day.Sheet{}, nil, nil
		return m.show(own).focus("day-title")
	case "person-use":
		return m.useSet(p.Arg).focus("set-name")
	case "notes-ok":
		m.Day.Notes = nil
		return m.focus("day-title")
	}
	return m
}

// undo takes the last change back, whatever another tab has done since: only
// the portions that the change touched go back to what they were.
func (m Model) undo() Model {
	u := m.Day.Undo
	if u == nil {
		return m
	}
	sheet := m.Day.Sheet
	for _, p := range u.After.Portions {
		if _, had := find(u.Before, p.ID); !had {
			sheet = drop(sheet, p.ID)
		}
	}
	for _, p := range u.Before.Portions {
		if now, has := find(u.After, p.ID); !has || now != p {
			sheet = put(sheet, p)
		}
	}
	if u.Before.Set != u.After.Set {
		sheet.Set, sheet.Own = u.Before.Set, u.Before.Own
	}
	if u.Before.Title != u.After.Title {
		sheet.Title = u.Before.Title
	}
	m.Day.Undo = nil
	m = m.show(sheet)
	if i, ok := m.Day.row(u.Row); ok {
		return m.focusRow(i)
	}
	return m.focus("day-title")
}

// fill adds the portions that were offered to close a gap.
func (m Model) fill(p Press) Model {
	for _, g := range m.Day.Report.Groups {
		if !strings.HasPrefix(p.Arg, groupArg(g)+"/") {
			continue
		}
		for i, way := range m.Day.Report.Ways(g) {
			if fillArg(g, i) != p.Arg {
				continue
			}
			sheet, names := m.Day.Sheet, []any{}
			for _, f := range way {
				q := f.Portion
				q.ID = p.NewID()
				sheet = put(sheet, q)
				names = append(names, f.Food.Term())
			}
			what := say.New("day.added", names[0])
			if len(way) > 1 {
				what = say.New("day.added-several", len(way))
			}
			return m.change(what, sheet).focus("undo")
		}
	}
	return m
}

// fillArg tells one offered way from the others.
func fillArg(g day.GroupCheck, i int) string {
	return groupArg(g) + "/" + strconv.Itoa(i)
}

// groupArg tells one group of the day from the others.
func groupArg(g day.GroupCheck) string { return g.Target.Group.ID() + "-" + g.Target.Subgroup.ID() }

// have marks a food as in the kitchen, or takes the mark back.
func (m Model) have(id string) Model {
	sheet := m.Day.Sheet
	if i := slices.Index(sheet.OnHand, id); i >= 0 {
		sheet.OnHand = slices.Delete(slices.Clone(sheet.OnHand), i, i+1)
	} else if id != "" {
		sheet.OnHand = append(slices.Clone(sheet.OnHand), id)
		slices.Sort(sheet.OnHand)
	}
	return m.show(sheet)
}

// useSet holds the day against another target set: a published one, or the
// programme's own that the sheet has.
func (m Model) useSet(id string) Model {
	sheet := m.Day.Sheet
	_, published := guide.SetByID(id)
	if !published && (sheet.Own == nil || sheet.Own.ID != id) || id == sheet.Set {
		return m
	}
	sheet.Set = id
	return m.show(sheet)
}

// useOwn takes a programme's own targets from a file that was opened.
func (m Model) useOwn(text string) Model {
	set, err := guide.ReadSet([]byte(text))
	if err != nil {
		return m.refuse(err)
	}
	sheet := m.Day.Sheet
	sheet.Set, sheet.Own = set.ID, &set
	return m.change(say.New("targets.opened", set.Title()), sheet).focus("undo")
}

// refuse says why a file was not taken.
func (m Model) refuse(err error) Model {
	line := say.New("problem.unknown", err.Error())
	if p, ok := err.(*say.Problem); ok {
		line = p.Line
		if p.Field != "" {
			line = say.New("files.at", p.Field, p.Line)
		}
	}
	m.Day.Notes = []say.Line{line}
	return m.focus("day-notes")
}

// typedDay takes what was typed or picked in the day's section.
func (m Model) typedDay(t Typed) Model {
	m.Day.Version++
	switch t.Field {
	case "set":
		return m.useSet(t.Text)
	case "title":
		m.Day.Sheet.Title = t.Text[:min(len(t.Text), 400)]
	case "age":
		m.Person.Age = t.Text[:min(len(t.Text), 40)]
	case "sex":
		m.Person.Sex = t.Text
	case "activity":
		m.Person.Activity = t.Text
	case "state":
		m.Person.State = t.Text
	case "pattern":
		m.Person.Pattern = t.Text
	}
	if strings.HasPrefix(t.Field, "side/") {
		if p, ok := find(m.Day.Sheet, strings.TrimPrefix(t.Field, "side/")); ok {
			p.Side = portion.Side(t.Text)
			return m.show(put(m.Day.Sheet, p))
		}
	}
	return m
}

// loaded takes in what the browser has stored. A sample on screen stays there.
func (m Model) loaded(l Loaded) Model {
	if l.Sheet.Set == "" {
		l.Sheet.Set = day.DefaultSet
	}
	m.Person = l.Person
	m.Damaged = l.Damaged
	if m.Day.Sheet.Demo {
		m.Day.Own = l.Sheet
		return m
	}
	return m.show(l.Sheet)
}

// opened puts a day file on screen in place of the day; it can be undone. A
// file that can't be read leaves the day as it is.
func (m Model) opened(o Opened) Model {
	m.Day.Version++
	if !o.Problem.IsZero() {
		m.Day.Notes = []say.Line{o.Problem}
		return m.focus("day-notes")
	}
	sheet, notes, err := day.Read([]byte(o.Text))
	if p, ok := err.(*say.Problem); ok && p.ID == "day.not-a-day" && strings.Contains(o.Text, guide.ProgramFormat) {
		return m.useOwn(o.Text)
	}
	if err != nil {
		return m.refuse(err)
	}
	portions := slices.Clone(sheet.Portions)
	for i := range portions {
		portions[i].ID = o.NewID() // two tabs may open the same file
	}
	sheet.Portions, sheet.Demo = portions, false
	if m.Day.Sheet.Demo {
		m.Day.Sheet, m.Day.Own = m.Day.Own, day.Sheet{}
	}
	m = m.change(say.New("day.opened", len(portions)), sheet)
	m.Day.Notes = notes
	return m.focus("undo")
}

func (m Model) nameOf(p portion.Portion) say.Term {
	for _, item := range m.Day.Report.Items {
		if item.Portion.ID == p.ID && item.Err == nil {
			return item.Result.Food.Term()
		}
	}
	if p.Custom != nil {
		return say.Term{Kind: "food", ID: "own", Text: p.Custom.Name}
	}
	return say.Term{Kind: "food", ID: p.Food, Text: p.Food}
}

// find gets a portion of a sheet by its id.
func find(s day.Sheet, id string) (portion.Portion, bool) {
	for _, p := range s.Portions {
		if p.ID == id {
			return p, true
		}
	}
	return portion.Portion{}, false
}

// put sets a portion on a copy of the sheet: in its old place, or where its id
// belongs, since ids grow with time.
func put(s day.Sheet, p portion.Portion) day.Sheet {
	list := slices.Clone(s.Portions)
	i, has := slices.BinarySearchFunc(list, p.ID, func(q portion.Portion, id string) int { return strings.Compare(q.ID, id) })
	if !slices.IsSortedFunc(list, func(a, b portion.Portion) int { return strings.Compare(a.ID, b.ID) }) {
		i = slices.IndexFunc(list, func(q portion.Portion) bool { return q.ID == p.ID })
		if has = i >= 0; !has {
			i = len(list)
		}
	}
	if has {
		list[i] = p
	} else {
		list = slices.Insert(list, i, p)
	}
	s.Portions = list
	return s
}

// drop takes a portion off a copy of the sheet.
func drop(s day.Sheet, id string) day.Sheet {
	s.Portions = slices.DeleteFunc(slices.Clone(s.Portions), func(p portion.Portion) bool { return p.ID == id })
	return s
}
