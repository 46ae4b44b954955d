//go:build e2e

package e2e

import (
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"

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
	for _, name := range []string{"", "embed.html", "host.html"} {
		p := page(t, b, s.url+name).(*chromiumPage)
		if name == "" {
			ready(t, p)
		}
		for _, mode := range modes {
			for _, width := range []int{320, 1280} {
				must(t, p.Resize(width, 800))
				must(t, p.media(mode.media...))
				t.Run(strings.TrimSuffix("page "+name, " ")+" "+mode.name, func(t *testing.T) { axe(t, p) })
			}
		}
		must(t, p.Close())
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
			if wide := eval[int](t, p, `document.documentElement.scrollWidth`); wide > 320 {
				t.Errorf("%q is %d px wide", name, wide)
			}
			small := eval[[]string](t, p, `[...document.querySelectorAll("button, input, select, textarea, summary, a[class]")]
				.filter((e) => e.checkVisibility?.() ?? e.offsetParent)
				.filter((e) => { const r = (e.closest("label") ?? e).getBoundingClientRect(); return r.width > 0 && (r.height < 43.5 || r.width < 43.5); })
				.map((e) => e.outerHTML.slice(0, 120) + " " + Math.round(e.getBoundingClientRect().width) + "x" + Math.round(e.getBoundingClientRect().height))`)
			for _, e := range small {
				t.Errorf("%q: smaller than 44 px: %s", name, e)
			}
			must(t, p.Close())
		}
	})
}
