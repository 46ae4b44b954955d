//go:build e2e

package e2e

import (
	"fmt"
	"math/rand/v2"
	"os"
	"testing"
	"time"
)

// Two tabs: each sees what the other does, and nothing is lost when both edit at
// the same moment.
func TestTwoTabs(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		one, two := page(t, b, s.url), page(t, b, s.url)
		ready(t, one)
		ready(t, two)
		must(t, one.Eval(saveJS("a", `1`), nil))
		wait(t, two, `probe.docs().a === "1"`)
		const many = `Promise.all([...Array(40).keys()].map((i) => new Promise((done) => probe.save("%s" + i, String(i), done)))).then((all) => all.every((o) => o === "store.kept"))`
		done := make(chan error)
		for _, tab := range []struct {
			p    Page
			name string
		}{{one, "one"}, {two, "two"}} {
			go func() { done <- tab.p.Eval(fmt.Sprintf(many, tab.name), nil) }()
		}
		must(t, <-done)
		must(t, <-done)
		for _, p := range []Page{one, two} {
			wait(t, p, `Object.keys(probe.docs()).length === 81`)
		}
		open(t, one, s.url)
		ready(t, one)
		if n := eval[int](t, one, `Object.keys(probe.docs()).length`); n != 81 {
			t.Errorf("after loading again: %d documents, want 81", n)
		}
		noProblems(t, one)
		noProblems(t, two)
	})
}

// The browser's storage is emptied under the page: the page is told and saves
// what it holds again.
func TestStorageCleared(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url)
		ready(t, p)
		must(t, p.Eval(saveJS("a", `1`), nil))
		must(t, p.Eval(saveJS("b", `2`), nil))
		must(t, p.Eval(deleteDatabase, nil))
		wait(t, p, `probe.cleared === 1`)
		open(t, p, s.url)
		ready(t, p)
		wait(t, p, `probe.docs().a === "1" && probe.docs().b === "2"`)
	})
}

const deleteDatabase = `new Promise((done, fail) => {
	const r = indexedDB.deleteDatabase("cupsum " + location.pathname);
	r.onsuccess = () => done(true);
	r.onerror = fail;
})`

// A damaged row is set aside and reported; the others are read.
func TestStorageDamaged(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url)
		ready(t, p)
		for _, id := range []string{"a", "b", "c"} {
			must(t, p.Eval(saveJS(id, `{"portion":"beans"}`), nil))
		}
		must(t, p.Eval(`new Promise((done) => {
			indexedDB.open("cupsum " + location.pathname).onsuccess = (e) => {
				const work = e.target.result.transaction("rows", "readwrite"), table = work.objectStore("rows");
				table.getAllKeys().onsuccess = (e) => {
					const key = e.target.result.find((k) => k.includes("|b|"));
					table.put("torn in the midd", key);
					table.put({not: "even text"}, "rubbish");
				};
				work.oncomplete = () => { work.db.close(); done(true); };
			};
		})`, nil))
		open(t, p, s.url)
		ready(t, p)
		if got := eval[string](t, p, `Object.keys(probe.docs()).sort().join() + " " + probe.damaged()`); got != "a,c 2" {
			t.Errorf("documents and damaged rows: %q", got)
		}
		must(t, p.Eval(`new Promise((done) => probe.dropDamaged(done))`, nil))
		open(t, p, s.url)
		ready(t, p)
		if got := eval[string](t, p, `Object.keys(probe.docs()).sort().join() + " " + probe.damaged()`); got != "a,c 0" {
			t.Errorf("after dropping: %q", got)
		}
	})
}

// No room: said, held in the page, and stored once there is room.
func TestStorageFull(t *testing.T) {
	b := inChromium(t)
	s := serve(t, probeSite)
	p := page(t, b, s.url).(*chromiumPage)
	ready(t, p)
	must(t, p.quota("http://"+s.addr, 1_000_000))
	must(t, p.Eval(saveJS("a", `1`), nil))
	big := `new Promise((done) => probe.save("big", JSON.stringify(Array.from({length: 600000}, () => Math.random().toString(36).slice(2, 7).padEnd(5, "x")).join("")), done))` // browsers compress
	if got := eval[string](t, p, big); got != "store.full" {
		t.Fatalf("outcome %s, want store.full", got)
	}
	if !eval[bool](t, p, `probe.docs().a === "1" && probe.docs().big.length > 2999999`) {
		t.Error("the page lost something")
	}
	must(t, p.quota("http://"+s.addr, 0))
	if got := eval[string](t, p, saveJS("c", `3`)); got != "store.kept" {
		t.Fatalf("outcome %s, want store.kept", got)
	}
	open(t, p, s.url)
	ready(t, p)
	wait(t, p, `probe.docs().a === "1" && probe.docs().big.length > 2999999 && probe.docs().c === "3"`)
}

// The browser is killed (SIGKILL to all of it) at random moments during more
// than 200 edits: what had been confirmed is there each time.
func TestBrowserKilled(t *testing.T) {
	if only := os.Getenv("ENGINE"); only != "" && only != "chromium" {
		t.Skip("ENGINE is " + only)
	}
	s := serve(t, probeSite)
	profile, err := os.MkdirTemp("", "cupsum-kill-")
	must(t, err)
	defer os.RemoveAll(profile)
	rnd := rand.New(rand.NewPCG(4, 2))
	confirmed := map[string]int{} // by document, the number of the last confirmed edit
	last := map[string]int{}      // the last edit that was tried
	edit := 0
	for round := 0; edit < 220 || round < 8; round++ {
		b, err := startChromium(profile)
		must(t, err)
		p := page(t, b, s.url)
		ready(t, p)
		docs := eval[map[string]string](t, p, `probe.docs()`)
		for id, n := range confirmed {
			var got int
			fmt.Sscan(docs[id], &got)
			if got < n || got > last[id] {
				t.Fatalf("round %d: %s is edit %d, confirmed was %d, the last tried %d", round, id, got, n, last[id])
			}
		}
		// The page edits by itself, one after the other, and tells us of each
		// confirmation by asking for an address, so that we know what it knew.
		told := make(chan int, 1000)
		s.hear(told)
		must(t, p.Eval(fmt.Sprintf(`void (async () => {
			for (let n = %d; ; n++) {
				const id = "d" + n %% 7;
				const outcome = await new Promise((done) => probe.save(id, String(n), done));
				if (outcome === "store.kept") await fetch("confirmed?" + n, {method: "POST"}).catch(() => {});
			}
		})()`, edit+1), nil))
		time.Sleep(time.Duration(150+rnd.IntN(500)) * time.Millisecond)
		kill(b.(*chromium))
		s.hear(nil)
		close(told)
		first := edit
		for n := range told {
			edit = max(edit, n)
			confirmed[fmt.Sprint("d", n%7)] = n
		}
		// Up to two more may have been tried without our hearing of it.
		for n := first + 1; n <= edit+2; n++ {
			last[fmt.Sprint("d", n%7)] = n
		}
		edit += 2
		t.Logf("round %d: killed after edit %d", round, edit)
	}
}
