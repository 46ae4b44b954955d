package guide_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
)

// published reads a table of testdata/published, the project's own copies of
// what the documents print. They are not made from the guide's data.
func published(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", name+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	recs, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, rec := range recs[1:] {
		row := map[string]string{}
		for i, name := range recs[0] {
			row[name] = rec[i]
		}
		if row["source"] == "" || row["origin"] == "" {
			t.Fatalf("%s: a row without source or origin: %v", name, rec)
		}
		rows = append(rows, row)
	}
	return rows
}

// num reads an amount of an oracle: "2", "1 1/2", "0.5".
func num(t *testing.T, text string) amount.Num {
	t.Helper()
	r, err := amount.ReadNumber(text)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return r.Amount.Best
}

// tableSets names the sets that hold a table's columns.
var tableSets = map[string]string{"A3-1": "toddler-", "A3-2": "us-", "A3-3": "toddler-veg-", "A3-4": "veg-", "A3-5": "med-"}

// components says which target holds a line of the tables.
var components = map[string]struct {
	group food.Group
	sub   food.Subgroup
	part  string
}{
	"vegetables":                           {food.Vegetable, food.NoSubgroup, ""},
	"dark-green vegetables":                {food.Vegetable, food.DarkGreen, ""},
	"red and orange vegetables":            {food.Vegetable, food.RedOrange, ""},
	"beans, peas, lentils (as vegetables)": {food.Vegetable, food.Legume, ""},
	"starchy vegetables":                   {food.Vegetable, food.Starchy, ""},
	"other vegetables":                     {food.Vegetable, food.OtherVegetable, ""},
	"fruits":                               {food.Fruit, food.NoSubgroup, ""},
	"grains":                               {food.Grain, food.NoSubgroup, ""},
	"whole grains":                         {food.Grain, food.WholeGrain, ""},
	"refined grains":                       {food.Grain, food.RefinedGrain, ""},
	"dairy":                                {food.Dairy, food.NoSubgroup, ""},
	"protein foods":                        {food.Protein, food.NoSubgroup, ""},
	"meats, poultry, eggs":                 {food.Protein, food.Animal, ""},
	"meats, poultry":                       {food.Protein, food.Animal, "meat-poultry"},
	"eggs":                                 {food.Protein, food.Animal, "eggs"},
	"seafood":                              {food.Protein, food.Seafood, ""},
	"nuts, seeds, soy products":            {food.Protein, food.Plant, ""},
	"nuts, seeds":                          {food.Protein, food.Plant, "nuts-seeds"},
	"soy products":                         {food.Protein, food.Plant, "soy"},
	"beans, peas, lentils (as protein foods)": {food.Protein, food.Legume, ""},
	"oils": {food.Oil, food.NoSubgroup, ""},
}

// find finds a target in any of the set's lines.
func find(s guide.Set, g food.Group, sub food.Subgroup, part string) (guide.Target, bool) {
	for _, t := range s.Targets {
		if t.Group == g && t.Subgroup == sub && t.Part == part {
			return t, true
		}
	}
	return guide.Target{}, false
}

// Every cell of Tables A3-1 to A3-5 is in the sets, as printed, and the sets
// hold nothing else.
func TestPatternTables(t *testing.T) {
	rows := published(t, "dga2020_patterns")
	cells := map[string]int{}
	for _, row := range rows {
		id := tableSets[row["table"]] + row["level"]
		s, ok := guide.SetByID(id)
		if !ok {
			t.Fatalf("no set %s", id)
		}
		cells[id]++
		if strings.HasPrefix(row["component"], "limit") {
			got := s.OtherKcal
			if row["unit"] == "% of calories" {
				got = s.OtherPercent
			}
			if strconv.Itoa(got) != row["amount"] {
				t.Errorf("%s, %s (%s): %d, the table has %s", id, row["component"], row["unit"], got, row["amount"])
			}
			cells[id]--
			continue
		}
		c, known := components[row["component"]]
		if !known {
			t.Fatalf("unknown line %q", row["component"])
		}
		got, ok := find(s, c.group, c.sub, c.part)
		if !ok {
			t.Errorf("%s lacks %s", id, row["component"])
			continue
		}
		low, high := row["amount"], "0"
		if a, b, isRange := strings.Cut(low, "-"); isRange {
			low, high = a, b
		}
		if c.sub == food.RefinedGrain { // an upper end
			low, high = "0", low
		}
		if !got.Low.Equal(num(t, low)) || !got.High.Equal(num(t, high)) {
			t.Errorf("%s, %s: %v to %v, the table has %s", id, row["component"], got.Low, got.High, row["amount"])
		}
		unit, period, _ := strings.Cut(row["unit"], "/")
		if unit == "g" {
			unit = "g-oil"
		}
		if got.Unit.ID() != unit || got.Weekly != (period == "week") {
			t.Errorf("%s, %s: %s weekly %t, the table has %s", id, row["component"], got.Unit.ID(), got.Weekly, row["unit"])
		}
		if got.Origin.String() != row["origin"] {
			t.Errorf("%s, %s: origin %s, want %s", id, row["component"], got.Origin, row["origin"])
		}
	}
	if len(rows) != 788 || len(cells) != 44 {
		t.Errorf("%d cells in %d columns, want 788 in 44", len(rows), len(cells))
	}
	for id, n := range cells {
		if s, _ := guide.SetByID(id); len(s.Targets) != n {
			t.Errorf("%s has %d targets, the table has %d lines", id, len(s.Targets), n)
		}
	}
}

func TestServingsTable2025(t *testing.T) {
	groups := map[string]food.Group{"protein foods": food.Protein, "dairy": food.Dairy, "vegetables": food.Vegetable, "fruits": food.Fruit, "whole grains": food.Grain, "healthy fats": food.Oil}
	rows := published(t, "dga2025_servings")
	cells := map[string]int{}
	for _, row := range rows {
		id := "dga2025-" + row["level"]
		s, _ := guide.SetByID(id)
		got, ok := s.Target(groups[row["food_group"]], food.NoSubgroup, false)
		low, high, isRange := strings.Cut(row["servings"], " to ")
		if !isRange {
			high = "0"
		}
		if !ok || !got.Low.Equal(num(t, low)) || !got.High.Equal(num(t, high)) || got.Unit != guide.Serving || got.Origin.String() != row["origin"] {
			t.Errorf("%s, %s: %v to %v, the table has %s", id, row["food_group"], got.Low, got.High, row["servings"])
		}
		cells[id]++
		if s.Edition != guide.DGA2025 || len(s.Targets) != 6 {
			t.Errorf("%s is of %s with %d targets", id, s.Edition, len(s.Targets))
		}
	}
	if len(rows) != 72 || len(cells) != 12 {
		t.Errorf("%d cells in %d columns, want 72 in 12", len(rows), len(cells))
	}
}

// Every published sentence about what counts as one agrees with the crediting
// table.
func TestCreditingTable(t *testing.T) {
	units := map[string]struct {
		per  guide.Basis
		size amount.Num // in that basis
	}{"cup": {guide.PerCup, amount.Int(1)}, "tbsp": {guide.PerCup, amount.Frac(1, 16)}, "oz": {guide.PerOunce, amount.Int(1)}, "piece": {guide.PerPiece, amount.Int(1)}}
	rows := published(t, "crediting")
	for _, row := range rows {
		g, _ := food.GroupByID(row["group"])
		sub, _ := food.SubgroupByID(g, row["subgroup"])
		found := false
		for _, o := range guide.Ones(guide.EditionID(row["edition"]), food.Class(row["class"])) {
			if o.Group != g {
				continue
			}
			found = true
			u := units[row["unit"]]
			counts := num(t, row["amount"]).Mul(u.size).Mul(o.Factor)
			if o.Per != u.per || !counts.Equal(num(t, row["counts"])) || o.Unit.ID() != row["counted"] || o.Subgroup != sub {
				t.Errorf("%s %s: %s %s make %v %s (basis %d), published: %s", row["edition"], row["class"], row["amount"], row["unit"], counts, o.Unit.ID(), o.Per, row["text"])
			}
			if o.Origin.String() != row["origin"] {
				t.Errorf("%s %s: origin %s, want %s", row["edition"], row["class"], o.Origin, row["origin"])
			}
		}
		if !found {
			t.Errorf("%s %s has no %s", row["edition"], row["class"], row["group"])
		}
	}
	if len(rows) < 55 {
		t.Errorf("only %d published sentences", len(rows))
	}
}

// The week's parts add up to seven times the day, exactly, in all patterns for
// ages 2 and up; whole and refined grains to all grains in every set.
func TestWeekAddsUp(t *testing.T) {
	seven := amount.Int(7)
	sums := 0
	for _, s := range guide.Sets() {
		var veg, grain amount.Num
		for _, x := range s.Targets {
			if x.Group == food.Vegetable && x.Subgroup != food.NoSubgroup {
				veg = veg.Add(x.Low)
			}
			if x.Group == food.Grain && x.Subgroup != food.NoSubgroup {
				grain = grain.Add(x.Low).Add(x.High)
			}
		}
		switch s.Pattern {
		case "us", "vegetarian", "mediterranean":
			day, _ := s.Target(food.Vegetable, food.NoSubgroup, false)
			if !veg.Equal(day.Low.Mul(seven)) {
				t.Errorf("%s: the week's vegetables are %v, the day's %v", s.ID, veg, day.Low)
			}
			fallthrough
		case "toddler", "toddler-vegetarian":
			day, _ := s.Target(food.Grain, food.NoSubgroup, false)
			if !grain.Equal(day.Low) {
				t.Errorf("%s: whole and refined grains are %v, all grains %v", s.ID, grain, day.Low)
			}
			sums++
		}
	}
	if sums != 44 {
		t.Errorf("%d sets added up, want 44", sums)
	}
}

func TestCalorieTable(t *testing.T) {
	sexes := map[string]guide.Sex{"male": guide.Male, "female": guide.Female}
	moves := map[string]guide.Activity{"sedentary": guide.Sedentary, "moderately active": guide.Moderate, "active": guide.Active}
	rows := published(t, "dga2020_calories")
	cells, asked := 0, map[guide.Person]bool{}
	for _, row := range rows {
		if strings.Contains(row["age"], "month") { // Table A2-1 is under 2: refused, see below
			continue
		}
		cells++
		first, last, isRange := strings.Cut(row["age"], "-")
		if strings.HasSuffix(first, "+") {
			first, last = strings.TrimSuffix(first, "+"), "120"
		} else if !isRange {
			last = first
		}
		from, _ := strconv.Atoi(first)
		to, _ := strconv.Atoi(last)
		for age := from; age <= to; age++ {
			p := guide.Person{Age: age, Sex: sexes[row["sex"]], Activity: moves[row["activity"]]}
			asked[p] = true
			got, err := guide.CalorieNeed(p)
			if err != nil || strconv.Itoa(got) != row["kcal"] {
				t.Errorf("%+v needs %d (%v), the table has %s", p, got, err, row["kcal"])
			}
		}
	}
	if cells != 180 || len(asked) != 119*6 {
		t.Errorf("%d cells, %d persons asked, want 180 and %d", cells, len(asked), 119*6)
	}
}

func TestTables(t *testing.T) {
	want := map[string]int{"crediting": 98, "sets": 57, "targets": 794, "calories": 60}
	for _, info := range guide.Tables() {
		sum := 0
		for _, s := range info.Sources {
			if s.Source == "" || s.Rows <= 0 {
				t.Errorf("%s: a source without name or rows: %+v", info.Name, s)
			}
			sum += s.Rows
		}
		if sum != info.Rows || info.Rows == 0 {
			t.Errorf("%s: %d rows, the sources stand for %d", info.Name, info.Rows, sum)
		}
		if n, ok := want[info.Name]; ok && n != info.Rows {
			t.Errorf("%s: %d rows, want %d", info.Name, info.Rows, n)
		}
		if info.ByOrigin(rule.Published)+info.ByOrigin(rule.Practice)+info.ByOrigin(rule.Memory) != sum {
			t.Errorf("%s: origins don't add up", info.Name)
		}
	}
	if len(guide.Tables()) != 6 {
		t.Errorf("%d tables, want 6", len(guide.Tables()))
	}
}
