//go:build e2e

package e2e

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"
)

// The page starts in a sub-path, says nothing on the console, asks no other host
// and breaks no rule of its policy.
func TestBoots(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, realSite)
		p := page(t, b, s.url)
		ready(t, p)
		if shown := eval[bool](t, p, `document.getElementById("loading").hidden`); !shown {
			t.Error("the progress strip is still there")
		}
		for _, url := range eval[[]string](t, p, `performance.getEntriesByType("resource").map((r) => r.name)`) {
			if !strings.HasPrefix(url, s.url) {
				t.Errorf("asked for %s", url)
			}
		}
		noProblems(t, p)
	})
}

// holdBack keeps the program back until the channel is closed.
func holdBack(s *server) chan bool {
	gate := make(chan bool)
	s.with(func(w http.ResponseWriter, r *http.Request) bool {
		if strings.Contains(r.URL.Path, "app.wasm") {
			<-gate
		}
		return false
	})
	return gate
}

// The program takes over from the static page, and all that is on screen stays
// where it is.
func TestNothingJumps(t *testing.T) {
	b := inChromium(t)
	s := serve(t, realSite)
	for _, screen := range screens {
		gate := holdBack(s)
		p := page(t, b, "about:blank").(*chromiumPage)
		must(t, p.Resize(screen.width, screen.height))
		open(t, p, s.at(screen.name, realSite))
		const places = `[...document.body.firstElementChild.querySelectorAll("*")]
			.map((e) => [e, e.getBoundingClientRect()]).filter(([e, r]) => r.width && r.height && r.top < innerHeight)
			.map(([e, r]) => e.localName + " " + [r.left, r.top, r.width, Math.min(r.bottom, innerHeight)].map((n) => n.toFixed(1)).join(" ") + " " + e.textContent.replace(/\s+/g, "").slice(0, 40))`
		before := eval[[]string](t, p, places)
		close(gate)
		ready(t, p)
		after := eval[[]string](t, p, places)
		if len(before) < 20 {
			t.Errorf("%s: only %d elements in view", screen.name, len(before))
		}
		for i := range max(len(before), len(after)) {
			if i >= len(before) || i >= len(after) || before[i] != after[i] {
				t.Errorf("%s: element %d was %q, and is %q", screen.name, i, before[min(i, len(before)-1)], after[min(i, len(after)-1)])
				break
			}
		}
		must(t, p.Close())
	}
}

// Whatever page of the site is open and whatever is pressed on it, no request
// leaves the site's own host.
func TestNoOtherHost(t *testing.T) {
	b := inChromium(t)
	s := serve(t, realSite)
	for _, name := range []string{"", "?embed#section=day", "embed.html", "host.html", "evidence.html"} {
		p := page(t, b, s.url+name).(*chromiumPage)
		if name == "" {
			ready(t, p)
			must(t, p.Type("#food", "beans"))
			for _, what := range []string{"sample", "evidence", "ways"} {
				must(t, p.Eval(`void document.querySelector('[data-do="`+what+`"]')?.click()`, nil))
				must(t, p.Eval(`new Promise((done) => setTimeout(done, 150))`, nil))
			}
		}
		must(t, p.Eval(`new Promise((done) => setTimeout(done, 500))`, nil))
		p.mu.Lock()
		if len(p.asked) == 0 {
			t.Errorf("%q: nothing was asked for, so nothing is tested", name)
		}
		for _, url := range p.asked {
			if !strings.HasPrefix(url, "http://"+s.addr+"/") && !strings.HasPrefix(url, "data:") && !strings.HasPrefix(url, "blob:") {
				t.Errorf("%q asks for %s", name, url)
			}
		}
		p.mu.Unlock()
		noProblems(t, p)
		must(t, p.Close())
	}
}

// What was typed, and where the cursor was, outlives the take-over.
func TestTypedBeforeTheProgram(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		gate := holdBack(s)
		p := page(t, b, s.url)
		must(t, p.Type("#food", "rai"))
		must(t, p.Press("ArrowLeft"))
		close(gate)
		ready(t, p)
		if got := eval[string](t, p, `document.activeElement.id + " " + document.activeElement.value + " " + document.activeElement.selectionStart`); got != "food rai 2" {
			t.Errorf("after the take-over: %q", got)
		}
		wait(t, p, `document.getElementById("echo").textContent === "typed: rai"`)
		must(t, p.Press("x"))
		wait(t, p, `document.getElementById("echo").textContent === "typed: raxi"`)
		noProblems(t, p)
	})
}

// A failed download is said in a sentence; the text stays; trying again works.
func TestFailureAndRetry(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		for i, broken := range []func(w http.ResponseWriter, r *http.Request) bool{
			func(w http.ResponseWriter, r *http.Request) bool { http.Error(w, "gone", 404); return true },
			func(w http.ResponseWriter, r *http.Request) bool {
				w.Write([]byte("<html>sign in here</html>"))
				return true
			},
			func(w http.ResponseWriter, r *http.Request) bool { // half of it
				w.Header().Set("Content-Length", "1000000")
				w.Write([]byte{0x1f, 0x8b, 8, 0})
				panic(http.ErrAbortHandler)
			},
		} {
			s.with(func(w http.ResponseWriter, r *http.Request) bool {
				return strings.Contains(r.URL.Path, "app.wasm") && broken(w, r)
			})
			p := page(t, b, s.at(fmt.Sprint("visit", i), probeSite)) // a first visit each
			wait(t, p, `document.querySelector("#loading[role=alert] p")?.textContent.includes("did not come through")`)
			if !eval[bool](t, p, `document.getElementById("worked").innerText.includes("raisins")`) {
				t.Error("the static text is gone")
			}
			s.with(nil)
			must(t, p.Click("#loading button"))
			ready(t, p)
			must(t, p.Close())
		}
	})
}

// A crash of the program is said, and the page can be loaded again.
func TestCrashIsSaid(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url)
		ready(t, p)
		must(t, p.Eval(`probe.crash()`, nil))
		wait(t, p, `document.querySelector("#loading[role=alert] p")?.textContent.includes("has stopped")`)
		p.Problems()
		must(t, p.Click("#loading button"))
		time.Sleep(300 * time.Millisecond)
		wait(t, p, `!document.querySelector("#loading[role=alert]") && document.documentElement.dataset.ready`)
	})
}

// The site also works from a folder on a disk, as a programme may hand it on: it
// answers, and says whether it keeps the day.
func TestFromADisk(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		dir, err := realSite()
		must(t, err)
		p := page(t, b, "file://"+dir+"/index.html")
		ready(t, p)
		must(t, p.Type("#food", "canned peaches"))
		wait(t, p, `document.querySelector("#food").getAttribute("aria-expanded") === "true"`)
		must(t, p.Press("Enter"))
		wait(t, p, `document.querySelector(".is-measuring #in-servings")`)
		must(t, p.Type("#in-servings", "5"))
		must(t, p.Type("#in-size", "1/2 cup (124 g)"))
		wait(t, p, `document.querySelector("#answer .number")?.textContent === "2½ cups"`)
		told, memory := eval[bool](t, p, `!document.getElementById("not-kept").hidden`), eval[bool](t, p, `cupsum.store.memory`)
		if told != memory {
			t.Errorf("kept in memory alone: %v, and the page says so: %v", memory, told)
		}
	})
}
