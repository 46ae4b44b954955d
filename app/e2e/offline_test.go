//go:build e2e

package e2e

import (
	"net/http"
	"strings"
	"testing"
)

// kept waits until the worker has everything.
func kept(t testing.TB, p Page) {
	t.Helper()
	wait(t, p, `navigator.serviceWorker.getRegistration().then((r) => r?.active?.state === "activated")`)
}

const cacheNames = `caches.keys().then((names) => names.sort())`

// After one visit everything works in flight mode: the page with and without a
// query, its further pages, and the program.
func TestOffline(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url)
		ready(t, p)
		kept(t, p)
		s.stop()
		for _, address := range []string{"", "?a=1", "index.html", "?embed#section=day"} {
			open(t, p, "about:blank")
			open(t, p, s.url+address)
			ready(t, p)
		}
		open(t, p, s.url+"embed.html")
		wait(t, p, `document.getElementById("code").value.includes("data-cupsum")`)
		open(t, p, s.url+"host.html")
		wait(t, p, `document.querySelectorAll("iframe").length > 0`)
		wait(t, p, `document.querySelector("iframe").contentDocument?.documentElement.dataset.ready`)
		noProblems(t, p)
	})
}

// The page as an app of its own, off its host: it starts, and has what the page
// had kept.
func TestInstalled(t *testing.T) {
	b := inChromium(t)
	s := serve(t, probeSite)
	p := page(t, b, s.url)
	ready(t, p)
	kept(t, p)
	must(t, p.Eval(saveJS("a", "1"), nil))
	must(t, b.install(s.url))
	s.stop()
	p.Close()
	installed, err := b.launch(s.url)
	must(t, err)
	ready(t, installed)
	if !eval[bool](t, installed, `matchMedia("(display-mode: standalone)").matches`) {
		t.Error("that is a tab, not an app")
	}
	if got := eval[map[string]string](t, installed, `probe.docs()`); got["a"] != "1" {
		t.Errorf("documents: %v", got)
	}
	must(t, installed.Eval(saveJS("b", "2"), nil))
	noProblems(t, installed)
}

// One visit downloads no file twice, but for the icon, which browsers fetch by
// themselves.
func TestNothingIsFetchedTwice(t *testing.T) {
	b := inChromium(t)
	s := serve(t, probeSite)
	sent := map[string]int{}
	s.with(func(w http.ResponseWriter, r *http.Request) bool {
		if r.Header.Get("If-None-Match") == "" { // else it is answered with 304
			sent[r.URL.Path]++
		}
		return false
	})
	p := page(t, b, s.url)
	ready(t, p)
	kept(t, p)
	for path, n := range sent {
		if n > 1 && path != "/proj/icon.svg" {
			t.Errorf("%s was sent %d times", path, n)
		}
	}
	if sent["/proj/app.wasm.gz"] != 1 || sent["/proj/app.wasm.js"] != 0 {
		t.Errorf("sent: %v", sent)
	}
}

// A new version is fetched behind the page's back, waits, and takes over when
// the person says so; what was stored stays; the old cache goes, others stay.
func TestUpdate(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url)
		ready(t, p)
		kept(t, p)
		must(t, p.Eval(`caches.open("somebody else's")`, nil))
		must(t, p.Eval(`caches.open("cupsum /proj-two/ 1")`, nil))
		open(t, p, s.url)
		ready(t, p)
		if got := eval[string](t, p, saveJS("day", `{"n":1}`)); got != "store.kept" {
			t.Fatalf("saved: %s", got)
		}
		before := eval[[]string](t, p, cacheNames)

		s.at("proj", probeNext)
		open(t, p, s.url)
		ready(t, p)
		wait(t, p, `probe.updates === 1`)
		if !eval[bool](t, p, `fetch("./").then((r) => r.text()).then((text) => !text.includes("second version"))`) {
			t.Error("the new version took over by itself")
		}
		must(t, p.Eval(saveJS("day", `{"n":2}`), nil))
		must(t, p.Eval(`void (window.old = true), probe.apply()`, nil))
		wait(t, p, `!window.old && document.documentElement.dataset.ready`)
		if !eval[bool](t, p, `fetch("./").then((r) => r.text()).then((text) => text.includes("second version"))`) {
			t.Error("the new version was not taken")
		}
		wait(t, p, `probe.docs().day === '{"n":2}'`)
		after := eval[[]string](t, p, cacheNames)
		if len(after) != 4 || len(before) != 4 || strings.Join(before, "\n") == strings.Join(after, "\n") {
			t.Errorf("caches before %q, after %q", before, after)
		}
		for _, name := range []string{"somebody else's", "cupsum /proj-two/ 1", "cupsum-rows /proj/"} {
			if !strings.Contains(strings.Join(after, "\n"), name) {
				t.Errorf("the cache %q is gone", name)
			}
		}
		s.stop()
		open(t, p, s.url)
		ready(t, p)
		noProblems(t, p)
	})
}

// Half a download, or a file of another version, is never kept; the old version
// goes on, and a later visit mends it.
func TestBrokenUpdate(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url)
		ready(t, p)
		kept(t, p)
		before := eval[[]string](t, p, cacheNames)
		s.at("proj", probeNext)
		for _, broken := range []func(w http.ResponseWriter, r *http.Request) bool{
			func(w http.ResponseWriter, r *http.Request) bool { // cut off, and the host says all is well
				if r.URL.Path != "/proj/" {
					return false
				}
				w.Write([]byte("<!doctype html><p>half a pa"))
				return true
			},
			func(w http.ResponseWriter, r *http.Request) bool {
				if r.URL.Path != "/proj/" {
					return false
				}
				panic(http.ErrAbortHandler)
			},
		} {
			s.with(broken)
			s.requests()
			open(t, p, s.url)
			ready(t, p)
			wait(t, p, `navigator.serviceWorker.getRegistration().then((r) => r.update()).then(() => true, () => true)`)
			wait(t, p, `navigator.serviceWorker.getRegistration().then((r) => !r.installing)`)
			if got := eval[int](t, p, `probe.updates`); got != 0 {
				t.Error("a broken version is offered")
			}
			if after := eval[[]string](t, p, cacheNames); strings.Join(after, "\n") != strings.Join(before, "\n") {
				t.Errorf("caches %q, before %q", after, before)
			}
		}
		s.with(nil)
		open(t, p, s.url)
		ready(t, p)
		wait(t, p, `probe.updates === 1`)
	})
}

// saveJS saves one document through the probe and resolves to the outcome's ID.
func saveJS(id, body string) string {
	return `new Promise((done) => probe.save("` + id + `", '` + body + `', done))`
}
