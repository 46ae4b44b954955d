package ui

import (
	"slices"

	"cupsum/core/day"
	"cupsum/core/say"
)

// A Model is the page's state. It is copied freely: slices and maps in it are
// replaced, never changed in place.
type Model struct {
	Convert Convert
	Day     Day
	Person  Person
	Class   Class

	Only      string   // "convert" or "day" when embedding asks for one section alone
	Updatable bool     // a newer version of the page is ready
	Store     string   // id of the sentence about storage, when there is something to say
	Damaged   []string // stored rows that could not be read, as text to download
	Evidence  bool     // the list of rules and tables is open
	Rules     []string // the places of rules that are open, see ruleAt
	Turn      int      // moves with everything but the food field and its list
	Loaded    bool     // the program runs; false in the static page

	Focus   string // element id to focus after drawing
	Focused int    // grows with each wish, so that the same id can be wished twice
}

// A Day is the day sheet on screen with its check.
type Day struct {
	Sheet   day.Sheet
	Report  day.Report
	Own     day.Sheet  // the person's day, while a sample is on screen
	Undo    *Undo      // what the last change can be undone to; nil: nothing
	Notes   []say.Line // what came of opening a file
	Ways    string     // the group whose ways to close its gap are open, see groupArg
	Rows    []string   // portions' ids by line on screen, see rows
	Version int        // moves with everything that the day's view shows
}

// An Undo is one change of the day that can be taken back.
type Undo struct {
	What   say.Line
	Row    string // id of the portion in whose line it is offered; "": above the day
	Before day.Sheet
	After  day.Sheet
}

// Messages are what can happen to the page.
type (
	// Press is a button pressed: an element with data-do.
	Press struct {
		Do, Arg string
		NewID   func() string // ids for new portions
	}
	// Typed is the new content of a field: an element with data-in.
	Typed struct{ Field, Text string }
	// Key is a key in the food field.
	Key struct {
		Name  string
		NewID func() string
	}
	// Left says that the food field lost the focus.
	Left struct{}
	// Loaded is what the browser had stored, at the start and when another tab
	// has changed it.
	Loaded struct {
		Sheet   day.Sheet
		Person  Person
		Damaged []string
	}
	// Opened is a day file that was chosen.
	Opened struct {
		Text    string
		Problem say.Line // it could not be read at all
		NewID   func() string
	}
	// Stored says how a save ended: the id of the sentence about it, or "".
	Stored struct{ Line string }
	// Started gives what the address asked for.
	Started struct{ Only, Set, Pack, Lang string }
	// Updatable says that a newer version of the page is ready.
	Updatable struct{}
)

// NewModel is the page at its start, with an empty day.
func NewModel() Model {
	m := Model{}
	m.Day.Sheet.Set = day.DefaultSet
	m.Day = m.Day.check()
	return m
}

// update is the page's only way from one state to the next.
func update(m Model, msg any) Model {
	next := m.next(msg)
	if !finding(msg) || next.Convert.Chosen != m.Convert.Chosen || next.Convert.Drafting != m.Convert.Drafting {
		next.Turn++
	}
	return next
}

// finding tells whether a message concerns nothing but the food field and its
// list, unless it chooses from it.
func finding(msg any) bool {
	switch msg := msg.(type) {
	case Typed:
		return msg.Field == "food"
	case Key:
		return msg.Name != "Enter"
	case Left:
		return true
	}
	return false
}

func (m Model) next(msg any) Model {
	switch msg := msg.(type) {
	case Press:
		return m.press(msg)
	case Typed:
		return m.typed(msg)
	case Key:
		return m.key(msg)
	case Left:
		m.Convert.Open = false
	case Loaded:
		return m.loaded(msg)
	case Opened:
		return m.opened(msg)
	case Stored:
		m.Store = msg.Line
	case Started:
		return m.started(msg)
	case Updatable:
		m.Updatable = true
	}
	return m
}

func (m Model) focus(id string) Model {
	m.Focus = id
	m.Focused++
	return m
}

// press carries out a button. The names are those of data-do.
func (m Model) press(p Press) Model {
	switch p.Do {
	case "go": // a link inside the page
		return m.focus(p.Arg)
	case "evidence":
		m.Evidence = !m.Evidence
		return m
	case "rule": // what the rule of a working line says
		if i := slices.Index(m.Rules, p.Arg); i >= 0 {
			m.Rules = slices.Concat(m.Rules[:i], m.Rules[i+1:])
		} else {
			m.Rules = append(slices.Clip(m.Rules), p.Arg)
		}
		m.Day.Version++ // rules stand there too
		return m
	case "store-ok":
		m.Store = ""
		return m
	case "damage-ok":
		m.Damaged = nil
		return m
	}
	if next, ok := m.pressConvert(p); ok {
		return next
	}
	return m.pressDay(p)
}

func (m Model) typed(t Typed) Model {
	if next, ok := m.typedConvert(t); ok {
		return next
	}
	return m.typedDay(t)
}

func (m Model) started(s Started) Model {
	m.Loaded = true
	if s.Only == "convert" || s.Only == "day" {
		m.Only = s.Only
	}
	if s.Pack != "" {
		m.Class = readClass(s.Pack)
		if s.Set == "" {
			s.Set = m.Class.Pack.Set
		}
	}
	if s.Set != "" && m.Day.Sheet.Set == day.DefaultSet && !m.Day.Sheet.Demo {
		return m.useSet(s.Set)
	}
	return m
}
