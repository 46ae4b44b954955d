package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// The vocabulary that the guide's tables may use, and the Go names that it
// stands for. The catalogue's types say what each means.
var (
	guideEditions = []string{"dga-2020", "dga-2025", "school"}
	guidePatterns = []string{"class", "us", "vegetarian", "mediterranean", "toddler", "toddler-vegetarian", "dga2025"}
	guideGroups   = map[string]string{"fruit": "food.Fruit", "vegetable": "food.Vegetable", "grain": "food.Grain", "protein": "food.Protein", "dairy": "food.Dairy", "oil": "food.Oil"}
	guideUnits    = map[string]string{"cup-eq": "CupEq", "oz-eq": "OzEq", "serving": "Serving", "g-oil": "GramOil"}
	guideBases    = map[string]string{"cup": "PerCup", "ounce": "PerOunce", "100g": "Per100g", "piece": "PerPiece"}
	guideParts    = map[string]string{"": "noPart", "meat-poultry": "meatPoultry", "eggs": "eggs", "nuts-seeds": "nutsSeeds", "soy": "soy"}
	// Beans are a subgroup of the vegetables, and a target of the vegetarian
	// patterns among the protein foods.
	guideSubgroups = map[string]string{
		"fruit/whole": "food.WholeFruit", "fruit/juice": "food.JuiceFruit",
		"vegetable/dark-green": "food.DarkGreen", "vegetable/red-orange": "food.RedOrange", "vegetable/legume": "food.Legume", "vegetable/starchy": "food.Starchy", "vegetable/other": "food.OtherVegetable",
		"grain/whole": "food.WholeGrain", "grain/refined": "food.RefinedGrain",
		"protein/animal": "food.Animal", "protein/seafood": "food.Seafood", "protein/plant": "food.Plant", "protein/legume": "food.Legume",
		"dairy/milk": "food.Milk", "dairy/yogurt": "food.Yogurt", "dairy/cheese": "food.Cheese", "dairy/soy": "food.SoyDairy",
	}
	guideForms = map[string]string{
		"fresh": "food.Fresh", "frozen": "food.Frozen", "canned": "food.Canned", "canned-water": "food.CannedWater", "canned-juice": "food.CannedJuice", "canned-light": "food.CannedLight",
		"canned-heavy": "food.CannedHeavy", "dried": "food.Dried", "juice": "food.Juice", "cooked": "food.Cooked", "dry": "food.Dry", "raw": "food.Raw", "ready": "food.Ready",
	}
	// guideClasses lists how a food form may be counted; mixed dishes and
	// foods that count nowhere have no row in the crediting table.
	guideClasses = strings.Fields(`fruit-cup fruit-dried fruit-juice veg-cup leafy-raw veg-dried veg-juice legume legume-dry legume-soup hummus
		grain-cooked grain-dry grain-bread grain-cereal grain-weighed popcorn meat meat-raw egg nuts nut-butter tofu tempeh soy-nuts protein-weighed
		milk yogurt soy-drink cheese-natural cheese-processed ricotta cottage evaporated dry-milk frozen-dairy dairy-weighed oil mixed none`)
)

// guideTables are the guide's tables with their columns, in the order of the
// evidence view.
var guideTables = []struct{ name, header string }{
	{"crediting", "edition,class,group,subgroup,per,factor,unit,cooked,rule,source,origin"},
	{"sets", "id,edition,pattern,level,age_from,age_to,other_kcal,other_percent,source,origin"},
	{"targets", "set,group,subgroup,part,low,high,unit,period,source,origin,note"},
	{"calories", "sex,from,to,sedentary,moderate,active,source,origin"},
	{"hands", "id,unit,low,best,high,least,most,source,origin,note"},
	{"cautions", "id,when,source,origin"},
}

// guideRows holds the guide's tables by name.
type guideRows map[string][]row

func readGuide(folder string) (guideRows, error) {
	all := guideRows{}
	for _, t := range guideTables {
		rows, err := read(folder+"/"+t.name+".csv", strings.Split(t.header, ",")...)
		if err != nil {
			return nil, err
		}
		all[t.name] = rows
	}
	return all, nil
}

// makeGuide packs all tables of the guide into one file.
func makeGuide() (string, error) {
	all, err := readGuide("core/guide/data")
	if err != nil {
		return "", err
	}
	return all.pack()
}

func (all guideRows) pack() (string, error) {
	var b strings.Builder
	b.WriteString("package guide\n\nimport (\n\"cupsum/core/amount\"\n\"cupsum/core/food\"\n\"cupsum/core/rule\"\n)\n\n")
	src := &sources{}
	for _, part := range []func(*strings.Builder, *sources) error{all.packCrediting, all.packSets, all.packCalories, all.packHands, all.packCautions} {
		if err := part(&b, src); err != nil {
			return "", err
		}
	}
	src.pack(&b)
	all.packInfo(&b)
	return b.String(), nil
}

// sources gives each source text a number, so that it is stored once.
type sources struct{ list []string }

func (s *sources) of(r row) int {
	i := slices.Index(s.list, r.get("source"))
	if i < 0 {
		i = len(s.list)
		s.list = append(s.list, r.get("source"))
	}
	return i
}

func (s *sources) pack(b *strings.Builder) {
	b.WriteString("var sourceTexts = [...]string{\n")
	for _, t := range s.list {
		fmt.Fprintf(b, "%q,\n", t)
	}
	b.WriteString("}\n\n")
}

// from looks a cell up in its vocabulary.
func (r row) from(column string, words map[string]string) (string, error) {
	name, ok := words[r.get(column)]
	if !ok {
		return "", r.errorf("%s %q is not one of the list", column, r.get(column))
	}
	return name, nil
}

// subgroup looks the subgroup of the row's group up; empty is none.
func (r row) subgroup() (string, error) {
	if r.get("subgroup") == "" {
		return "food.NoSubgroup", nil
	}
	name, ok := guideSubgroups[r.get("group")+"/"+r.get("subgroup")]
	if !ok {
		return "", r.errorf("subgroup %q is not one of %s", r.get("subgroup"), r.get("group"))
	}
	return name, nil
}

// oneOf tells the place of a cell in a list.
func (r row) oneOf(column string, list []string) (int, error) {
	i := slices.Index(list, r.get(column))
	if i < 0 {
		return 0, r.errorf("%s %q is not one of the list", column, r.get(column))
	}
	return i, nil
}

func (r row) origin() string { return "rule." + camel(r.get("origin")) }

// whole reads a cell that is a whole number in bounds; empty is 0.
func (r row) whole(column string, low, high int) (int, error) {
	text := r.get(column)
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < low || n > high {
		return 0, r.errorf("%s %q is not a whole number from %d to %d", column, text, low, high)
	}
	return n, nil
}

// fraction reads "2", "2/3" or "1 2/3" as n/d; empty is 0/1.
func (r row) fraction(column string) (n, d int, err error) {
	text := r.get(column)
	bad := r.errorf("%s %q is not a number such as 2, 2/3 or 1 2/3", column, text)
	for _, word := range strings.Fields(text) {
		num, den, has := strings.Cut(word, "/")
		a, err1 := strconv.Atoi(num)
		k, err2 := 1, error(nil)
		if has {
			k, err2 = strconv.Atoi(den)
		}
		if err1 != nil || err2 != nil || a < 0 || k <= 0 || d > 1 || (d == 1 && !has) {
			return 0, 0, bad
		}
		n, d = n*k+a, k
	}
	return n, max(d, 1), nil
}

// in reads a fraction as a whole number of 1/parts.
func (r row) in(column string, parts int) (int, error) {
	n, d, err := r.fraction(column)
	if err == nil && n*parts%d != 0 {
		err = r.errorf("%s %q is no multiple of 1/%d", column, r.get(column), parts)
	}
	return n * parts / d, err
}

// packInfo lists the tables themselves for the evidence view.
func (all guideRows) packInfo(b *strings.Builder) {
	b.WriteString("var tableInfos = [...]rule.TableInfo{\n")
	for _, t := range guideTables {
		fmt.Fprintf(b, "{Name: %q, Rows: %d, Sources: []rule.SourceCount{\n", t.name, len(all[t.name]))
		count := map[string]int{}
		var keys []string
		for _, r := range all[t.name] {
			k := fmt.Sprintf("Source: %q, Origin: %s", r.get("source"), r.origin())
			if count[k]++; count[k] == 1 {
				keys = append(keys, k)
			}
		}
		slices.Sort(keys)
		for _, k := range keys {
			fmt.Fprintf(b, "{%s, Rows: %d},\n", k, count[k])
		}
		b.WriteString("}},\n")
	}
	b.WriteString("}\n")
}
