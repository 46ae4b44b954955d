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

// An exception is a row of exceptions.csv: where we differ from the database,
// and why. Of the kind "guideline" the guidelines or their consumer tables say
// how it counts, and they win; of the kind "weight" two published tables weigh
// the same cup differently.
type exception struct {
	kind, ours, theirs, reason string
	used                       bool
}

func exceptions(t *testing.T) map[string]*exception {
	t.Helper()
	list := map[string]*exception{}
	for _, r := range rows(t, published+"exceptions.csv") {
		key := r["food"] + "," + r["form"] + "," + r["column"]
		if r["kind"] != "guideline" && r["kind"] != "weight" || len(r["reason"]) < 20 || list[key] != nil {
			t.Errorf("the exception %s has the kind %q and the reason %q, or is there twice", key, r["kind"], r["reason"])
		}
		list[key] = &exception{kind: r["kind"], ours: r["ours"], theirs: r["theirs"], reason: r["reason"]}
	}
	return list
}

// TestEquivalents credits 100 g of every catalogue form that has a row in the
// equivalents database and compares each column of it.
func TestEquivalents(t *testing.T) {
	table := map[string]map[string]string{}
	for _, r := range rows(t, published+"equivalents.csv") {
		if r["source"] == "" || r["origin"] != "published" {
			t.Errorf("%s has the source %q and the origin %q", r["code"], r["source"], r["origin"])
		}
		table[r["code"]] = r
	}
	listed := exceptions(t)
	forms := map[string]int{}
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
		kind := "agree"
		for _, c := range compare(t, f, d, theirs) {
			key := c.food + "," + c.form + "," + c.column
			ours, theirs := fmt.Sprintf("%.2f", c.ours), fmt.Sprintf("%.2f", c.theirs)
			e := listed[key]
			if e == nil || e.ours != ours || e.theirs != theirs {
				kind = "not listed"
				t.Errorf("not in exceptions.csv: %s,%s,%s", key, ours, theirs)
				continue
			}
			e.used = true
			if kind != "guideline" {
				kind = e.kind
			}
		}
		forms[kind]++
	}
	for key, e := range listed {
		if !e.used {
			t.Errorf("exceptions.csv lists %s, which agrees or is no more", key)
		}
	}
	all := forms["agree"] + forms["guideline"] + forms["weight"]
	t.Logf("%d forms with a row in the database: %d agree within 10 %%, for %d the guidelines win, for %d the tables weigh a cup differently",
		all, forms["agree"], forms["guideline"], forms["weight"])
	if forms["weight"]*20 > all-forms["guideline"] {
		t.Errorf("%d of %d comparable forms differ: more than 5 %%", forms["weight"], all-forms["guideline"])
	}
	if forms["agree"]*100 < 90*all {
		t.Errorf("only %d of %d forms agree", forms["agree"], all)
	}
}

// subgroupOf says which subgroup the fullest column of a database row means.
var subgroupOf = map[string]food.Subgroup{
	"f_juice": food.JuiceFruit, "v_drkgr": food.DarkGreen, "v_redor_total": food.RedOrange, "v_starchy_total": food.Starchy,
	"v_other": food.OtherVegetable, "v_legumes": food.Legume, "g_whole": food.WholeGrain, "g_refined": food.RefinedGrain,
	"pf_meat": food.Animal, "pf_curedmeat": food.Animal, "pf_organ": food.Animal, "pf_poult": food.Animal, "pf_eggs": food.Animal,
	"pf_seafd_hi": food.Seafood, "pf_seafd_low": food.Seafood, "pf_soy": food.Plant, "pf_nutsds": food.Plant,
	"d_milk": food.Milk, "d_yogurt": food.Yogurt, "d_cheese": food.Cheese,
}

// elsewhere are the foods whose subgroup is not that of their database row, and
// why.
var elsewhere = map[string]string{
	"soy-milk":           "the database has no column for soy drinks and counts them as milk",
	"chocolate-soy-milk": "the database has no column for soy drinks and counts them as milk",
	"naan":               "the database takes it as half whole and half refined, so it may stand in either",
	"salsa":              "the database splits it almost evenly, 0.25 tomato and 0.27 other vegetables",
}

// TestSubgroups holds the subgroup of every food with a database row against
// that row's fullest column.
func TestSubgroups(t *testing.T) {
	fullest := map[string]string{}
	for _, r := range rows(t, published+"equivalents.csv") {
		fullest[r["code"]] = r["fullest"]
	}
	checked, used := 0, map[string]bool{}
	for _, r := range catalogueForms(t) {
		want, ok := subgroupOf[fullest[r["fped"]]]
		f, _ := lookUp(t, r)
		if !ok || f.Group == food.Mixed || r["class"] == "none" || want.Group() != f.Group || r["form"] == "canned-juice" { // the juice of the pack counts there too
			continue
		}
		checked++
		if f.Subgroup == want {
			continue
		}
		used[f.ID] = true
		if elsewhere[f.ID] == "" {
			t.Errorf("%s is in %s; its row in the database is %s (%s)", f.ID, f.Subgroup.ID(), want.ID(), fullest[r["fped"]])
		}
	}
	for id := range elsewhere {
		if !used[id] {
			t.Errorf("%s is listed, and its subgroup is that of the database", id)
		}
	}
	t.Logf("the subgroup of %d forms is that of the database, but for %d foods", checked, len(used))
}

// cupOf reads a household measure as cups, and tells what one cup weighs.
func cupOf(measure string, amount, grams float64) (g float64, ok bool) {
	g = grams / amount
	m := strings.ToLower(measure)
	for _, c := range []struct {
		start string
		cups  float64
	}{{"cup", 1}, {"tbsp", 16}, {"tablespoon", 16}, {"fl oz", 8}} {
		if strings.HasPrefix(m, c.start) {
			return g * c.cups, true
		}
	}
	for _, c := range []struct {
		part string
		cups float64
	}{{"(1/2 cup", 2}, {"(1 cup", 1}, {"(1/4 cup", 4}, {"(1/3 cup", 3}} {
		if strings.Contains(m, c.part) {
			return g * c.cups, true
		}
	}
	return 0, false
}

// TestHouseholdWeights holds the weight of a cup of every form with a row in
// the household weights against the nearest cup there (whole, sliced, diced),
// and the weight of every piece against the nearest of all measures.
func TestHouseholdWeights(t *testing.T) {
	type measure struct{ grams, amount, cup float64 }
	table := map[string][]measure{}
	for _, r := range rows(t, published+"household_weights.csv") {
		g, _ := cell(r["grams"])
		n, ok := cell(r["amount"])
		if !ok || g <= 0 || n <= 0 || r["source"] == "" || r["origin"] != "published" {
			t.Errorf("bad row %v", r)
			continue
		}
		cup, _ := cupOf(r["measure"], n, g)
		table[r["ndb"]] = append(table[r["ndb"]], measure{g, n, cup})
	}
	codes := map[string]string{}
	cups, far := 0, 0
	for _, r := range catalogueForms(t) {
		codes[r["food"]+" "+r["form"]] = r["ndb"]
		_, d := lookUp(t, r)
		best, has := math.Inf(1), false
		for _, m := range table[r["ndb"]] {
			if m.cup > 0 && d.GramCup.Best.Sign() > 0 {
				has = true
				best = math.Min(best, math.Abs(float(d.GramCup.Best)-m.cup)/m.cup)
			}
		}
		if !has {
			continue
		}
		if cups++; best > 0.1 {
			far++
			t.Errorf("a cup of %s %s weighs %s g; the nearest household weight is %.0f %% off", r["food"], r["form"], d.GramCup.Best, 100*best)
		}
	}
	pieces, odd := 0, 0
	for _, r := range rows(t, "../food/data/pieces/*.csv") {
		list := table[codes[r["food"]+" "+r["form"]]]
		g, ok := cell(r["g"])
		if !ok || len(list) == 0 {
			continue
		}
		pieces++
		found := false
		for _, m := range list {
			found = found || near(g, m.grams) || near(g, m.grams/m.amount)
		}
		if !found {
			odd++
			t.Logf("%s %s %s of %.4g g is no measure of its own row (%s)", r["food"], r["form"], r["piece"], g, r["source"])
		}
	}
	t.Logf("%d cups, %d more than 10 %% off; %d pieces, %d from another row", cups, far, pieces, odd)
	if cups < 600 || pieces < 400 || odd*20 > pieces {
		t.Errorf("%d cups and %d pieces are compared, and %d pieces differ", cups, pieces, odd)
	}
}
