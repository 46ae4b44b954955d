//go:build e2e

package e2e

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"cupsum/app/site"
)

// host is a page on another origin with the given body, as an embedder has it,
// under a strict content security policy that names our site in the lines that
// the documentation names. It returns the page's address.
func host(t *testing.T, s *server, body string) string {
	t.Helper()
	page := `<!doctype html><meta charset="utf-8"><title>host</title><h1>Another site</h1>` + body
	other := &server{t: t, addr: "127.0.0.1:0", sites: map[string]http.Handler{}}
	other.with(func(w http.ResponseWriter, r *http.Request) bool {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Header().Set("Content-Security-Policy", fmt.Sprintf("default-src 'none'; script-src http://%s; frame-src http://%s", s.addr, s.addr))
		fmt.Fprint(w, page)
		return true
	})
	other.start()
	t.Cleanup(other.stop)
	return "http://" + other.addr + "/"
}

// lines are what embed.html has people paste.
func lines(s *server, attributes string) string {
	return fmt.Sprintf(`<div data-cupsum%s><a href="%s">Open the calculator</a></div><script async src="%sembed.js"></script>`, attributes, s.url, s.url)
}

// Two calculators on another site's page: in frames, each with its options, as
// high as its content, near the view only, with no global name made.
func TestEmbed(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, host(t, s, lines(s, ` data-section="day" data-lang="en"`)+
			lines(s, ` data-set="dga2020-2000" data-pack="a&quot;&lt;b&gt; c"`)+
			`<p>`+strings.Repeat("<br>", 400)+`</p>`+lines(s, ` data-section="far"`)))
		wait(t, p, `document.querySelectorAll("iframe").length === 2`)
		got := eval[[]string](t, p, `[...document.querySelectorAll("iframe")].map((f) => f.getAttribute("src"))`)
		want := []string{s.url + "?embed#section=day&lang=en", s.url + "?embed#set=dga2020-2000&pack=a%22%3Cb%3E+c"}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("frames %q, want %q", got, want)
		}
		// The height follows the content, which is far from the 40rem at first.
		wait(t, p, `[...document.querySelectorAll("iframe")].every((f) => f.style.height.endsWith("px"))`)
		if got := eval[[]string](t, p, `[...document.querySelectorAll("iframe")].map((f) => f.title)`); got[0] == "" {
			t.Error("a frame without a title")
		}
		must(t, p.Eval(`scrollTo(0, document.body.scrollHeight)`, nil))
		wait(t, p, `document.querySelectorAll("iframe").length === 3`)
		names := eval[[]string](t, p, `(() => {
			const clean = document.createElement("iframe");
			document.body.append(clean);
			const known = new Set(Object.getOwnPropertyNames(clean.contentWindow));
			clean.remove();
			return Object.getOwnPropertyNames(window).filter((n) => !known.has(n) && !/^\d+$/.test(n) && !/^(__|cdc_|\$)/.test(n));
		})()`)
		if len(names) > 1 {
			t.Errorf("global names: %q", names)
		}
	})
}

// Only the frame itself, from its own origin, and only a sane height is heard.
func TestEmbedMessages(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, host(t, s, lines(s, "")))
		wait(t, p, `document.querySelector("iframe")?.style.height.endsWith("px")`)
		for _, message := range []string{
			`{cupsum: 1, kind: "height", height: 77}`, // from this window, not from the frame
			`"text"`, `null`, `{cupsum: 2, kind: "height", height: 77}`,
		} {
			must(t, p.Eval(`void postMessage(`+message+`, "*")`, nil))
		}
		must(t, p.Eval(`new Promise((done) => setTimeout(done, 200))`, nil))
		if height := eval[string](t, p, `document.querySelector("iframe").style.height`); height == "77px" {
			t.Error("a message from another window was taken")
		}
	})
}

// In a frame that is sandboxed without allow-same-origin, where storage throws
// and nothing may be fetched, the program still runs, says that nothing is kept,
// and links to the full page.
func TestSandboxedFrame(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		if strings.HasSuffix(t.Name(), "webkit") {
			// WebKit needs to be told the origin: see site.Options.
			s.at("proj", func() (string, error) {
				return buildSite(site.Options{Program: probe, Static: probeStatic(), Origin: "http://" + s.addr})
			})
		}
		// The same sandbox, put on the page itself, so that a test can look inside.
		s.with(func(w http.ResponseWriter, r *http.Request) bool {
			if r.URL.Path == "/proj/" {
				w.Header().Set("Content-Security-Policy", "sandbox allow-scripts allow-popups")
			}
			return false
		})
		p := page(t, b, s.url+"?embed")
		ready(t, p)
		if !eval[bool](t, p, `probe.memory && origin === "null"`) {
			t.Error("storage is there; the sandbox is not")
		}
		if got := eval[string](t, p, saveJS("a", `1`)); got != "store.memory" {
			t.Errorf("outcome %s, want store.memory", got)
		}
		wait(t, p, `!document.getElementById("not-kept").hidden`)
		if got := eval[string](t, p, `document.querySelector("#not-kept a").href`); got != s.url {
			t.Errorf("the link leads to %s", got)
		}
		noProblems(t, p)
	})
}

// A page that embeds without scripts shows the link.
func TestEmbedWithoutScripts(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.hostPage("plain.html", `<!doctype html><meta http-equiv="Content-Security-Policy" content="script-src 'none'">`+lines(s, "")))
		if got := eval[string](t, p, `document.querySelector("[data-cupsum] a").href`); got != s.url {
			t.Errorf("the link leads to %s", got)
		}
	})
}

// embed.html makes the lines from what a person chooses, and what they choose is
// text, never markup.
func TestSnippet(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url+"embed.html")
		wait(t, p, `document.getElementById("code").value.includes("embed.js")`)
		must(t, p.Type("#pack", `x"><script>`))
		got := eval[string](t, p, `document.getElementById("code").value`)
		want := `<div data-cupsum data-section="convert" data-pack="x&quot;&gt;&lt;script&gt;"><a href="` + s.url +
			`#section=convert&amp;pack=x%22%3E%3Cscript%3E">How many cups is that? Open the calculator</a></div>` + "\n" +
			`<script async src="` + s.url + `embed.js"></script>`
		if got != want {
			t.Errorf("lines:\n%s\nwant:\n%s", got, want)
		}
		if got := eval[string](t, p, `document.getElementById("csp").innerText`); !strings.Contains(got, "frame-src http://"+s.addr) {
			t.Errorf("policy lines %q", got)
		}
		noProblems(t, p)
	})
}
