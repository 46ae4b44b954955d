package ui

import (
	"runtime/debug"
	"strings"
	"time"

	"cupsum/app/browser"
	"cupsum/app/lang"
	"cupsum/app/report"
	"cupsum/core/day"
	"cupsum/core/food"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// settle is how long the answer must stand before it is read out, so that a
// screen reader hears a result once and not each key press on the way to it.
const settle = 900 * time.Millisecond

// idle is how long after the start the index of foods is made, unless a search
// has needed it before.
const idle = 300 * time.Millisecond

// collect is how much the heap may grow before garbage is collected, in
// percent. The page lives in about 5 MB, so collecting seldom costs little
// memory, and each collection costs a slow phone a key press.
const collect = 400

// New makes the root component. It mounts at every address of the page.
func New() app.Composer {
	r := &root{m: NewModel(), words: lang.English(), live: &live{}}
	r.live.onKey = r.onKey
	return r
}

// root is the only component that touches the browser. Everything that happens
// goes through send: update, then what the difference asks for.
type root struct {
	app.Compo
	m      Model
	words  *lang.Words
	live   *live
	ctx    app.Context // the component's own, which outlives every element
	store  *browser.Store
	spoken string          // what was read out last
	moved  time.Time       // when the answer may have changed last
	hushed bool            // a read-out waits for the answer to settle
	bad    []browser.Entry // deletions of what was stored and can't be read, for when the person lets it go
}

func (r *root) view() *view { return &view{r.m, r.words, r.live} }

// OnMount reads what the browser has stored and what the address asks for.
func (r *root) OnMount(ctx app.Context) {
	r.ctx = ctx
	debug.SetGCPercent(collect)
	r.store = browser.OpenStore()
	_, found := r.store.Load()
	r.load(found)
	r.store.OnOtherTab(func(found browser.Report) {
		r.ctx.Dispatch(func(app.Context) { r.load(found) })
	})
	s := started(browser.Fragment())
	r.words = lang.For(s.Lang)
	r.send(s)
	browser.OnUpdateReady(func() {
		r.ctx.Dispatch(func(app.Context) { r.send(Updatable{}) })
	})
	ctx.After(idle, func(ctx app.Context) {
		ctx.PreventUpdate()
		food.Warm()
	})
}

func (r *root) load(found browser.Report) {
	k, bad := restore(r.store.Docs())
	r.bad = nil
	var damaged []string
	for _, d := range bad {
		r.bad = append(r.bad, browser.Entry{ID: d.ID})
		damaged = append(damaged, d.ID+" "+string(d.Body))
	}
	for _, d := range found.Damaged {
		damaged = append(damaged, d.Key+" "+d.Value)
	}
	line := ""
	if found.Cleared {
		line = browser.Cleared.ID()
	}
	r.m = update(r.m, Loaded{k.sheet, k.person, damaged}) // not send: it is stored already
	if line != "" {
		r.m = update(r.m, Stored{line})
	}
}

// started reads the address's fragment: section=day&set=us-2000.
func started(fragment string) Started {
	var s Started
	for part := range strings.SplitSeq(fragment, "&") {
		name, value, _ := strings.Cut(part, "=")
		switch name {
		case "section":
			s.Only = value
		case "set":
			s.Set = value
		case "pack":
			s.Pack = value
		case "lang":
			s.Lang = value
		}
	}
	return s
}

// send takes a message in and does what the new state asks of the browser.
func (r *root) send(msg any) {
	before := r.m
	r.m = update(before, msg)
	r.save(before.keeps())
	if r.m.Focused != before.Focused {
		id := r.m.Focus
		r.ctx.Defer(func(app.Context) { browser.Focus(id) })
	}
	if _, typing := msg.(Typed); !typing {
		r.ctx.Defer(func(app.Context) { r.showTexts() })
	}
	r.speak(before)
}

// save stores what changed.
func (r *root) save(before kept) {
	if r.store == nil {
		return
	}
	r.keep(changes(before, r.m.keeps()))
}

// keep stores documents, and shows how that ended when it did not end well.
func (r *root) keep(entries []browser.Entry) {
	if len(entries) == 0 {
		return
	}
	if err := r.store.Save(entries, r.stored); err != nil {
		r.m = update(r.m, Stored{browser.Failed.ID()})
	}
}

// stored shows how a save ended.
func (r *root) stored(o browser.Outcome) {
	r.ctx.Dispatch(func(ctx app.Context) {
		line := ""
		if o != browser.Kept && o != browser.InMemory { // the page's shell tells of InMemory
			line = o.ID()
		}
		if line == r.m.Store { // nothing to draw: so it is after nearly every edit
			ctx.PreventUpdate()
			return
		}
		r.m = update(r.m, Stored{line})
	})
}

// showTexts makes the text fields show what the model has. go-app drops an
// empty value, so a field that was emptied, or that stands where another one
// stood, would go on showing its old text.
func (r *root) showTexts() {
	m := r.m.Convert.Portion.Measure
	for _, f := range [...][2]string{
		{"amount", m.Amount}, {"servings", m.Servings}, {"size", m.Size}, {"net", m.Net}, {"eaten", m.Eaten},
		{"own-hand", r.m.Day.Sheet.Hands[m.Hand]}, {"own-name", r.m.Convert.Draft.Name}, {"title", r.m.Day.Sheet.Title},
		{"sodium", r.m.Convert.Sodium}, {"sugars", r.m.Convert.Sugars}, {"age", r.m.Person.Age}, {"paste", r.m.Convert.Pasted.Text},
	} {
		browser.SetValue(inputID(f[0]), f[1])
	}
	browser.SetValue("food", r.m.Convert.Query)
}

// speak has changes read out: at once what happened to the day, and the answer
// once it has settled.
func (r *root) speak(before Model) {
	if u := r.m.Day.Undo; u != nil && u != before.Day.Undo {
		browser.Announce(r.words.Line(u.What))
		return
	}
	if r.m.Turn == before.Turn {
		return
	}
	r.moved = time.Now()
	if !r.hushed {
		r.hushed = true
		r.ctx.After(settle, r.settled)
	}
}

// settled reads the answer out, unless it changed since: then it waits on.
func (r *root) settled(ctx app.Context) {
	ctx.PreventUpdate()
	if left := settle - time.Since(r.moved); left > 0 {
		r.ctx.After(left, r.settled)
		return
	}
	r.hushed = false
	if now := r.view().spoken(); now != r.spoken {
		r.spoken = now
		browser.Announce(now)
	}
}

// Render draws the page. The parts that change seldom are components.
func (r *root) Render() app.UI {
	page := r.view().page(
		&dayPart{Version: r.m.Day.Version, Loaded: r.m.Loaded, root: r},
		&tablesPart{Loaded: r.m.Loaded, root: r},
		&evidencePart{Open: r.m.Evidence, root: r},
	)
	return page.(app.HTMLElem).
		On("click", r.onClick).
		On("input", r.onInput).
		On("mousedown", r.onMouseDown).
		On("focusout", r.onFocusOut)
}

type dayPart struct {
	app.Compo
	Version int
	Loaded  bool
	root    *root
}

func (p *dayPart) Render() app.UI { return p.root.view().dayView() }

type tablesPart struct {
	app.Compo
	Loaded bool
	root   *root
}

func (p *tablesPart) Render() app.UI { return p.root.view().tablesView() }

type evidencePart struct {
	app.Compo
	Open bool
	root *root
}

func (p *evidencePart) Render() app.UI { return p.root.view().evidence() }

func (r *root) newID() string { return r.store.NewID(portionKind) }

// onClick makes a message from what was pressed.
func (r *root) onClick(ctx app.Context, e app.Event) {
	target := e.Get("target").Call("closest", "[data-do]")
	if !target.Truthy() {
		ctx.PreventUpdate()
		return
	}
	do, arg := target.Get("dataset").Get("do").String(), ""
	if holder := target.Call("closest", "[data-arg]"); holder.Truthy() { // itself, or the line that it is in
		arg = holder.Get("dataset").Get("arg").String()
	}
	if !r.outside(do) {
		r.send(Press{Do: do, Arg: arg, NewID: r.newID})
	}
}

// outside carries out the buttons that concern the browser and not the model.
func (r *root) outside(do string) bool {
	switch do {
	case "update":
		browser.ApplyUpdate()
	case "print":
		browser.Print()
	case "export":
		sheet := r.m.Day.Sheet
		browser.Download("cupsum-"+browser.Today()+".json", "application/json", string(sheet.Write()))
	case "csv":
		browser.Download("cupsum-"+browser.Today()+".csv", "text/csv", report.CSV(r.words, r.m.Day.Report))
	case "open":
		browser.PickFile(".json,application/json", day.MaxFile, func(f browser.File) {
			r.ctx.Dispatch(func(app.Context) { r.send(opened(f, r.newID)) })
		})
	case "damage-save":
		browser.Download("cupsum-kept-aside.txt", "text/plain", strings.Join(r.m.Damaged, "\n")+"\n")
	case "damage-ok":
		r.store.DropDamaged(r.stored)
		r.keep(r.bad)
		r.bad = nil
		return false
	default:
		return false
	}
	return true
}

// opened makes the message of a file that was chosen.
func opened(f browser.File, newID func() string) Opened {
	switch {
	case f.TooLong:
		return Opened{Problem: say.New("day.too-large", day.MaxFile>>20)}
	case f.Failed:
		return Opened{Problem: say.New("files.unread", f.Name)}
	}
	return Opened{Text: f.Text, NewID: newID}
}

// onInput makes a message from what was typed or picked.
func (r *root) onInput(ctx app.Context, e app.Event) {
	target := e.Get("target")
	holder := target.Call("closest", "[data-in]") // itself, or the group of radio buttons that it is in
	if !holder.Truthy() {
		ctx.PreventUpdate()
		return
	}
	kind := target.Get("type").String()
	if kind == "radio" && !target.Get("checked").Bool() {
		return
	}
	text := target.Get("value").String()
	if text == noValue && (kind == "radio" || kind == "select-one") {
		text = ""
	}
	r.send(Typed{holder.Get("dataset").Get("in").String(), text})
}

// onKey takes the keys that move in the list of foods.
func (r *root) onKey(ctx app.Context, e app.Event) {
	name := e.Get("key")
	if !name.Truthy() {
		ctx.PreventUpdate()
		return
	}
	switch key := name.String(); key {
	case "ArrowDown", "ArrowUp", "Enter", "Escape":
		if key != "Escape" || r.m.Convert.Open {
			e.PreventDefault()
		}
		r.send(Key{key, r.newID})
	default:
		ctx.PreventUpdate()
	}
}

// onMouseDown keeps the focus in the food field while a food is picked from
// its list; else the list would close under the finger.
func (r *root) onMouseDown(ctx app.Context, e app.Event) {
	ctx.PreventUpdate()
	if e.Get("target").Call("closest", "[role=option]").Truthy() {
		e.PreventDefault()
	}
}

func (r *root) onFocusOut(ctx app.Context, e app.Event) {
	if !r.m.Convert.Open || e.Get("target").Get("id").String() != "food" {
		ctx.PreventUpdate()
		return
	}
	r.send(Left{})
}
