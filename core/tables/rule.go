package main

import (
	"fmt"
	"slices"
	"strings"
)

func makeRules() (string, error) {
	rows, err := read("core/rule/data/*.csv", "id", "title", "text", "source", "origin")
	if err != nil {
		return "", err
	}
	slices.SortFunc(rows, func(a, b row) int { return strings.Compare(a.get("id"), b.get("id")) })
	var consts, table strings.Builder
	last := ""
	for _, r := range rows {
		id := r.get("id")
		if id == last {
			return "", r.errorf("the id %q is there already", id)
		}
		last = id
		if r.get("title") == "" || r.get("text") == "" {
			return "", r.errorf("%s has no title or no text", id)
		}
		fmt.Fprintf(&consts, "%s ID = %q // %s\n", camel(id), id, r.get("title"))
		fmt.Fprintf(&table, "{%s, %q, %q, %q, %s},\n", camel(id), r.get("title"), r.get("text"), r.get("source"), camel(r.get("origin")))
	}
	return fmt.Sprintf(`package rule

// The rules of data.
const (
%s)

// Rules lists every rule, sorted by ID.
var Rules = []Rule{
%s}
`, consts.String(), table.String()), nil
}

// makeChecks packs the list of tests that hold the rules and tables.
func makeChecks() (string, error) {
	rows, err := read("core/rule/data/checks/*.csv", "test", "what", "rules", "tables", "source", "origin")
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for _, r := range rows {
		if r.get("what") == "" || r.get("rules") == "" && r.get("tables") == "" {
			return "", r.errorf("%s holds nothing, or does not say what", r.get("test"))
		}
		fmt.Fprintf(&b, "{%q, %q, %q, %q, %q, %s},\n", r.get("test"), r.get("what"), r.get("rules"), r.get("tables"), r.get("source"), camel(r.get("origin")))
	}
	return "package rule\n\n// Checks lists the tests that hold the rules and tables.\nvar Checks = []Check{\n" + b.String() + "}\n", nil
}
