//go:build e2e

package e2e

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"testing"
	"time"
)

// Browser is one running browser with a profile of its own.
type Browser interface {
	NewPage() (Page, error) // a tab
	Close()
}

// Page is one tab.
type Page interface {
	Open(url string) error
	// Eval runs an expression, awaits it if it is a promise, and decodes its JSON
	// into out, unless that is nil.
	Eval(expression string, out any) error
	Click(css string) error      // a real click in the middle of the element
	Type(css, text string) error // focuses the element and types
	Press(keys ...string) error  // "Tab", "Shift+Tab", "Enter", "a" ...: one after the other
	Resize(width, height int) error
	Screenshot() ([]byte, error) // PNG of what is in view
	// Problems are errors on the console, uncaught exceptions and violations of
	// the content security policy since the last call; WebKit's driver tells none.
	Problems() []string
	Close() error
}

// engine is a kind of browser.
type engine struct {
	name  string
	needs []string // programs
	start func(profile string) (Browser, error)
}

var engines = []engine{
	{"chromium", []string{"chromium"}, startChromium},
	{"firefox", []string{"firefox-esr"}, startFirefox},
	{"webkit", []string{"WebKitWebDriver", "Xvfb"}, startWebKit},
}

// eachEngine runs a test in all engines that are here; in CI all must be. The
// variable ENGINE picks one.
func eachEngine(t *testing.T, test func(t *testing.T, b Browser)) {
	for _, e := range engines {
		t.Run(e.name, func(t *testing.T) {
			t.Parallel() // most of a test is waiting
			test(t, e.open(t))
		})
	}
}

// needed skips the test when the engine is not wanted or not here.
func (e engine) needed(t testing.TB) {
	t.Helper()
	if only := os.Getenv("ENGINE"); only != "" && only != e.name {
		t.Skip("ENGINE is " + only)
	}
	for _, program := range e.needs {
		if _, err := exec.LookPath(program); err != nil {
			if os.Getenv("CI") != "" || e.name == "chromium" {
				t.Fatalf("%s is not installed; make browsers does it on Debian", program)
			}
			t.Skipf("%s is not installed", program)
		}
	}
}

// open starts the engine with a fresh profile and ends it with the test.
func (e engine) open(t testing.TB) Browser {
	t.Helper()
	e.needed(t)
	b, err := e.start(newProfile(t))
	if err != nil {
		t.Fatalf("starting %s: %v", e.name, err)
	}
	t.Cleanup(b.Close)
	return b
}

// newProfile is an empty folder that goes with the test. Unlike t.TempDir it is
// no failure when a browser that is just ending still writes into it.
func newProfile(t testing.TB) string {
	t.Helper()
	profile, err := os.MkdirTemp("", "cupsum-e2e-")
	must(t, err)
	t.Cleanup(func() { os.RemoveAll(profile) })
	return profile
}

// inChromium runs a test in Chromium only, for what the others' drivers can't do.
func inChromium(t *testing.T) *chromium {
	t.Helper()
	return engines[0].open(t).(*chromium)
}

// page opens a tab at url.
func page(t testing.TB, b Browser, url string) Page {
	t.Helper()
	p, err := b.NewPage()
	if err != nil {
		t.Fatal(err)
	}
	open(t, p, url)
	return p
}

func open(t testing.TB, p Page, url string) {
	t.Helper()
	if err := p.Open(url); err != nil {
		t.Fatalf("open %s: %v", url, err)
	}
}

// ready waits until the program has taken over.
func ready(t testing.TB, p Page) {
	t.Helper()
	wait(t, p, `!!document.documentElement.dataset.ready`)
}

// eval evaluates an expression of type T.
func eval[T any](t testing.TB, p Page, expression string) T {
	t.Helper()
	var out T
	if err := p.Eval(expression, &out); err != nil {
		t.Fatalf("%s: %v", expression, err)
	}
	return out
}

// wait polls until the expression, or what it promises, is true, for at most 20 s.
func wait(t testing.TB, p Page, expression string) {
	t.Helper()
	var last error
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(40 * time.Millisecond) {
		var ok bool
		if last = p.Eval("(async () => Boolean(await ("+expression+")))()", &ok); last == nil && ok {
			return
		}
	}
	var seen string
	p.Eval(`document.body?.innerText.slice(0, 500)`, &seen)
	problems := p.Problems()
	t.Fatalf("never true: %s (%v)\nproblems: %.1000q\nthe page says: %s", expression, last, problems[:min(3, len(problems))], seen)
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// noProblems fails when the page has complained.
func noProblems(t testing.TB, p Page) {
	t.Helper()
	for _, problem := range p.Problems() {
		t.Errorf("the page complains: %s", problem)
	}
}

// asJSON wraps an expression so that its value comes back as text in JSON, the
// one thing that all three protocols carry alike.
func asJSON(expression string) string {
	return `(async () => JSON.stringify(await (` + expression + `)) ?? "null")()`
}

func fromJSON(text string, out any) error {
	if out == nil {
		return nil
	}
	if err := json.Unmarshal([]byte(text), out); err != nil {
		return fmt.Errorf("%w in %.200s", err, text)
	}
	return nil
}

// centre is the middle of an element in the view, scrolled there if need be.
func centre(p Page, css string) (x, y float64, err error) {
	var at *[2]float64
	err = p.Eval(fmt.Sprintf(`(() => {
		const e = document.querySelector(%q);
		if (!e) return null;
		e.scrollIntoView({block: "center", inline: "center", behavior: "instant"});
		const r = e.getBoundingClientRect();
		return [r.x + r.width / 2, r.y + r.height / 2];
	})()`, css), &at)
	if err == nil && at == nil {
		err = fmt.Errorf("no element %s", css)
	}
	if err != nil {
		return 0, 0, err
	}
	return at[0], at[1], nil
}

// focused moves the focus to an element, as a click or Tab would.
func focused(p Page, css string) error {
	var ok bool
	err := p.Eval(fmt.Sprintf(`(() => { const e = document.querySelector(%q); e?.focus(); return !!e && document.activeElement === e; })()`, css), &ok)
	if err == nil && !ok {
		err = fmt.Errorf("%s can't be focused", css)
	}
	return err
}
