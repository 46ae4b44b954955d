package journal

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func put(id, body string) []Entry { return []Entry{{ID: id, Body: []byte(body)}} }

func drop(id string) []Entry { return []Entry{{ID: id}} }

// docs are a journal's documents as a map.
func docs(j *Journal) map[string]string {
	m := map[string]string{}
	for _, d := range j.Docs() {
		m[d.ID] = string(d.Body)
	}
	return m
}

// opened is a page that has just been opened on the area.
func opened(f *Fake, writer string) *Journal {
	j := Open(f, writer)
	j.Read()
	return j
}

func save(t *testing.T, j *Journal, e []Entry) Outcome {
	t.Helper()
	o := Outcome(-1)
	if err := j.Save(e, func(got Outcome) { o = got }); err != nil {
		t.Fatal(err)
	}
	return o
}

func same(t *testing.T, j *Journal, want map[string]string) {
	t.Helper()
	if got := docs(j); !maps.Equal(got, want) {
		t.Errorf("documents %v, want %v", got, want)
	}
}

func TestSaveAndReload(t *testing.T) {
	f := NewFake()
	j := opened(f, "a")
	if o := save(t, j, put("x", `{"n":1}`)); o != Kept {
		t.Fatalf("outcome %v", o)
	}
	save(t, j, put("y", `[1, 2]`))
	save(t, j, put("x", `{"n":2}`))
	save(t, j, drop("y"))
	same(t, j, map[string]string{"x": `{"n":2}`})
	same(t, opened(f, "b"), map[string]string{"x": `{"n":2}`})
	if n := len(f.Rows); n != 3 { // x, the deletion of y, the epoch
		t.Errorf("%d rows are left, want 3: %v", n, f.Rows)
	}
}

func TestRefused(t *testing.T) {
	for _, tt := range []struct {
		e    Entry
		want error
	}{
		{Entry{"", []byte(`1`)}, ErrID},
		{Entry{"a|b", []byte(`1`)}, ErrID},
		{Entry{"a\nb", []byte(`1`)}, ErrID},
		{Entry{"a\xffb", []byte(`1`)}, ErrID},
		{Entry{strings.Repeat("a", 121), []byte(`1`)}, ErrID},
		{Entry{"a", []byte(`{`)}, ErrBody},
		{Entry{"a", []byte("\"\xff\"")}, ErrBody},
	} {
		j := opened(NewFake(), "a")
		if err := j.Save([]Entry{{ID: "fine", Body: []byte(`1`)}, tt.e}, nil); err != tt.want {
			t.Errorf("%q: error %v, want %v", tt.e, err, tt.want)
		}
		same(t, j, map[string]string{})
	}
}

// Two pages that don't know of each other's edits until they read.
func TestTwoTabs(t *testing.T) {
	f := NewFake()
	a, b := opened(f, "a"), opened(f, "b")
	save(t, a, put("1", `"a"`))
	save(t, b, put("2", `"b"`))
	save(t, a, put("both", `"a"`))
	save(t, b, put("both", `"b"`)) // the same clock: the higher writer wins, in each page
	a.Read()
	b.Read()
	want := map[string]string{"1": `"a"`, "2": `"b"`, "both": `"b"`}
	same(t, a, want)
	same(t, b, want)
	save(t, a, put("both", `"a again"`)) // a has seen b's, so this is later
	if r := b.Read(); !slices.Equal(r.Changed, []string{"both"}) {
		t.Errorf("changed %q", r.Changed)
	}
	want["both"] = `"a again"`
	same(t, b, want)
	same(t, opened(f, "c"), want)
}

// An edit that another page makes while this one replaces what it has seen is
// never removed.
func TestReplacingSparesTheUnseen(t *testing.T) {
	f := NewFake()
	a, b := opened(f, "a"), opened(f, "b")
	save(t, a, put("x", `1`))
	b.Read()
	save(t, a, put("x", `2`)) // b has not seen this
	save(t, b, put("x", `3`)) // and removes only the row of 1
	c := opened(f, "c")
	same(t, c, map[string]string{"x": `3`}) // same clock, b > a
	save(t, c, drop("x"))
	same(t, opened(f, "d"), map[string]string{})
}

func TestFullThenRoom(t *testing.T) {
	f := NewFake()
	j := opened(f, "a")
	save(t, j, put("x", `1`))
	f.Room = f.size() + 10
	if o := save(t, j, put("y", `"something longer"`)); o != Full {
		t.Fatalf("outcome %v, want Full", o)
	}
	same(t, j, map[string]string{"x": `1`, "y": `"something longer"`})
	same(t, opened(f, "b"), map[string]string{"x": `1`})
	if j.Unsaved() != 1 {
		t.Errorf("%d unsaved, want 1", j.Unsaved())
	}
	f.Room = 0
	if o := save(t, j, put("z", `3`)); o != Kept {
		t.Fatalf("outcome %v, want Kept", o)
	}
	same(t, opened(f, "c"), map[string]string{"x": `1`, "y": `"something longer"`, "z": `3`})
	if j.Unsaved() != 0 {
		t.Errorf("%d unsaved, want 0", j.Unsaved())
	}
}

func TestCleared(t *testing.T) {
	f := NewFake()
	j := opened(f, "a")
	save(t, j, put("x", `1`))
	save(t, j, put("y", `2`))
	clear(f.Rows)
	r := j.Read()
	if !r.Cleared || j.Unsaved() != 2 {
		t.Fatalf("report %+v, %d unsaved", r, j.Unsaved())
	}
	same(t, j, map[string]string{"x": `1`, "y": `2`})
	save(t, j, nil)
	same(t, opened(f, "b"), map[string]string{"x": `1`, "y": `2`})
	if r := j.Read(); r.Cleared {
		t.Error("said to be cleared twice")
	}
}

func TestDamage(t *testing.T) {
	f := NewFake()
	j := opened(f, "a")
	for i := range 4 {
		save(t, j, put(fmt.Sprint(i), `{"portion":"beans"}`))
	}
	for key, value := range f.Rows {
		switch {
		case strings.Contains(key, "|0|"):
			f.Rows[key] = value[:len(value)-5] // torn
		case strings.Contains(key, "|1|"):
			f.Rows[key] = strings.Replace(value, "beans", "steak", 1) // altered
		case strings.Contains(key, "|2|"):
			delete(f.Rows, key)
			f.Rows[strings.Replace(key, "|2|", "|7|", 1)] = value // under a wrong key
		}
	}
	f.Rows["rubbish"] = "what?"
	f.Rows["2|x|of a later format"] = "kept as it is"
	k := Open(f, "b")
	r := k.Read()
	if len(r.Damaged) != 4 || r.Newer != 1 {
		t.Fatalf("report %+v", r)
	}
	same(t, k, map[string]string{"3": `{"portion":"beans"}`})
	save(t, k, put("3", `{}`))
	if len(Open(f, "c").Read().Damaged) != 4 {
		t.Error("saving removed damaged rows")
	}
	k.DropDamaged(func(Outcome) {})
	r = Open(f, "d").Read()
	if len(r.Damaged) != 0 || r.Newer != 1 {
		t.Errorf("after dropping: %+v", r)
	}
}

func TestManyDeletionsAreForgotten(t *testing.T) {
	f := NewFake()
	j, sleeper := opened(f, "a"), opened(f, "b")
	save(t, j, put("keep", `1`))
	for i := range 1000 {
		id := fmt.Sprint("p", i)
		save(t, j, put(id, `1`))
		if i == 0 {
			sleeper.Read()
		}
		save(t, j, drop(id))
	}
	if len(f.Rows) > maxTombs+5 {
		t.Errorf("%d rows after 1000 deletions", len(f.Rows))
	}
	same(t, opened(f, "c"), map[string]string{"keep": `1`})
	// A page that slept since the first of them doesn't bring it back.
	sleeper.Read()
	same(t, sleeper, map[string]string{"keep": `1`})
}

// Answers that come late, and in between other saves and readings.
func TestLateAnswers(t *testing.T) {
	f := NewFake()
	f.Late = true
	j := opened(f, "a")
	outcomes := []Outcome{}
	note := func(o Outcome) { outcomes = append(outcomes, o) }
	for i := range 3 {
		if err := j.Save(put("x", fmt.Sprint(i)), note); err != nil {
			t.Fatal(err)
		}
	}
	f.Answer = Failed
	if err := j.Save(put("y", `1`), note); err != nil {
		t.Fatal(err)
	}
	if len(outcomes) != 0 || j.Unsaved() != 2 {
		t.Fatalf("outcomes %v, %d unsaved before any answer", outcomes, j.Unsaved())
	}
	f.Settle()
	if !slices.Equal(outcomes, []Outcome{Kept, Kept, Kept, Failed}) || j.Unsaved() != 1 {
		t.Fatalf("outcomes %v, %d unsaved", outcomes, j.Unsaved())
	}
	f.Answer = Kept
	j.Save(put("z", `1`), nil)
	f.Settle()
	same(t, opened(f, "b"), map[string]string{"x": `2`, "y": `1`, "z": `1`})
}

func TestNewIDsSortAsMade(t *testing.T) {
	f := NewFake()
	a, b := opened(f, "zz"), opened(f, "aa")
	var ids []string
	for range 50 {
		id := a.NewID("p")
		save(t, a, put(id, `1`))
		b.Read()
		id2 := b.NewID("p")
		save(t, b, put(id2, `1`))
		a.Read()
		ids = append(ids, id, id2)
	}
	if !slices.IsSorted(ids) || len(slices.Compact(slices.Clone(ids))) != 100 {
		t.Errorf("not in order or not unique: %q", ids)
	}
}

// killed plays pages that edit, are killed between any two single writes, and
// are opened again: what was confirmed is always there, and what was not is
// there whole or not at all.
func TestKilledAtAnyPoint(t *testing.T) {
	for seed := range uint64(60) {
		rnd := rand.New(rand.NewPCG(seed, 7))
		f := NewFake()
		pages := []*Journal{opened(f, "p0"), opened(f, "p1"), opened(f, "p2")}
		confirmed := map[string]string{}         // the last confirmed body, "" deleted
		possible := map[string]map[string]bool{} // bodies that may be there instead
		kills := 0
		for edit := range 250 {
			at := rnd.IntN(len(pages))
			j := pages[at]
			// A page sees what others did before it edits; that is what the
			// browser's messages are for. (TestTwoTabs has pages that don't.)
			j.Read()
			id, body := fmt.Sprint("d", rnd.IntN(12)), fmt.Sprintf(`"edit %d"`, edit)
			if rnd.IntN(5) == 0 {
				body = ""
			}
			dies := rnd.IntN(3) == 0
			if dies {
				f.Steps = rnd.IntN(5)
			}
			told := false
			if err := j.Save([]Entry{{ID: id, Body: []byte(body)}}, func(o Outcome) { told = o == Kept }); err != nil {
				t.Fatal(err)
			}
			if told {
				confirmed[id] = body
				delete(possible, id)
			} else {
				if possible[id] == nil {
					possible[id] = map[string]bool{}
				}
				possible[id][body] = true
			}
			if dies {
				kills++
				f.Steps = -1
				pages[at] = opened(f, fmt.Sprintf("p%d-%d", at, edit))
			}
			now := docs(opened(f, "reader"))
			for id, want := range confirmed {
				if got := now[id]; got != want && !possible[id][got] {
					t.Fatalf("seed %d, edit %d: %s is %q, confirmed was %q", seed, edit, id, got, want)
				}
			}
			for id, got := range now {
				if got != confirmed[id] && !possible[id][got] {
					t.Fatalf("seed %d, edit %d: %s is %q, which nobody wrote", seed, edit, id, got)
				}
			}
		}
		if kills < 40 {
			t.Errorf("seed %d: only %d kills", seed, kills)
		}
		if n := len(f.Rows); n > 12+1+3*12 {
			t.Errorf("seed %d: %d rows pile up", seed, n)
		}
	}
}

// Pages that write at the same time without seeing each other: every document
// that one page alone edited is as it left it, and all pages end up alike.
func TestPagesConverge(t *testing.T) {
	for seed := range uint64(40) {
		rnd := rand.New(rand.NewPCG(seed, 11))
		f := NewFake()
		pages := []*Journal{opened(f, "a"), opened(f, "b"), opened(f, "c")}
		own := map[string]string{}
		for edit := range 200 {
			at := rnd.IntN(3)
			if rnd.IntN(4) == 0 {
				pages[at].Read()
			}
			id := fmt.Sprint("shared", rnd.IntN(4))
			if rnd.IntN(2) == 0 {
				id = fmt.Sprintf("own%d-%d", at, rnd.IntN(6))
				own[id] = fmt.Sprint(edit)
			}
			save(t, pages[at], put(id, fmt.Sprint(edit)))
		}
		for _, p := range pages {
			p.Read()
		}
		want := docs(opened(f, "reader"))
		for id, body := range own {
			if want[id] != body {
				t.Errorf("seed %d: %s is %q, its only writer left %q", seed, id, want[id], body)
			}
		}
		for i, p := range pages {
			if got := docs(p); !maps.Equal(got, want) {
				t.Errorf("seed %d: page %d has %v, a new page %v", seed, i, got, want)
			}
		}
	}
}

// FuzzRead feeds rows that nobody of us wrote: reading never panics, never
// accepts a row without its checksum, and saving still works afterwards.
func FuzzRead(f *testing.F) {
	j := opened(NewFake(), "a")
	j.Save(put("x", `{"a":1}`), nil)
	for k, v := range j.area.(*Fake).Rows {
		f.Add(k, v)
	}
	f.Add("1|x|000001|a", "00 {}")
	f.Add("1|x|zzzzzzzzzz|a", "")
	f.Add("2|x", "y")
	f.Add("epoch", "")
	f.Add("1|\xff|000001|w", "\x00")
	f.Fuzz(func(t *testing.T, key, value string) {
		area := NewFake()
		area.Rows[key] = value
		j := opened(area, "me")
		for _, d := range j.Docs() {
			if sum := checksum(key, string(d.Body)); !strings.HasPrefix(value, sum) {
				t.Errorf("took %q under %q", value, key)
			}
		}
		if o := save(t, j, put("mine", `1`)); o != Kept {
			t.Errorf("outcome %v", o)
		}
		if got := docs(opened(area, "you"))["mine"]; got != `1` {
			t.Errorf("mine is %q", got)
		}
	})
}

func ExampleJournal() {
	area := NewFake() // a browser's store
	page := Open(area, "page1")
	page.Read()
	page.Save([]Entry{{ID: "lunch", Body: []byte(`{"food":"rice"}`)}}, func(o Outcome) {
		fmt.Println(o.ID())
	})
	again := Open(area, "page2") // the page is loaded again
	again.Read()
	for _, d := range again.Docs() {
		fmt.Printf("%s %s\n", d.ID, d.Body)
	}
	// Output:
	// store.kept
	// lunch {"food":"rice"}
}
