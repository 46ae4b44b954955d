package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"cupsum/core/food"
)

// foodRows are the tables of a tiny catalogue without faults.
var foodRows = map[string][]string{
	"foods": {
		"pear,pear,pera,fruit,whole,white-tan,,,SR28,published",
		"okra,okra,,vegetable,other,green,,choking,SR28,published",
		"ghee,ghee,,extra,,,,,practice,practice",
		"almond-milk,almond drink,almond milk,extra,,,yes,,practice,practice",
		"brie,Brie,,dairy,cheese,,,,SR28,published",
		"hash,hash,,mixed,,,,,FPED,published",
		"pork,pork,,protein,animal,,,,SR28,published",
	},
	"forms": {
		"pear,fresh,fruit-cup,,,140,140,161,,,,,,90,,,SR28,published,",
		"pear,canned-juice,fruit-cup,,,150,,,248,58,62,66,,,,,SR28,published,",
		"okra,cooked,veg-cup,,,160,,,,,,,,,,,SR28,published,a note",
		"ghee,ready,none,,,,,,,,,,,,,,practice,practice,",
		"almond-milk,ready,none,,,244,,,,,,,,,,,practice,practice,",
		"brie,ready,cheese-natural,,,144,,,,,,,,,,,SR28,published,",
		"hash,ready,mixed,,,,,,,,,,,,,,FPED,published,",
		"pork,raw,meat-raw,,,,,,,,,,75,,,,SR28,published,",
	},
	"pieces": {
		"pear,fresh,medium,3 inches,178,1,1,0.875,1.125,SR28,published",
	},
	"parts": {
		"hash,ready,vegetable,starchy,veg-cup,0.5,FPED,published",
		"hash,ready,protein,animal,meat,1.25,FPED,published",
	},
	"phrases": {
		"canned,canned;canned-juice,shops,practice",
		"in juice,canned-juice,shops,practice",
	},
}

// foodFolder writes the tiny catalogue with one line replaced, and goes there.
func foodFolder(t *testing.T, name, from, to string) {
	t.Helper()
	top := t.TempDir()
	t.Chdir(top)
	headers := map[string]string{"phrases": "phrase,forms,source,origin"}
	for _, c := range foodColumns {
		headers[c.folder] = c.columns
	}
	for table, header := range headers {
		text := header + "\n" + strings.Join(foodRows[table], "\n") + "\n"
		if table == name {
			if strings.Count(text, from) != 1 {
				t.Fatalf("%d lines of %s have %q", strings.Count(text, from), name, from)
			}
			text = strings.Replace(text, from, to, 1)
		}
		folder := filepath.Join("core", "food", "data", table)
		if err := os.MkdirAll(folder, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, "a.csv"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// spoiltFoods are changes to one line of the tiny catalogue, and what the
// refusal says, with file and line.
var spoiltFoods = []struct{ name, table, from, to, says string }{
	{"no source", "foods", "green,,choking,SR28,", "green,,choking,,", "foods/a.csv:3: no source"},
	{"no origin", "forms", "161,,,,,,90,,,SR28,published", "161,,,,,,90,,,SR28,", `forms/a.csv:2: origin "" is not`},
	{"origin unknown", "pieces", "1.125,SR28,published", "1.125,SR28,sure", `pieces/a.csv:2: origin "sure" is not`},
	{"part without source", "parts", "1.25,FPED", "1.25,", "parts/a.csv:3: no source"},
	{"too few columns", "forms", "a note", "a note,,", "record on line 4: wrong number of fields"},
	{"other columns", "foods", "id,name,also", "id,also,name", "columns are"},
	{"food twice", "foods", "okra,okra,", "pear,okra,", `foods/a.csv:3: the food "pear" is in core/food/data/foods/a.csv:2 already`},
	{"form twice", "forms", "pear,canned-juice", "pear,fresh", `forms/a.csv:3: the form "fresh" of pear is in core/food/data/forms/a.csv:2 already`},
	{"piece twice", "pieces", "1.125,SR28,published", "1.125,SR28,published\npear,fresh,medium,,100,,,,,SR28,published", `pieces/a.csv:3: the piece "medium" is in`},
	{"phrase twice", "phrases", "in juice", "canned", `phrases/a.csv:3: the phrase "canned" is`},
	{"id with a capital", "foods", "okra,okra,", "Okra,okra,", `foods/a.csv:3: the id "Okra" is not of`},
	{"id with two hyphens", "foods", "almond-milk,", "almond--milk,", `foods/a.csv:5: the id "almond--milk" is not of`},
	{"no such group", "foods", "fruit,whole", "fruits,whole", `foods/a.csv:2: there is no group "fruits"`},
	{"no such subgroup", "foods", "vegetable,other", "vegetable,whole", `foods/a.csv:3: vegetable has no subgroup "whole"`},
	{"subgroup missing", "foods", "vegetable,other", "vegetable,", "foods/a.csv:3: a food of the group vegetable needs a subgroup"},
	{"no such colour", "foods", "white-tan", "white", `foods/a.csv:2: the colour "white" is outside the list`},
	{"colour of cheese", "foods", "dairy,cheese,,", "dairy,cheese,white-tan,", `foods/a.csv:6: the colour "white-tan" is outside the list for dairy`},
	{"calcium in doubt", "foods", "extra,,,yes", "extra,,,maybe", `foods/a.csv:5: calcium is "maybe"`},
	{"calcium in dairy", "foods", "dairy,cheese,,,", "dairy,cheese,,yes,", "foods/a.csv:6: calcium marks sources outside"},
	{"caution misspelt", "foods", ",choking,", ",Choking,", `foods/a.csv:3: there is no caution "Choking"`},
	{"no forms", "forms", "okra,cooked,veg-cup,,,160,,,,,,,,,,,SR28,published,a note\n", "", "foods/a.csv:3: okra has no form"},
	{"names that clash", "foods", "okra,okra,,", "okra,okra,Peras,", `foods/a.csv:3: the name "Peras" clashes with pear of core/food/data/foods/a.csv:2 in search`},
	{"a name that is another's id", "foods", "okra,okra,,", "okra,okra,almond milks,", `the name "almond milk" clashes with okra`},
	{"name without letters", "foods", "Brie", "🧀", `foods/a.csv:6: the name "🧀" has no letters`},
	{"space after a name", "foods", "pear,pear,pera,", "pear,pear,pera ,", `foods/a.csv:2: the name "pera " is too long or has spaces`},
	{"form of no food", "forms", "okra,cooked", "okrra,cooked", `forms/a.csv:4: there is no food "okrra"`},
	{"no such form", "forms", "okra,cooked", "okra,boiled", `forms/a.csv:4: there is no form "boiled"`},
	{"no such class", "forms", "veg-cup", "veg", `forms/a.csv:4: there is no class "veg"`},
	{"class of another group", "forms", "veg-cup", "meat", "forms/a.csv:4: the class meat does not fit a food of the group vegetable"},
	{"cup ten times too heavy", "forms", "veg-cup,,,160", "veg-cup,,,1600", "forms/a.csv:4: g_cup 1600 is not between"},
	{"cup ten times too light", "forms", "fresh,fruit-cup,,,140", "fresh,fruit-cup,,,14", "forms/a.csv:2: g_cup 14 is not between"},
	{"negative cup", "forms", "veg-cup,,,160", "veg-cup,,,-160", `forms/a.csv:4: g_cup: "-160" is not a plain decimal`},
	{"too many decimals", "forms", "veg-cup,,,160", "veg-cup,,,160.1234", `forms/a.csv:4: g_cup: "160.1234" is not a plain decimal`},
	{"words for a figure", "forms", "veg-cup,,,160", "veg-cup,,,about 160", "is not a plain decimal"},
	{"range inside out", "forms", "140,140,161", "140,161,140", "forms/a.csv:2: g_cup_low, g_cup, g_cup_high are not in order"},
	{"ends without a best", "forms", "veg-cup,,,160,", "veg-cup,,,,160", "forms/a.csv:4: g_cup_low is given and g_cup is not"},
	{"factor out of bounds", "forms", "veg-cup,,", "veg-cup,,55", "forms/a.csv:4: eq_100g 55 is not between"},
	{"nothing left when drained", "forms", "58,62,66", "5,6,7", "forms/a.csv:3: drained_low 5 is not between"},
	{"more than all is edible", "forms", "161,,,,,,90", "161,,,,,,900", "forms/a.csv:2: edible 900 is not between"},
	{"without a measure", "forms", "pear,fresh,fruit-cup", "brie,dried,dairy-weighed", `brie dried has no measure`},
	{"weighed without a factor", "forms", "cheese-natural", "dairy-weighed", "forms/a.csv:7: brie ready has no measure"},
	{"dish without parts", "forms", "brie,ready,cheese-natural", "brie,ready,mixed", "forms/a.csv:7: the class mixed and 0 parts do not go together"},
	{"raw meat without yield", "forms", ",75,", ",,", "forms/a.csv:9: raw meat needs its weight when cooked"},
	{"piece of no form", "pieces", "pear,fresh", "pear,frozen", `pieces/a.csv:2: there is no form "frozen" of "pear"`},
	{"piece that weighs too much", "pieces", ",178,", ",17800,", "pieces/a.csv:2: g 17800 is not between"},
	{"piece of nothing", "pieces", ",178,1,1,0.875,1.125", ",,1,,,", "pieces/a.csv:2: a piece needs its grams or"},
	{"piece misspelt", "pieces", "medium", "Medium!", `pieces/a.csv:2: the piece "Medium!" is not of`},
	{"part of no group", "parts", "vegetable,starchy", "vegetable,whole", `parts/a.csv:2: there is no group "vegetable" with a subgroup "whole"`},
	{"part of a part", "parts", "vegetable,starchy", "mixed,", `there is no group "mixed"`},
	{"part without amount", "parts", "1.25", "", "parts/a.csv:3: a part needs its equivalents"},
	{"part out of bounds", "parts", "1.25", "125", "parts/a.csv:3: eq_100g 125 is not between"},
	{"part with another's class", "parts", "meat", "milk", `parts/a.csv:3: the class "milk" does not fit the group protein`},
	{"phrase for no form", "phrases", "in juice,canned-juice", "in juice,juiced", `phrases/a.csv:3: there is no form "juiced"`},
	{"phrase that no cleaned text has", "phrases", "in juice", "In juice", `phrases/a.csv:3: the phrase "In juice" is not in plain letters`},
}

func TestFoodsRefuse(t *testing.T) {
	for _, c := range spoiltFoods {
		t.Run(c.name, func(t *testing.T) {
			foodFolder(t, c.table, c.from, c.to)
			_, err := makeFoods()
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%v\nwant %q", err, c.says)
			}
		})
	}
}

// The tiny catalogue itself is packed, from one file a table or from several.
func TestFoodsPack(t *testing.T) {
	foodFolder(t, "", "", "")
	one, err := makeFoods()
	if err != nil {
		t.Fatal(err)
	}
	head := foodColumns[0].columns + "\n"
	text, _ := os.ReadFile("core/food/data/foods/a.csv")
	rows := strings.SplitAfter(strings.TrimPrefix(string(text), head), "\n")
	for i, r := range rows[:len(rows)-1] {
		if err := os.WriteFile(fmt.Sprintf("core/food/data/foods/b%d.csv", i), []byte(head+r), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	os.Remove("core/food/data/foods/a.csv")
	many, err := makeFoods()
	if err != nil || many != one {
		t.Errorf("eight files are packed otherwise than one: %v", err)
	}
	if !strings.Contains(one, "// almond-milk\n") || strings.Index(one, "// almond-milk\n") > strings.Index(one, "// pear\n") {
		t.Error("foods are not packed in the order of ids")
	}
}

// All faults are reported at once, each with its line.
func TestFoodsReportAll(t *testing.T) {
	foodFolder(t, "foods", "fruit,whole,white-tan", "fruits,whole,beige")
	text, _ := os.ReadFile("core/food/data/forms/a.csv")
	os.WriteFile("core/food/data/forms/a.csv", []byte(strings.Replace(string(text), "veg-cup", "veg", 1)), 0o644)
	_, err := makeFoods()
	if err == nil || !strings.Contains(err.Error(), "foods/a.csv:2: there is no group") || !strings.Contains(err.Error(), "forms/a.csv:4: there is no class") {
		t.Errorf("two faults are reported as %v", err)
	}
}

// The generator's lists are those of core/food.
func TestFoodLists(t *testing.T) {
	for i, id := range groupNames {
		if g, ok := food.GroupByID(id); !ok || int(g) != i {
			t.Errorf("group %d is %q here, %q in core/food", i, id, g.ID())
		}
	}
	for i, id := range colourNames {
		if c, ok := food.ColourByID(id); !ok || int(c) != i {
			t.Errorf("colour %d is %q here", i, id)
		}
	}
	for i, id := range formNames {
		if f, ok := food.FormByID(id); !ok || int(f) != i {
			t.Errorf("form %d is %q here", i, id)
		}
	}
	var subs []string
	for g := food.Extra; g <= food.Mixed; g++ {
		for _, s := range g.Subgroups() {
			subs = append(subs, g.ID()+"-"+s.ID())
		}
	}
	if !slices.Equal(append([]string{""}, subs...), subgroupNames) {
		t.Errorf("subgroups are %q here, %q in core/food", subgroupNames, subs)
	}
}

// TestTablesInStep fails when a generated file is not what its tables make. It
// reads the whole project, so it runs natively only.
func TestTablesInStep(t *testing.T) {
	if runtime.GOOS == "js" {
		t.Skip("generated files are checked natively")
	}
	t.Chdir(filepath.Join("..", ".."))
	for _, one := range tables {
		t.Run(filepath.Base(one.file), func(t *testing.T) {
			if err := one.write(true); err != nil {
				t.Error(err)
			}
		})
	}
}
