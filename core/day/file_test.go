package day

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cupsum/core/guide"
	"cupsum/core/say"
)

func TestRoundTrip(t *testing.T) {
	s := Demo()
	s.Hands = map[string]string{"fist": "3/4 cup"}
	got, notes, err := Read(s.Write())
	if err != nil || len(notes) > 0 {
		t.Fatalf("%v, %v", notes, err)
	}
	if !bytes.Equal(got.Write(), s.Write()) {
		t.Errorf("got %s\nwant %s", got.Write(), s.Write())
	}
}

func TestDemoIsMarkedAndCounts(t *testing.T) {
	s := Demo()
	if !s.Demo {
		t.Error("the sample is not marked as one")
	}
	for _, it := range Check(s).Items {
		if it.Err != nil {
			t.Errorf("%s: %v", it.Portion.Food, it.Err)
		}
	}
}

// head is the start of a day file.
const head = `{"format": "cupsum-day", "version": 1, "set": "class", "portions": [`

var refusedTests = []struct {
	name, file, id string
}{
	{"empty", "", "day.not-json"},
	{"spaces", "  \n ", "day.not-json"},
	{"not text", "\xff\xfe\x00", "day.not-json"},
	{"not JSON", "my day: an apple", "day.not-json-at"},
	{"another JSON", `{"name": "x"}`, "day.not-a-day"},
	{"a list", `[1, 2]`, "day.field"},
	{"another format", `{"format": "recipe", "version": 1}`, "day.not-a-day"},
	{"no version", `{"format": "cupsum-day"}`, "day.version"},
	{"a later version", `{"format": "cupsum-day", "version": 2}`, "day.version"},
	{"a version in words", `{"format": "cupsum-day", "version": "1"}`, "day.version"},
	{"cut off in the middle", head + `{"id": "p1", "food": "app`, "day.cut-off"},
	{"cut off after a portion", head + `{"id": "p1"}`, "day.cut-off"},
	{"a number for a text", head + `{"id": 7}]}`, "day.field"},
	{"portions of another kind", `{"format": "cupsum-day", "version": 1, "portions": 3}`, "day.field"},
	{"50,000 entries", head + strings.Repeat(`{"id":"p"},`, 49_999) + `{"id":"p"}]}`, "day.too-many"},
	{"too many bytes", head + strings.Repeat(" ", MaxFile) + "]}", "day.too-large"},
}

func TestRefusedFiles(t *testing.T) {
	for _, tt := range refusedTests {
		t.Run(tt.name, func(t *testing.T) {
			s, _, err := Read([]byte(tt.file))
			var p *say.Problem
			if !errors.As(err, &p) || p.ID != tt.id {
				t.Fatalf("got %v, want %s", err, tt.id)
			}
			if len(s.Portions) != 0 {
				t.Error("a refused file gave portions")
			}
		})
	}
}

func TestMendedFiles(t *testing.T) {
	s, notes, err := Read([]byte(head + `{"id":"p2","food":"apple"},{"id":"p2","food":"pear"},{"food":"plum"},{"id":"p1","food":"fig"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if len(notes) != 1 || notes[0].ID != "day.ids-twice" {
		t.Errorf("notes are %v", notes)
	}
	seen := map[string]bool{}
	for _, p := range s.Portions {
		if p.ID == "" || seen[p.ID] {
			t.Errorf("id %q is empty or stands twice", p.ID)
		}
		seen[p.ID] = true
	}
	if s.Portions[0].ID != "p2" || s.Portions[3].ID != "p1" {
		t.Errorf("ids that were good have changed: %v", s.Portions)
	}
	_, notes, err = Read([]byte(head + `{"id":"p1","food":"apple","measure":{"by":"cup","amount":"` + strings.Repeat("9", 5000) + `"}}]}`))
	if err != nil || len(notes) != 1 || notes[0].ID != "day.texts-cut" {
		t.Errorf("a long text: %v, %v", notes, err)
	}
}

// A programme's own targets travel in the day file; spoiled ones leave the day
// with the class's.
func TestOwnTargets(t *testing.T) {
	set, ok := guide.SetByID("us-1800")
	if !ok {
		t.Fatal("no us-1800")
	}
	own := set.Own("tuesday-class", "Tuesday class", "agreed in class")
	s := Sheet{Set: own.ID, Own: &own}
	got, notes, err := Read(s.Write())
	if err != nil || len(notes) > 0 || got.Own == nil {
		t.Fatalf("%v, %v, %v", got.Own, notes, err)
	}
	if a, b := Check(s), Check(got); a.Set.ID != own.ID || b.Set.ID != own.ID {
		t.Errorf("checked against %s and %s", a.Set.ID, b.Set.ID)
	}
	spoiled := bytes.Replace(s.Write(), []byte(`"low"`), []byte(`"lwo"`), 1)
	got, notes, err = Read(spoiled)
	if err != nil || len(notes) != 1 || notes[0].ID != "day.own-set" || got.Own != nil {
		t.Errorf("spoiled targets: %v, %v, %v", got.Own, notes, err)
	}
	if r := Check(got); r.Set.ID != DefaultSet {
		t.Errorf("checked against %s, want %s", r.Set.ID, DefaultSet)
	}
}

// What is unknown in one portion is that portion's problem.
func TestUnknownFoodStaysInTheFile(t *testing.T) {
	s, _, err := Read([]byte(head + `{"id":"p1","food":"ambrosia","form":"fresh","measure":{"by":"cup","amount":"1"}}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if r := Check(s); len(r.Items) != 1 || r.Items[0].Err == nil {
		t.Errorf("items are %v", r.Items)
	}
}

// The hostile files of testdata are refused or read, and never panic.
func TestHostileFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/hostile/day-*")
	if err != nil || len(files) == 0 {
		t.Fatalf("no hostile files: %v", err)
	}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		s, _, err := Read(data)
		if err != nil {
			if _, ok := err.(*say.Problem); !ok {
				t.Errorf("%s: %v has no sentence", name, err)
			}
			continue
		}
		if r := Check(s); len(r.Items) != len(s.Portions) {
			t.Errorf("%s: %d items of %d portions", name, len(r.Items), len(s.Portions))
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(demo)
	for _, tt := range refusedTests {
		if len(tt.file) < 1000 {
			f.Add([]byte(tt.file))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, _, err := Read(data)
		if err != nil {
			if _, ok := err.(*say.Problem); !ok {
				t.Fatalf("%v has no sentence", err)
			}
			return
		}
		again, notes, err := Read(s.Write())
		if err != nil || len(notes) > 0 || !bytes.Equal(again.Write(), s.Write()) {
			t.Fatalf("what was read and written does not come back: %v, %v", notes, err)
		}
		Check(s)
	})
}
