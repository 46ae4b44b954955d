package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// plausible holds, by group and basis, the largest factor that a crediting row
// may have: a slip of the keyboard (a cup of nut butter that counts as 160
// ounces) stops the build.
var plausible = map[string]int{
	"fruit/cup": 2, "vegetable/cup": 2, "grain/cup": 4, "grain/ounce": 1, "grain/100g": 1,
	"protein/cup": 16, "protein/ounce": 2, "protein/100g": 1, "protein/piece": 2,
	"dairy/cup": 2, "dairy/ounce": 1, "dairy/100g": 1, "oil/100g": 1, "oil/cup": 48,
}

func (all guideRows) packCrediting(b *strings.Builder, src *sources) error {
	rules, err := ruleIDs()
	if err != nil {
		return err
	}
	type packed struct {
		key, text string
	}
	var rows []packed
	seen := map[string]string{}
	for _, r := range all["crediting"] {
		ed, err1 := r.oneOf("edition", guideEditions)
		_, err2 := r.oneOf("class", guideClasses)
		group, err3 := r.from("group", guideGroups)
		sub, err4 := r.subgroup()
		per, err5 := r.from("per", guideBases)
		unit, err6 := r.from("unit", guideUnits)
		n, d, err7 := r.fraction("factor")
		for _, err := range []error{err1, err2, err3, err4, err5, err6, err7} {
			if err != nil {
				return err
			}
		}
		if top, ok := plausible[r.get("group")+"/"+r.get("per")]; n <= 0 || !ok || n > top*d {
			return r.errorf("factor %q is not plausible for %s per %s: above 0, at most %d", r.get("factor"), r.get("group"), r.get("per"), top)
		}
		if !rules[r.get("rule")] {
			return r.errorf("rule %q is not in core/rule/data", r.get("rule"))
		}
		if c := r.get("cooked"); c != "" && c != "yes" {
			return r.errorf("cooked %q is not yes or empty", c)
		}
		key := fmt.Sprintf("%d/%s/%s/%s", ed, r.get("class"), r.get("group"), r.get("subgroup"))
		if at, dup := seen[key]; dup {
			return r.errorf("the same edition, class, group and subgroup are in %s already", at)
		}
		seen[key] = r.at
		rows = append(rows, packed{
			fmt.Sprintf("%d/%s", ed, r.get("class")),
			fmt.Sprintf("{%d, %q, %s, %s, %s, %s, %t, %d, %d, rule.%s, %d, %s},\n", ed, r.get("class"), group, sub, per, unit, r.get("cooked") == "yes", n, d, camel(r.get("rule")), src.of(r), r.origin()),
		})
	}
	slices.SortStableFunc(rows, func(a, b packed) int { return strings.Compare(a.key, b.key) })
	fmt.Fprintf(b, "var editionIDs = [...]EditionID{\"%s\"}\n\n", strings.Join(guideEditions, `", "`))
	fmt.Fprintf(b, "var classIDs = [...]food.Class{\"%s\"}\n\n", strings.Join(guideClasses, `", "`))
	b.WriteString("var oneRows = [...]oneRow{\n")
	for _, r := range rows {
		b.WriteString(r.text)
	}
	b.WriteString("}\n\n")
	return nil
}

// ruleIDs lists the rules that there are.
func ruleIDs() (map[string]bool, error) {
	rows, err := read("core/rule/data/*.csv", "id", "title", "text", "source", "origin")
	if err != nil {
		return nil, err
	}
	ids := map[string]bool{}
	for _, r := range rows {
		ids[r.get("id")] = true
	}
	return ids, nil
}

// packSets packs the sets with their targets side by side: a set knows where
// its targets begin and how many they are.
func (all guideRows) packSets(b *strings.Builder, src *sources) error {
	bySet := map[string][]row{}
	for _, r := range all["targets"] {
		bySet[r.get("set")] = append(bySet[r.get("set")], r)
	}
	var sets, targets strings.Builder
	first := 0
	seen := map[string]string{}
	for _, r := range all["sets"] {
		id := r.get("id")
		if at, dup := seen[id]; dup {
			return r.errorf("the id %q is in %s already", id, at)
		}
		seen[id] = r.at
		ed, err1 := r.oneOf("edition", guideEditions)
		_, err2 := r.oneOf("pattern", guidePatterns)
		level, err3 := r.whole("level", 600, 4000)
		from, err4 := r.whole("age_from", 1, 120)
		to, err5 := r.whole("age_to", 1, 120)
		kcal, err6 := r.whole("other_kcal", 0, 1000)
		percent, err7 := r.whole("other_percent", 0, 30)
		for _, err := range []error{err1, err2, err3, err4, err5, err6, err7} {
			if err != nil {
				return err
			}
		}
		mine := bySet[id]
		if len(mine) == 0 {
			return r.errorf("the set %q has no targets", id)
		}
		delete(bySet, id)
		worst, err := packTargets(&targets, mine)
		if err != nil {
			return err
		}
		if worst != r.get("origin") {
			return r.errorf("the set is marked %s, but the least sure of its daily targets is %s", r.get("origin"), worst)
		}
		fmt.Fprintf(&sets, "{%q, %q, %d, %d, %d, %d, %d, %d, %d, %d, %d, %s},\n", id, r.get("pattern"), ed, level, from, to, kcal, percent, first, len(mine), src.of(r), r.origin())
		first += len(mine)
	}
	for _, r := range all["targets"] {
		if _, left := bySet[r.get("set")]; left {
			return r.errorf("the set %q is not in sets.csv", r.get("set"))
		}
	}
	fmt.Fprintf(b, "var setRows = [...]setRow{\n%s}\n\n", sets.String())
	fmt.Fprintf(b, "// targetRows holds the sets' targets, in twelfths.\nvar targetRows = [...]targetRow{\n%s}\n\n", targets.String())
	return nil
}

// packTargets packs one set's targets and tells the least sure origin of the
// daily ones.
func packTargets(b *strings.Builder, rows []row) (worst string, err error) {
	sure := []string{"published", "practice", "memory"}
	seen := map[string]string{}
	worst = sure[0]
	for _, r := range rows {
		group, err1 := r.from("group", guideGroups)
		sub, err2 := r.subgroup()
		part, err3 := r.from("part", guideParts)
		unit, err4 := r.from("unit", guideUnits)
		low, err5 := r.in("low", 12)
		high, err6 := r.in("high", 12)
		for _, err := range []error{err1, err2, err3, err4, err5, err6} {
			if err != nil {
				return "", err
			}
		}
		week := r.get("period") == "week"
		if !week && r.get("period") != "day" {
			return "", r.errorf("period %q is not day or week", r.get("period"))
		}
		if top := mostTarget(r.get("unit"), week); low == 0 && high == 0 || high != 0 && high < low || max(low, high) > top*12 {
			return "", r.errorf("low %q and high %q are not a target: one is needed, low at most high, both at most %d", r.get("low"), r.get("high"), top)
		}
		key := strings.Join([]string{r.get("group"), r.get("subgroup"), r.get("part"), r.get("period")}, "/")
		if at, dup := seen[key]; dup {
			return "", r.errorf("a target for %s is in %s already", key, at)
		}
		seen[key] = r.at
		if !week && slices.Index(sure, r.get("origin")) > slices.Index(sure, worst) {
			worst = r.get("origin")
		}
		fmt.Fprintf(b, "{%s, %s, %s, %d, %d, %s, %t, %s},\n", group, sub, part, low, high, unit, week, r.origin())
	}
	return worst, nil
}

// mostTarget is the largest target that is plausible.
func mostTarget(unit string, week bool) int {
	switch {
	case unit == "g-oil":
		return 100
	case week:
		return 60
	}
	return 20
}

func (all guideRows) packCalories(b *strings.Builder, _ *sources) error {
	b.WriteString("var calorieRows = [...]calorieRow{\n")
	next := map[string]int{"male": 2, "female": 2}
	for _, r := range all["calories"] {
		sex, err1 := r.from("sex", map[string]string{"male": "Male", "female": "Female"})
		from, err2 := r.whole("from", 2, 120)
		to, err3 := r.whole("to", 2, 120)
		s, err4 := r.whole("sedentary", 800, 4000)
		m, err5 := r.whole("moderate", 800, 4000)
		a, err6 := r.whole("active", 800, 4000)
		for _, err := range []error{err1, err2, err3, err4, err5, err6} {
			if err != nil {
				return err
			}
		}
		if from != next[r.get("sex")] || to != 0 && to < from {
			return r.errorf("ages %d to %d don't follow on: %d is next", from, to, next[r.get("sex")])
		}
		if s > m || m > a || s%200 != 0 || m%200 != 0 || a%200 != 0 {
			return r.errorf("%d, %d and %d are not rising steps of 200", s, m, a)
		}
		if to == 0 {
			to = 120
		}
		next[r.get("sex")] = to + 1
		fmt.Fprintf(b, "{%s, %d, %d, [3]int16{%d, %d, %d}},\n", sex, from, to, s, m, a)
	}
	b.WriteString("}\n\n")
	for _, sex := range []string{"female", "male"} {
		if next[sex] != 121 {
			return fmt.Errorf("the calorie table for %s ends at %d", sex, next[sex])
		}
	}
	return nil
}

func (all guideRows) packHands(b *strings.Builder, src *sources) error {
	b.WriteString("// handRows holds the hand measures, in 24ths.\nvar handRows = [...]handRow{\n")
	units := map[string]string{"cup": "amount.Cup", "tbsp": "amount.Tbsp", "tsp": "amount.Tsp", "oz": "amount.Oz"}
	seen := map[string]string{}
	for _, r := range all["hands"] {
		if at, dup := seen[r.get("id")]; dup || r.get("id") == "" {
			return r.errorf("the id %q is in %s already", r.get("id"), at)
		}
		seen[r.get("id")] = r.at
		unit, err := r.from("unit", units)
		if err != nil {
			return err
		}
		var v []int
		for _, c := range []string{"least", "low", "best", "high", "most"} {
			n, err := r.in(c, 24)
			if err != nil {
				return err
			}
			v = append(v, n)
		}
		if v[0] <= 0 || !slices.IsSorted(v) {
			return r.errorf("least, low, best, high and most don't rise")
		}
		fmt.Fprintf(b, "{%q, %s, %d, %d, %d, %d, %d, %d, %s},\n", r.get("id"), unit, v[0], v[1], v[2], v[3], v[4], src.of(r), r.origin())
	}
	b.WriteString("}\n\n")
	return nil
}

// packCautions packs each caution with its conditions. In the table,
// alternatives are separated by ";" and what must hold together by "+".
func (all guideRows) packCautions(b *strings.Builder, src *sources) error {
	var rows, conds strings.Builder
	first := 0
	seen := map[string]string{}
	words, err := messageIDs("app/lang/data/en/*.csv")
	if err != nil {
		return err
	}
	for _, r := range all["cautions"] {
		id := r.get("id")
		if at, dup := seen[id]; dup || id == "" {
			return r.errorf("the id %q is in %s already", id, at)
		}
		seen[id] = r.at
		if !words["caution."+id] {
			return r.errorf("there is no message caution.%s", id)
		}
		place, count := "InFood", 0
		for alt := range strings.SplitSeq(r.get("when"), ";") {
			switch alt {
			case "hand", "target", "page":
				place = "In" + camel(alt)
				continue
			}
			text, err := condition(r, alt)
			if err != nil {
				return err
			}
			conds.WriteString(text)
			count++
		}
		fmt.Fprintf(&rows, "{%q, %s, %d, %d, %d, %s},\n", id, place, first, count, src.of(r), r.origin())
		first += count
	}
	fmt.Fprintf(b, "var cautionRows = [...]cautionRow{\n%s}\n\n", rows.String())
	fmt.Fprintf(b, "var conditions = [...]condition{\n%s}\n\n", conds.String())
	return nil
}

func condition(r row, alt string) (string, error) {
	listed, group, form, class := "false", "food.Extra", "food.NoForm", `""`
	for c := range strings.SplitSeq(alt, "+") {
		kind, key, _ := strings.Cut(c, ":")
		ok := true
		switch kind {
		case "food":
			listed = "true"
		case "form":
			form, ok = guideForms[key]
		case "group":
			group, ok = guideGroups[key]
		case "class":
			class, ok = fmt.Sprintf("%q", key), slices.Contains(guideClasses, key)
		default:
			ok = false
		}
		if !ok {
			return "", r.errorf("when %q is not hand, target, page, food, form:, group: or class: of the lists", c)
		}
	}
	return fmt.Sprintf("{%s, %s, %s, %s},\n", listed, group, form, class), nil
}

// messageIDs lists the messages of a language.
func messageIDs(pattern string) (map[string]bool, error) {
	files, err := filepath.Glob(pattern)
	if err != nil {
		return nil, err
	}
	ids := map[string]bool{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		for line := range strings.SplitSeq(string(text), "\n") {
			id, _, _ := strings.Cut(line, ",")
			ids[id] = true
		}
	}
	return ids, nil
}
