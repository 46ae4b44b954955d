//go:build e2e

package e2e

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// media emulates what the person has set: colours, forced colours, motion.
func (p *chromiumPage) media(features ...string) error {
	var list []*emulation.MediaFeature
	for _, f := range features {
		name, value, _ := strings.Cut(f, ":")
		list = append(list, &emulation.MediaFeature{Name: name, Value: value})
	}
	return p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: list})
		return err
	}))
}

// axe runs axe-core on the page and fails for each thing that it finds.
func axe(t *testing.T, p Page) {
	t.Helper()
	source, err := os.ReadFile("node_modules/axe-core/axe.min.js")
	if err != nil {
		t.Fatalf("%v: make e2e installs axe-core", err)
	}
	text, err := json.Marshal(string(source))
	must(t, err)
	// In the page's own world, but past its policy: the protocol may do that.
	must(t, p.Eval(`window.axe ? 0 : void (0, eval)(`+string(text)+`)`, nil))
	type finding struct {
		ID, Help string
		Nodes    []struct {
			HTML           string
			FailureSummary string
		}
	}
	// What is below the screen and has not been painted is looked at too.
	must(t, p.Eval(`(async () => {
		if (!window.allPainted) {
			window.allPainted = new CSSStyleSheet();
			allPainted.replaceSync("* { content-visibility: visible !important }");
			document.adoptedStyleSheets.push(allPainted);
		}
		await new Promise(requestAnimationFrame);
	})()`, nil))
	found := eval[[]finding](t, p, `axe.run(document, {resultTypes: ["violations"]}).then((r) => r.violations.map((v) => ({ID: v.id, Help: v.help, Nodes: v.nodes.map((n) => ({HTML: n.html.slice(0, 200), FailureSummary: n.failureSummary}))})))`)
	for _, f := range found {
		t.Errorf("%s: %s", f.ID, f.Help)
		for _, n := range f.Nodes[:min(3, len(f.Nodes))] {
			t.Errorf("    %s\n    %s", n.HTML, n.FailureSummary)
		}
	}
}

// modes are the ways in which people see a page.
var modes = []struct {
	name  string
	media []string
}{
	{"light", []string{"prefers-color-scheme:light"}},
	{"dark", []string{"prefers-color-scheme:dark"}},
	{"forced", []string{"forced-colors:active", "prefers-color-scheme:dark"}},
}

// axe-core finds nothing on any page, in any colours, on a phone or a desk.
func TestAxe(t *testing.T) {
	b := inChromium(t)
	s := serve(t, realSite)
	for _, name := range []string{"", "embed.html", "host.html", "evidence.html"} {
		p := page(t, b, s.url+name).(*chromiumPage)
		if name == "" {
			ready(t, p)
		}
		t.Run("page "+name, func(t *testing.T) { axeInAllModes(t, p) })
		must(t, p.Close())
	}
}

func axeInAllModes(t *testing.T, p *chromiumPage) {
	for _, width := range []int{1280, 320} {
		must(t, p.Resize(width, 800))
		for _, mode := range modes {
			must(t, p.media(mode.media...))
			t.Run(fmt.Sprint(mode.name, " ", width), func(t *testing.T) { axe(t, p) })
		}
	}
}

// views are what a person can have on screen, each reached from the one before.
var views = []struct {
	name string
	to   func(v visit)
}{
	{"start", func(v visit) {}},
	{"list of foods", func(v visit) {
		must(v, v.p.Type("#food", "bea"))
		v.sees("#food-0", "eans")
	}},
	{"no such food", func(v visit) {
		must(v, v.p.Type("#food", "zzqx"))
		v.sees("#convert", "Not in the list?")
	}},
	{"own food", func(v visit) { v.tap(`[data-do="own"]`) }},
	{"label", func(v visit) {
		v.find("black beans canned", "black beans")
		v.write("servings", "3 1/2")
		v.write("size", "1/2 cup (130 g)")
		v.sees("#answer", "of vegetables")
	}},
	{"label with faults", func(v visit) {
		v.write("servings", "many")
		v.sees(".measure", "many")
		v.write("servings", "3")
	}},
	{"hand", func(v visit) {
		v.pick("by", "hand")
		v.pick("hand", "fist")
	}},
	{"piece and weight", func(v visit) {
		v.find("banana", "banana")
		v.pick("by", "piece")
		v.sees("#answer", "of fruit")
		v.pick("by", "weight")
		v.write("amount", "200 g")
	}},
	{"added", func(v visit) { v.add() }},
	{"sample day", func(v visit) { v.tap(`[data-do="sample"]`) }},
	{"a line changed", func(v visit) { v.tap(`[data-do="edit"]`) }},
	{"a line removed", func(v visit) { v.tap(`[data-do="remove"]`) }},
	{"a person's target", func(v visit) {
		v.unfold("targets")
		v.write("age", "34")
	}},
	{"evidence", func(v visit) { v.tap(`[data-do="evidence"]`) }},
}

// axe-core finds nothing in any view, with all opened that can be opened, nothing
// sticks out of a narrow page (or one at four times its size), and all is large
// enough for a finger.
func TestAxeInViews(t *testing.T) {
	b := inChromium(t)
	s := serve(t, realSite)
	p := page(t, b, s.url).(*chromiumPage)
	ready(t, p)
	for _, view := range views {
		t.Run(view.name, func(t *testing.T) {
			v := visit{t, p, s.url}
			view.to(v)
			must(t, p.Eval(`(async () => {
				for (const e of document.querySelectorAll("details:not([open])")) e.open = true;
				for (const e of document.querySelectorAll('.opener[aria-expanded="false"]')) if (e.isConnected) e.click();
				await new Promise((done) => setTimeout(done, 200));
			})()`, nil))
			axeInAllModes(t, p)
			t.Run("narrow", func(t *testing.T) { narrow(t, p) }) // the last width was
		})
	}
}

// Nothing sticks out at 320 px, and what can be touched is 44 px at least.
func TestNarrow(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, realSite)
		for _, name := range []string{"", "embed.html", "host.html"} {
			p := page(t, b, s.url+name)
			must(t, p.Resize(320, 640))
			if name == "" {
				ready(t, p)
			}
			if eval[int](t, p, `innerWidth`) > 320 {
				t.Skip("this browser's window is never that narrow")
			}
			t.Run("page "+name, func(t *testing.T) { narrow(t, p) })
			must(t, p.Close())
		}
	})
}

// narrow fails for what sticks out of a page 320 px wide, and for what is too
// small for a finger.
func narrow(t *testing.T, p Page) {
	t.Helper()
	if wide := eval[int](t, p, `document.documentElement.scrollWidth`); wide > 320 {
		t.Errorf("%d px wide; what sticks out: %q", wide, eval[[]string](t, p,
			`[...document.querySelectorAll("body *")].filter((e) => e.getBoundingClientRect().right > 320.5).map((e) => e.outerHTML.slice(0, 120))`))
	}
	for _, e := range eval[[]string](t, p, `[...document.querySelectorAll("button, input, select, textarea, summary, a[class]")]
		.filter((e) => e.checkVisibility?.() ?? e.offsetParent)
		.filter((e) => { const r = (e.closest("label") ?? e).getBoundingClientRect(); return r.width > 0 && (r.height < 43.5 || r.width < 43.5); })
		.map((e) => e.outerHTML.slice(0, 120) + " " + Math.round(e.getBoundingClientRect().width) + "x" + Math.round(e.getBoundingClientRect().height))`) {
		t.Errorf("smaller than 44 px: %s", e)
	}
}

// A screen reader hears the answer once it stands, not each letter on the way to
// it, and each change of the day once: what was added from the element that gets
// the focus then, the others from the live region.
func TestHeardOnce(t *testing.T) {
	s := serve(t, realSite)
	v := visit{t, page(t, inChromium(t), s.url), s.url}
	ready(t, v.p)
	must(t, v.p.Eval(`void (window.heard = [], new MutationObserver(() => {
		const text = document.getElementById("live").textContent;
		if (text) heard.push(text);
	}).observe(document.getElementById("live"), {childList: true, characterData: true, subtree: true}))`, nil))
	for _, step := range []struct {
		do    func()
		hears []string
	}{
		{func() {
			v.find("black beans canned", "black beans")
			v.write("servings", "3 1/2")
			v.write("size", "1/2 cup (130 g)")
		}, []string{"1¾ cups of vegetables"}},
		{func() { v.pick("side", "protein") }, []string{"7 oz eq of protein foods"}},
		{func() {
			v.add()
			v.until(`document.activeElement.id === "added" && words(document.activeElement).startsWith("Added: black beans")`)
		}, nil},
		{func() { v.tap(`.item [data-do="remove"]`) }, []string{"Removed: black beans"}},
		{func() { v.tap(`[data-do="undo"]`) }, nil}, // the day has the focus, and says how much is on it
	} {
		step.do()
		time.Sleep(1400 * time.Millisecond) // longer than the page waits before it has an answer read out
		got := eval[[]string](t, v.p, `heard.splice(0)`)
		if len(got) != len(step.hears) {
			t.Fatalf("heard %q, want %q", got, step.hears)
		}
		for i, want := range step.hears {
			if !strings.Contains(got[i], want) {
				t.Errorf("heard %q, want %q in it", got[i], want)
			}
		}
	}
}
