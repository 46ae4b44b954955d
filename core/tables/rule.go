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
