package ui

import (
	"runtime"
	"runtime/debug"
	"strings"
	"time"

	"cupsum/app/browser"
	"cupsum/app/lang"
	"cupsum/app/report"
	"cupsum/core/day"
	"cupsum/core/food"
	"cupsum/core/portion"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// settle is how long the answer must stand before it is read out, so that a
// screen reader hears a result once and not each key press on the way to it.
const settle = 900 * time.Millisecond

// idle is how long nobody may have pressed anything before the page makes ahead
// what a press will need: the index of the foods and the lines of their list,
// hidden, with some food or other; then what each of the samples shows, with a
// breath between them for a press that comes.
const (
	idle    = 300 * time.Millisecond
	breath  = 30 * time.Millisecond
	anyFood = "a"
)

// Garbage is collected in the first pause after a number of presses: a collection
// holds up a slow phone for as long as two presses take. Who never pauses has it
// when the heap has grown by grown percent; the page lives in about 5 MB.
const (
	grown   = 400
	presses = 25
	pause   = 120 * time.Millisecond
)

// Run shows the page in the browser and does not return. go-app's own way to
// run draws 8 ms after an event, so as to draw once for a burst of them; its
// engine for tests draws after each. The page hears one event for one press
// (browser.Listen), and a slow phone has no 8 ms to give away.
func Run() {
	engine := app.NewTestEngine()
	if err := engine.Load(newRoot()); err != nil {
		panic(err)
	}
	for {
		engine.ConsumeNext()
	}
}

func newRoot() *root {
	return &root{m: NewModel(), words: lang.English(), live: &live{}}
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
	sent   int             // messages so far
	clean  int             // messages when garbage was collected last
	bad    []browser.Entry // deletions of what was stored and can't be read, for when the person lets it go
}

func (r *root) view() *view { return &view{r.m, r.words, r.live} }

// OnMount reads what the browser has stored and what the address asks for.
func (r *root) OnMount(ctx app.Context) {
	r.ctx = ctx
	debug.SetGCPercent(grown)
	r.store = browser.OpenStore()
	_, found := r.store.Load()
	r.load(found)
	if browser.StorageIsLost() {
		r.m = update(r.m, Stored{browser.Lost.ID()})
	}
	r.store.OnOtherTab(func(found browser.Report) {
		r.ctx.Dispatch(func(app.Context) { r.load(found) })
	})
	s := started(browser.Fragment())
	r.words = lang.For(s.Lang)
	r.send(s)
	browser.OnUpdateReady(func() {
		r.ctx.Dispatch(func(app.Context) { r.send(Updatable{}) })
	})
	browser.Listen(func(kind, a, b string) {
		r.ctx.Dispatch(func(app.Context) { r.heard(kind, a, b) })
	})
	r.prepare(0, idle)
}

// prepare makes something ahead after a time, step by step.
func (r *root) prepare(step int, wait time.Duration) {
	r.inPause(wait, idle, func(app.Context) {
		if step == 0 {
			r.live.hits = food.Search(anyFood, maxHits)
		} else {
			r.live.make(&view{sample(r.m, step), r.words, r.live})
		}
		if step < len(samples) {
			r.prepare(step+1, breath)
		}
	})
}

// inPause calls f when nobody has pressed anything for a time, or else for the
// time again.
func (r *root) inPause(wait, again time.Duration, f func(app.Context)) {
	sent := r.sent
	r.after(wait, func(ctx app.Context) {
		if r.sent != sent {
			ctx.PreventUpdate()
			r.inPause(again, again, f)
			return
		}
		f(ctx)
	})
}

// after calls f when a time has passed. go-app's own After would hold up Run.
func (r *root) after(d time.Duration, f func(app.Context)) {
	time.AfterFunc(d, func() { r.ctx.Dispatch(f) })
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
	if r.sent++; r.sent == r.clean+presses {
		r.inPause(pause, pause, r.collect)
	}
	r.m = update(before, msg)
	r.save(before.keeps())
	r.later(before, msg)
	if r.m.Focused != before.Focused {
		id := r.m.Focus
		r.ctx.Defer(func(app.Context) { browser.Focus(id) })
	}
	if _, typing := msg.(Typed); !typing {
		r.ctx.Defer(func(app.Context) { r.showTexts() })
	}
	r.speak(before)
}

// later puts off, for one frame, what stands behind the answer, the answer itself
// where it is the first to what is measured, the day while something is added to
// it from elsewhere, and its totals while its lines change.
func (r *root) later(before Model, msg any) {
	now, was := &r.m.Convert, &before.Convert
	answered := now.Chosen && now.Err == nil && r.m.Turn != before.Turn
	moved := r.m.Day.Version != before.Day.Version
	first := !was.Chosen || was.Err != nil || was.Portion.Food != now.Portion.Food || was.Editing != now.Editing
	var w waits
	typed := false
	switch msg := msg.(type) {
	case Typed:
		typed, w.late = true, msg.Field != "food" && (answered || moved)
	case Key:
		w.late = answered
	case Press:
		switch msg.Do {
		case "food", "edit":
			w.late = answered
		case "add":
			w.late, w.added = true, true
		case "remove", "undo", "undo-ok":
			w.late = true
		}
	}
	// Who goes on before the next frame has not seen a first answer yet.
	w.fresh = w.late && (r.live.fresh || answered && first)
	w.chosen = w.fresh && !typed
	w.totals = w.late && moved && !w.added
	r.live.waits = w
	if r.live.late {
		browser.AfterFrame(func() {
			r.ctx.Dispatch(func(ctx app.Context) {
				if !r.live.late {
					ctx.PreventUpdate() // something else has drawn it
				}
				r.live.waits = waits{}
			})
		})
	}
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
	fields := [...][2]string{
		{"amount", m.Amount}, {"servings", m.Servings}, {"size", m.Size}, {"net", m.Net}, {"eaten", m.Eaten},
		{"own-hand", r.m.Day.Sheet.Hands[m.Hand]}, {"own-name", r.m.Convert.Draft.Name}, {"title", r.m.Day.Sheet.Title},
		{"sodium", r.m.Convert.Sodium}, {"sugars", r.m.Convert.Sugars}, {"age", r.m.Person.Age}, {"paste", r.m.Convert.Pasted.Text},
	}
	pairs := []string{"food", r.m.Convert.Query}
	for _, f := range fields {
		pairs = append(pairs, inputID(f[0]), f[1])
	}
	browser.SetValues(pairs...)
}

// speak has changes read out: at once what happened to the day, unless the focus
// goes to where it says so, and the answer once it has settled.
func (r *root) speak(before Model) {
	if u := r.m.Day.Undo; u != nil && u != before.Day.Undo {
		if r.m.Focused == before.Focused || r.m.Focus != "added" {
			browser.Announce(r.words.Line(u.What))
		}
		return
	}
	if r.m.Turn == before.Turn {
		return
	}
	r.moved = time.Now()
	if !r.hushed {
		r.hushed = true
		r.after(settle, r.settled)
	}
}

// collect collects garbage.
func (r *root) collect(ctx app.Context) {
	ctx.PreventUpdate()
	r.clean = r.sent
	runtime.GC()
}

// settled reads the answer out, unless it changed since: then it waits on.
func (r *root) settled(ctx app.Context) {
	ctx.PreventUpdate()
	if left := settle - time.Since(r.moved); left > 0 {
		r.after(left, r.settled)
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
	if !r.live.added {
		r.live.day = r.m.Day.Version
	}
	page := r.view().page(
		&dayPart{Version: r.live.day, Late: r.live.totals, Loaded: r.m.Loaded, root: r},
		&tablesPart{Loaded: r.m.Loaded, root: r},
		&evidencePart{Open: r.m.Evidence, root: r},
	)
	if r.live.ahead != nil {
		r.ctx.Defer(func(app.Context) { r.live.ahead = nil })
	}
	return page
}

// samples are what is measured while the page makes ahead: a food that counts in
// two groups, in each kind of way, then one of many forms.
var samples = [...][]any{
	{Press{Do: "food", Arg: "black-beans/canned"}, Typed{"by", string(portion.ByHand)}},
	{Typed{"by", string(portion.ByCup)}},
	{Typed{"by", string(portion.ByLabel)}, Typed{"servings", "5"}, Typed{"size", "1/2 cup (130 g)"}, Typed{"liquid", string(portion.Drained)}, Typed{"eatenBy", "package"}},
	{Press{Do: "food", Arg: "peach/canned-juice"}, Typed{"servings", "5"}, Typed{"size", "1/2 cup (124 g)"}},
}

// sample is the model with the first n samples played in it.
func sample(m Model, n int) Model {
	for _, messages := range samples[:n] {
		for _, msg := range messages {
			m = update(m, msg)
		}
	}
	return m
}

type dayPart struct {
	app.Compo
	Version int
	Late    bool
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

// heard makes a message from what a person did; see browser.Listen.
func (r *root) heard(kind, a, b string) {
	switch kind {
	case "press":
		if !r.outside(a) {
			r.send(Press{Do: a, Arg: b, NewID: r.newID})
		}
	case "type":
		r.send(Typed{a, b})
	case "key":
		r.send(Key{a, r.newID})
	case "leave":
		r.send(Left{})
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
