package ui

import (
	"strings"
	"testing"

	"cupsum/core/pack"
)

func classModel(p pack.Pack) Model {
	return update(NewModel(), started("section=convert&pack="+p.Text()))
}

// A class's link brings its words, foods and target, and a food of it is one
// tap away.
func TestClassLink(t *testing.T) {
	m := classModel(pack.Pack{Title: "Tuesday class", Note: "Bring a label.", Set: "us-2000", Foods: []string{"apple"},
		Links: []pack.Link{{Text: "Our library", URL: "https://library.example.org/"}}})
	if m.Class.Pack.Title != "Tuesday class" || m.Day.Sheet.Set != "us-2000" || m.Only != "convert" {
		t.Errorf("class %+v, set %s, only %s", m.Class.Pack, m.Day.Sheet.Set, m.Only)
	}
	text := html(m)
	for _, want := range []string{"Tuesday class", "Bring a label.", `data-do="food"`, `data-arg="apple"`, `rel="noopener noreferrer"`, "leaves this page"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %s", want, text)
		}
	}
	m = update(m, Press{Do: "food", Arg: "apple"})
	if m.Convert.Food.ID != "apple" {
		t.Errorf("a tap chose %q", m.Convert.Food.ID)
	}
}

// Markup in a class's link is text.
func TestClassLinkIsText(t *testing.T) {
	m := classModel(pack.Pack{Title: "<img src=x onerror=alert(1)>", Note: "<script>alert(1)</script>"})
	text := html(m)
	if strings.Contains(text, "<img") || strings.Contains(text, "<script") {
		t.Errorf("markup came through: %s", text)
	}
	if !strings.Contains(text, "&lt;script&gt;") {
		t.Errorf("the words are gone: %s", text)
	}
}

// A broken link says so and leaves the page as it is.
func TestBrokenClassLink(t *testing.T) {
	m := update(NewModel(), started("pack=%%%"))
	if len(m.Class.Notes) != 1 || m.Class.Pack.Title != "" || m.Day.Sheet.Set != NewModel().Day.Sheet.Set {
		t.Errorf("got %+v", m.Class)
	}
	if text := html(m); !strings.Contains(text, "class link is broken") {
		t.Errorf("got %s", text)
	}
}
