package food

import (
	"encoding/csv"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/rule"
)

// table reads CSV files by column name.
func table(t testing.TB, pattern string) []map[string]string {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no file matches %s", pattern)
	}
	var rows []map[string]string
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		recs, err := csv.NewReader(f).ReadAll()
		f.Close()
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, rec := range recs[1:] {
			row := map[string]string{}
			for i, name := range recs[0] {
				row[name] = rec[i]
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// same tells whether n is the decimal divided by over; an empty one is 0.
func same(n amount.Num, decimal string, over int64) bool {
	want := new(big.Rat)
	if decimal != "" {
		if _, ok := want.SetString(decimal); !ok {
			return false
		}
	}
	want.Quo(want, big.NewRat(over, 1))
	got, ok := new(big.Rat).SetString(n.String())
	return ok && got.Cmp(want) == 0
}

// thirds puts back the thirds that tables print with three decimals.
func thirds(decimal string) string {
	whole, part, _ := strings.Cut(decimal, ".")
	var n int
	switch fmt.Sscan(whole, &n); part {
	case "333":
		return fmt.Sprintf("%d/3", 3*n+1)
	case "667":
		return fmt.Sprintf("%d/3", 3*n+2)
	}
	return decimal
}

func or(a, b string) string {
	if a == "" {
		return b
	}
	return a
}

// TestViews reads every row of the tables and holds the catalogue's views
// against it, figure by figure.
func TestViews(t *testing.T) {
	foods := table(t, "data/foods/*.csv")
	if len(foods) != Count() {
		t.Fatalf("%d foods in the tables, %d in the catalogue", len(foods), Count())
	}
	for _, r := range foods {
		f, ok := ByID(r["id"])
		if !ok {
			t.Errorf("%s is not in the catalogue", r["id"])
			continue
		}
		if f.ID != r["id"] || f.Name != r["name"] || f.Group.ID() != r["group"] || f.Subgroup.ID() != r["subgroup"] || f.Colour.ID() != r["colour"] ||
			f.Calcium != (r["calcium"] == "yes") || strings.Join(f.Cautions, ";") != r["cautions"] || f.Source != r["source"] || f.Origin.String() != r["origin"] {
			t.Errorf("%s is not as its row: %+v", r["id"], f)
		}
		if f.Subgroup != NoSubgroup && f.Subgroup.Group() != f.Group {
			t.Errorf("%s: a subgroup of %s in %s", f.ID, f.Subgroup.Group().ID(), f.Group.ID())
		}
		for _, also := range f.Also {
			if !slices.Contains(strings.Split(r["also"], ";"), also) {
				t.Errorf("%s: the other name %q is not in its row", f.ID, also)
			}
		}
	}
	forms := table(t, "data/forms/*.csv")
	for _, r := range forms {
		d := detail(t, r)
		low, high := or(r["g_cup_low"], r["g_cup"]), or(r["g_cup_high"], r["g_cup"])
		dlow, dhigh := or(r["drained_low"], r["drained"]), or(r["drained_high"], r["drained"])
		if string(d.Class) != r["class"] || d.Source != r["source"] || d.Origin.String() != r["origin"] || d.Note != r["note"] ||
			!same(d.EqCup, thirds(r["eq_cup"]), 1) || !same(d.Eq100g, r["eq_100g"], 1) ||
			!same(d.GramCup.Low, low, 1) || !same(d.GramCup.Best, r["g_cup"], 1) || !same(d.GramCup.High, high, 1) || !same(d.GramAs, r["g_label_cup"], 1) ||
			!same(d.Drained.Low, dlow, 100) || !same(d.Drained.Best, r["drained"], 100) || !same(d.Drained.High, dhigh, 100) ||
			!same(d.Cooked, r["cooked_g"], 100) || !same(d.Edible, r["edible"], 100) {
			t.Errorf("%s %s is not as its row: %+v", r["food"], r["form"], d)
		}
	}
	pieces := table(t, "data/pieces/*.csv")
	for _, r := range pieces {
		p, ok := detail(t, r).Piece(r["piece"])
		eq := thirds(r["eq"])
		if !ok || p.Size != r["size"] || !same(p.Grams, r["g"], 1) || !same(p.Count, or(r["count"], "1"), 1) || p.Source != r["source"] || p.Origin.String() != r["origin"] ||
			!same(p.Eq.Low, or(thirds(r["eq_low"]), eq), 1) || !same(p.Eq.Best, eq, 1) || !same(p.Eq.High, or(thirds(r["eq_high"]), eq), 1) {
			t.Errorf("%s %s %s is not as its row: %+v", r["food"], r["form"], r["piece"], p)
		}
	}
	parts := table(t, "data/parts/*.csv")
	for _, r := range parts {
		if !slices.ContainsFunc(detail(t, r).Parts, func(p Part) bool {
			return p.Group.ID() == r["group"] && p.Subgroup.ID() == r["subgroup"] && string(p.Class) == r["class"] && same(p.Eq100g, r["eq_100g"], 1) && p.Source == r["source"]
		}) {
			t.Errorf("%s %s has no part %s %s", r["food"], r["form"], r["group"], r["subgroup"])
		}
	}
	rows := [...]int{len(foods), len(forms), len(pieces), len(parts), len(table(t, "data/phrases/*.csv"))}
	for i, info := range Tables() {
		n := 0
		for _, s := range info.Sources {
			n += s.Rows
			if s.Source == "" {
				t.Errorf("%s has %d rows without a source", info.Name, s.Rows)
			}
		}
		if info.Rows != rows[i] || n != rows[i] {
			t.Errorf("the evidence has %d rows of %s, of sources %d; the table has %d", info.Rows, info.Name, n, rows[i])
		}
	}
}

func detail(t *testing.T, r map[string]string) Detail {
	t.Helper()
	f, _ := ByID(r["food"])
	form, _ := FormByID(r["form"])
	d, ok := f.In(form)
	if !ok {
		t.Errorf("%s has no form %q", r["food"], r["form"])
	}
	return d
}

// TestCatalogue holds what every part of the program takes for granted.
func TestCatalogue(t *testing.T) {
	last := ""
	for f := range All() {
		if f.ID <= last {
			t.Errorf("%s comes after %s", f.ID, last)
		}
		last = f.ID
		if len(f.Forms) == 0 || f.Origin > rule.Memory {
			t.Errorf("%s has %d forms and origin %d", f.ID, len(f.Forms), f.Origin)
		}
		for _, d := range f.Forms {
			if d.GramCup.High.Less(d.GramCup.Best) || d.GramCup.Best.Less(d.GramCup.Low) {
				t.Errorf("%s %s: a cup of %s g", f.ID, d.Form.ID(), d.GramCup)
			}
			for _, p := range d.Pieces {
				if p.Count.Sign() <= 0 {
					t.Errorf("%s %s %s: counted by %s", f.ID, d.Form.ID(), p.ID, p.Count)
				}
			}
		}
	}
	for _, id := range []string{"", "no-such-food", "zzz", "Apple", "own:apple", "apple ", "\xff"} {
		if f, ok := ByID(id); ok {
			t.Errorf("%q is %s", id, f.ID)
		}
	}
	if got := len(Foods()); got != Count() {
		t.Errorf("Foods has %d foods, Count is %d", got, Count())
	}
}

// pageNeeds is what the project asks of the catalogue's size.
func TestSize(t *testing.T) {
	groups := map[Group]int{}
	forms := 0
	for f := range All() {
		groups[f.Group]++
		forms += len(f.Forms)
	}
	t.Logf("%d foods, %d forms, by group %v", Count(), forms, groups)
	if Count() < 450 || forms < 900 {
		t.Errorf("%d foods and %d forms are fewer than 450 and 900", Count(), forms)
	}
}

func BenchmarkByID(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := ByID("strawberries"); !ok {
			b.Fatal("no strawberries")
		}
	}
}

// BenchmarkAll makes every view of the catalogue.
func BenchmarkAll(b *testing.B) {
	for b.Loop() {
		for range All() {
		}
	}
}

func ExampleByID() {
	f, _ := ByID("raisins")
	d, _ := f.In(Dried)
	fmt.Println(f.Name, f.Group.ID(), f.Subgroup.ID(), d.Class)
	// Output: raisins fruit whole fruit-dried
}
