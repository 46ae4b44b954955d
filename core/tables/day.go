package main

import (
	"fmt"
	"strings"
)

// makeWays packs the everyday measures that close gaps.
func makeWays() (string, error) {
	rows, err := read("core/day/data/ways.csv", "group", "subgroup", "food", "form", "by", "measure", "step", "most", "source", "origin")
	if err != nil {
		return "", err
	}
	subgroups := map[string]string{"": "NoSubgroup", "fruit/whole": "WholeFruit", "grain/whole": "WholeGrain", "grain/refined": "RefinedGrain"}
	var b strings.Builder
	for _, r := range rows {
		sub := r.get("subgroup")
		if sub != "" {
			sub = r.get("group") + "/" + sub
		}
		subgroup, ok := subgroups[sub]
		if !ok {
			return "", r.errorf("subgroup %q is not known here", sub)
		}
		step, err1 := eighths(r.get("step"))
		most, err2 := eighths(r.get("most"))
		if err1 != nil || err2 != nil || step <= 0 || most < step {
			return "", r.errorf("step %q and most %q must be eighths, the step not above the most", r.get("step"), r.get("most"))
		}
		fmt.Fprintf(&b, "{food.%s, food.%s, %q, food.%s, portion.By%s, %q, %d, %d, %q, rule.%s},\n",
			camel(r.get("group")), subgroup, r.get("food"), camel(r.get("form")), camel(r.get("by")), r.get("measure"), step, most, r.get("source"), camel(r.get("origin")))
	}
	return fmt.Sprintf(`package day

import (
"cupsum/core/food"
"cupsum/core/portion"
"cupsum/core/rule"
)

var wayRows = [...]wayRow{
%s}
`, b.String()), nil
}

// eighths reads "1 1/2" as 12.
func eighths(s string) (int, error) {
	whole, frac, mixed := strings.Cut(s, " ")
	if !mixed && strings.Contains(whole, "/") {
		whole, frac = "0", whole
	}
	var w, n, d int
	if _, err := fmt.Sscanf(whole, "%d", &w); err != nil {
		return 0, err
	}
	if frac == "" {
		return 8 * w, nil
	}
	if _, err := fmt.Sscanf(frac, "%d/%d", &n, &d); err != nil {
		return 0, err
	}
	if d <= 0 || 8*n%d != 0 {
		return 0, fmt.Errorf("%q is not eighths", s)
	}
	return 8*w + 8*n/d, nil
}
