package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// makeLabel packs the tables of core/label: claims, packing media, rinsing.
func makeLabel() (string, error) {
	var b strings.Builder
	b.WriteString("package label\n\nimport \"cupsum/core/rule\"\n\n")
	for _, make := range []func(*strings.Builder) error{makeClaims, makeMedia, makeRinsing} {
		if err := make(&b); err != nil {
			return "", err
		}
	}
	return b.String(), nil
}

func makeClaims(b *strings.Builder) error {
	rows, err := read("core/label/data/claims.csv", "id", "nutrient", "limit", "terms", "source", "origin")
	if err != nil {
		return err
	}
	b.WriteString("var claimRows = [...]claimRow{\n")
	seen := map[string]bool{}
	for _, r := range rows {
		limit, err := scaled(r.get("limit"), 1)
		if err != nil || limit > 2000 {
			return r.errorf("limit %q is not a decimal up to 200", r.get("limit"))
		}
		n, err := nutrientConst(r)
		if err != nil {
			return err
		}
		if err := once(seen, r, r.get("id")); err != nil {
			return err
		}
		if err := terms(seen, r); err != nil {
			return err
		}
		fmt.Fprintf(b, "{%q, %s, %d, %q, %q, rule.%s},\n", r.get("id"), n, limit, r.get("terms"), r.get("source"), camel(r.get("origin")))
	}
	b.WriteString("}\n\n")
	return nil
}

func makeMedia(b *strings.Builder) error {
	rows, err := read("core/label/data/media.csv", "id", "order", "form", "terms", "source", "origin")
	if err != nil {
		return err
	}
	b.WriteString("var mediumRows = [...]mediumRow{\n{},\n")
	seen := map[string]bool{}
	var consts strings.Builder
	for i, r := range rows {
		if r.get("order") != strconv.Itoa(i+1) {
			return r.errorf("order %q is not %d: rows go best first", r.get("order"), i+1)
		}
		if !slices.Contains([]string{"canned-water", "canned-juice", "canned-light", "canned-heavy"}, r.get("form")) {
			return r.errorf("form %q is no packing", r.get("form"))
		}
		if err := once(seen, r, r.get("id")); err != nil {
			return err
		}
		if err := terms(seen, r); err != nil {
			return err
		}
		fmt.Fprintf(&consts, "Medium%s Medium = %d\n", camel(r.get("id")), i+1)
		fmt.Fprintf(b, "{%q, %q, %q, %q, rule.%s},\n", r.get("id"), r.get("form"), r.get("terms"), r.get("source"), camel(r.get("origin")))
	}
	fmt.Fprintf(b, "}\n\n// The packing media of data/media.csv, best first.\nconst (\nNoMedium Medium = 0\n%s)\n\n", consts.String())
	return nil
}

func makeRinsing(b *strings.Builder) error {
	rows, err := read("core/label/data/rinsing.csv", "food", "treatment", "nutrient", "percent", "study", "source", "origin")
	if err != nil {
		return err
	}
	b.WriteString("var rinseRows = [...]rinseRow{\n")
	for _, r := range rows {
		p, minus := strings.CutPrefix(r.get("percent"), "-")
		tenths, err := scaled(p, 1)
		if err != nil || tenths > 1000 {
			return r.errorf("percent %q is not a decimal up to 100", r.get("percent"))
		}
		if minus {
			tenths = -tenths
		}
		n, err := nutrientConst(r)
		if err != nil {
			return err
		}
		if r.get("food") == "" || r.get("study") == "" || !slices.Contains([]string{"drained", "rinsed", "fresh-water", "light-for-heavy", "juice-for-heavy", "water-for-heavy"}, r.get("treatment")) {
			return r.errorf("food, study or treatment %q is missing or not known", r.get("treatment"))
		}
		fmt.Fprintf(b, "{%q, %q, %s, %d, %q, %q, rule.%s},\n", r.get("food"), r.get("treatment"), n, tenths, r.get("study"), r.get("source"), camel(r.get("origin")))
	}
	b.WriteString("}\n")
	return nil
}

func nutrientConst(r row) (string, error) {
	switch r.get("nutrient") {
	case "sodium":
		return "Sodium", nil
	case "sugars":
		return "TotalSugars", nil
	case "calories":
		return "Calories", nil
	}
	return "", r.errorf("nutrient %q is not sodium, sugars or calories", r.get("nutrient"))
}

func once(seen map[string]bool, r row, id string) error {
	if id == "" || seen["id:"+id] {
		return r.errorf("the id %q is missing or there already", id)
	}
	seen["id:"+id] = true
	return nil
}

// terms checks that no term stands for two things.
func terms(seen map[string]bool, r row) error {
	for _, t := range strings.Split(r.get("terms"), ";") {
		if t == "" || t != strings.ToLower(t) || seen[t] {
			return r.errorf("the term %q is empty, not lower case or there already", t)
		}
		seen[t] = true
	}
	return nil
}
