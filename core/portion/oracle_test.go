package portion_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
)

// The tests of this file hold the catalogue against published tables that it
// was not made by: credits against the equivalents database, weights of cups
// and pieces against household weights. What differs is in a list with the
// reason; the lists may hold nothing that agrees.

// rows reads a CSV file, or all that match, by column name.
func rows(t testing.TB, pattern string) []map[string]string {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no file matches %s", pattern)
	}
	var all []map[string]string
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
			all = append(all, row)
		}
	}
	return all
}

const published = "../../testdata/published/"

// float is for comparing with tables that are rounded themselves.
func float(n amount.Num) float64 {
	a, b, _ := strings.Cut(n.String(), "/")
	x, _ := strconv.ParseFloat(a, 64)
	if b != "" {
		y, _ := strconv.ParseFloat(b, 64)
		x /= y
	}
	return x
}

// cell reads a table's number; ok is false for an empty one.
func cell(text string) (v float64, ok bool) {
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil
}

// near tells whether ours is within 10 % of theirs; what both tables print with
// two decimals may differ by the last of them.
func near(ours, theirs float64) bool { return math.Abs(ours-theirs) <= math.Max(0.1*theirs, 0.015) }

// catalogueForms reads the forms with their codes, which the page does not
// carry.
func catalogueForms(t testing.TB) []map[string]string { return rows(t, "../food/data/forms/*.csv") }

func lookUp(t testing.TB, row map[string]string) (food.Food, food.Detail) {
	t.Helper()
	f, ok := food.ByID(row["food"])
	form, _ := food.FormByID(row["form"])
	d, ok2 := f.In(form)
	if !ok || !ok2 {
		t.Fatalf("%s %s is not in the catalogue", row["food"], row["form"])
	}
	return f, d
}

// hundredGrams is the portion that the equivalents database speaks of: 100 g
// as eaten; of what is packed in syrup or water 100 g with it, the fruit of
// which is eaten; of what is packed in juice 100 g with the juice.
func hundredGrams(f food.Food, d food.Detail) portion.Portion {
	p := portion.Portion{Food: f.ID, Form: d.Form.ID(), Measure: portion.Measure{By: portion.ByWeight, Amount: "100 g"}}
	if f.Group != food.Fruit || !d.Form.Packed() {
		return p
	}
	switch {
	case d.Form == food.CannedJuice && d.GramAs.Sign() > 0:
		p.Measure = portion.Measure{By: portion.ByCup, Amount: amount.Int(100).Quo(d.GramAs).String() + " cup"}
	case d.Drained.Best.Sign() > 0:
		p.Measure.Amount = trimmed(d.Drained.Best.Mul(amount.Int(100))) + " g"
	}
	return p
}

func trimmed(n amount.Num) string {
	text, _ := amount.Decimal(n, 6)
	return text
}

// A comparison is one form's credit beside the database's column.
type comparison struct {
	food, form, column string
	ours, theirs       float64
}

// compare credits 100 g and gives what differs, by column of the database.
func compare(t *testing.T, f food.Food, d food.Detail, theirs map[string]string) []comparison {
	t.Helper()
	ours := map[string]float64{}
	result, err := hundredGrams(f, d).Credit(guide.DGA2020, nil)
	if err != nil {
		t.Errorf("100 g of %s %s: %v", f.ID, d.Form.ID(), err)
		return nil
	}
	for _, c := range result.Credits {
		column := c.Group.ID()
		if c.Alt != nil {
			column = "legume_vegetable"
			ours["legume_protein"] += float(c.Alt.Amount.Best)
		}
		ours[column] += float(c.Amount.Best)
	}
	var differ []comparison
	for _, column := range []string{"fruit", "vegetable", "legume_vegetable", "grain", "protein", "legume_protein", "dairy", "oil"} {
		want, known := cell(theirs[column])
		counted := column == f.Group.ID() || strings.HasPrefix(column, "legume") && f.Subgroup == food.Legume || f.Group == food.Mixed
		if known && counted && !near(ours[column], want) {
			differ = append(differ, comparison{f.ID, d.Form.ID(), column, ours[column], want})
		}
	}
	return differ
}

func TestEquivalents(t *testing.T) {
	table := map[string]map[string]string{}
	for _, r := range rows(t, published+"equivalents.csv") {
		if r["source"] == "" || r["origin"] != "published" {
			t.Errorf("%s has the source %q and the origin %q", r["code"], r["source"], r["origin"])
		}
		table[r["code"]] = r
	}
	for _, r := range catalogueForms(t) {
		if r["fped"] == "" || r["class"] == "none" {
			continue
		}
		f, d := lookUp(t, r)
		theirs := table[r["fped"]]
		if theirs == nil {
			t.Errorf("%s %s: the code %s is not in equivalents.csv", r["food"], r["form"], r["fped"])
			continue
		}
		for _, c := range compare(t, f, d, theirs) {
			fmt.Printf("X,%s,%s,%s,%s,%.2f,%.2f,%s\n", c.food, c.form, d.Class, c.column, c.ours, c.theirs, r["note"])
		}
	}
}
