//go:build e2e

package e2e

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
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
		must(t, p.Eval(deleteCopies, nil))
		must(t, p.Eval(deleteDatabase, nil))
		wait(t, p, `probe.cleared === 1`)
		open(t, p, s.url)
		ready(t, p)
		wait(t, p, `probe.docs().a === "1" && probe.docs().b === "2"`)
	})
}

const (
	deleteDatabase = `new Promise((done, fail) => {
		const r = indexedDB.deleteDatabase("cupsum " + new URL("./", location).pathname);
		r.onsuccess = () => done(true);
		r.onerror = fail;
	})`
	copies       = `"cupsum-rows " + new URL("./", location).pathname`
	deleteCopies = `caches.delete(` + copies + `)`
)

// The database is gone while no page was open: all is there again from the
// second copies, and nothing that had been removed.
func TestStorageFromCopies(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url)
		ready(t, p)
		for _, row := range []string{"a1", "b2", "c3", "a4"} {
			must(t, p.Eval(saveJS(row[:1], row[1:]), nil))
		}
		must(t, p.Eval(saveJS("c", "null"), nil))
		noProblems(t, p)
		for range 2 { // the copies outlive the first loss
			open(t, p, s.url+"icon.svg")
			must(t, p.Eval(deleteDatabase, nil))
			open(t, p, s.url)
			ready(t, p)
			if got := eval[string](t, p, `JSON.stringify(probe.docs(), ["a", "b", "c"])`); got != `{"a":"4","b":"2"}` {
				t.Errorf("documents: %s", got)
			}
		}
	})
}

// Rows that have no copy, say of a page that had no cache storage, get one with
// the next save, and copies that are of no row go.
func TestStorageCopiesAreLevelled(t *testing.T) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, probeSite)
		p := page(t, b, s.url)
		ready(t, p)
		must(t, p.Eval(saveJS("a", "1"), nil))
		must(t, p.Eval(deleteCopies, nil))
		must(t, p.Eval(`caches.open(`+copies+`).then((c) => c.put("row?old", new Response("x")))`, nil))
		open(t, p, s.url)
		ready(t, p)
		must(t, p.Eval(saveJS("b", "2"), nil))
		wait(t, p, `caches.open(`+copies+`).then((c) => c.keys()).then((all) =>
			all.map((r) => decodeURIComponent(new URL(r.url).search).split("|")[1] ?? "epoch").sort().join() === "a,b,epoch")`)
	})
}

// Chromium throws the database away, and there are no copies: the page says so.
func TestStorageLost(t *testing.T) {
	engines[0].needed(t)
	s, profile := serve(t, realSite), newProfile(t)
	start := func() (*chromium, Page, string) {
		b, err := startChromium(profile)
		must(t, err)
		p := page(t, b, s.url)
		ready(t, p)
		return b.(*chromium), p, eval[string](t, p, `[...document.querySelectorAll(".notice")].map((n) => n.innerText).join()`)
	}
	for range 2 {
		b, p, notice := start()
		if notice != "" {
			t.Errorf("nothing is lost yet, and the page says %q", notice)
		}
		for range 2 { // behind the second one the copies are level and stay as they are
			must(t, p.Eval(`new Promise((done) => cupsum.store.write(["epoch", "x"], [], done))`, nil))
		}
		wait(t, p, deleteCopies)
		b.kill()
		tear(t, profile)
	}
	b, p, notice := start()
	defer b.Close()
	if eval[int](t, p, `cupsum.store.rows.length`) > 0 {
		t.Skip("this Chromium goes on behind a torn record and still reads it")
	}
	if !strings.Contains(notice, "threw away what it had kept here") {
		t.Errorf("the page says %q", notice)
	}
}

// A person who blocks cookies and site data has a page that works, says that
// nothing is kept, and complains of nothing.
func TestStorageBlocked(t *testing.T) {
	for i, settings := range []struct{ name, text string }{
		{"Default/Preferences", `{"profile": {"default_content_setting_values": {"cookies": 2}}}`},
		{"prefs.js", `user_pref("network.cookie.cookieBehavior", 2);`},
	} {
		e := engines[i]
		t.Run(e.name, func(t *testing.T) {
			e.needed(t)
			profile := newProfile(t)
			file := filepath.Join(profile, settings.name)
			must(t, os.MkdirAll(filepath.Dir(file), 0o755))
			must(t, os.WriteFile(file, []byte(settings.text), 0o644))
			b, err := e.start(profile)
			must(t, err)
			defer b.Close()
			p := page(t, b, serve(t, probeSite).url)
			ready(t, p)
			if got := eval[string](t, p, saveJS("a", `1`)); got != "store.memory" {
				t.Errorf("outcome %s, want store.memory", got)
			}
			wait(t, p, `!document.getElementById("not-kept").hidden`)
			noProblems(t, p)
		})
	}
}

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
// than 200 edits, each time as if it had been in the middle of a write: what had
// been confirmed is there at each start. WebKit's driver keeps nothing from one
// start to the next.
func TestBrowserKilled(t *testing.T) {
	t.Run("chromium", func(t *testing.T) { killed(t, engines[0], 220, tear) })
	t.Run("firefox", func(t *testing.T) { killed(t, engines[1], 60, func(*testing.T, string) {}) })
}

// killed kills an engine until a number of edits is reached, and after each kill
// does something more to the profile.
func killed(t *testing.T, e engine, edits int, then func(t *testing.T, profile string)) {
	e.needed(t)
	s := serve(t, probeSite)
	profile := newProfile(t)
	rnd := rand.New(rand.NewPCG(4, 2))
	confirmed := map[string]int{} // by document, the number of the last confirmed edit
	last := map[string]int{}      // the last edit that was tried
	edit := 0
	for round := 0; edit < edits || round < edits/27; round++ {
		b, err := e.start(profile)
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
		b.(interface{ kill() }).kill()
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
		then(t, profile)
	}
}

// tear leaves at the end of Chromium's log what a kill in the middle of a write
// leaves there: the head of a record without its body. Chromium takes that for
// the end, goes on behind it, and at the start after the next one finds the log
// damaged and throws everything away (LevelDB's issue 1287).
func tear(t *testing.T, profile string) {
	t.Helper()
	logs, err := filepath.Glob(filepath.Join(profile, "Default/IndexedDB/*.leveldb/*.log"))
	must(t, err)
	if len(logs) == 0 {
		t.Fatal("no log of Chromium's database")
	}
	for _, name := range logs {
		f, err := os.OpenFile(name, os.O_APPEND|os.O_WRONLY, 0)
		must(t, err)
		const sum, length, full = "\x00\x00\x00\x00", "\x64\x00", "\x01"
		_, err = f.WriteString(sum + length + full)
		must(t, err)
		must(t, f.Close())
	}
}
