package main

import (
	"fmt"
	"strings"
)

func makeUnits() (string, error) {
	rows, err := read("core/amount/data/units.csv", "id", "kind", "names", "customary", "label", "source", "origin")
	if err != nil {
		return "", err
	}
	var consts, table, names strings.Builder
	kinds := map[string]string{"volume": "Volume", "weight": "Weight"}
	seen := map[string]string{}
	for i, r := range rows {
		id, kind := r.get("id"), kinds[r.get("kind")]
		if kind == "" {
			return "", r.errorf("kind %q is not volume or weight", r.get("kind"))
		}
		c, err1 := scaled(r.get("customary"), 11)
		l, err2 := scaled(r.get("label"), 11)
		if err1 != nil || err2 != nil {
			return "", r.errorf("sizes %q and %q must be decimals", r.get("customary"), r.get("label"))
		}
		name := camel(id)
		fmt.Fprintf(&consts, "%s Unit = %d\n", name, i+1)
		fmt.Fprintf(&table, "{%q, %s, %d, %d, %q, rule.%s},\n", id, kind, c, l, r.get("source"), camel(r.get("origin")))
		for _, n := range strings.Split(r.get("names"), ";") {
			if other, dup := seen[n]; dup {
				return "", r.errorf("the name %q is %s already", n, other)
			}
			seen[n] = id
			fmt.Fprintf(&names, "{%q, %s},\n", n, name)
		}
	}
	return fmt.Sprintf(`package amount

import "cupsum/core/rule"

// The units of data/units.csv.
const (
NoUnit Unit = 0
%s)

var unitRows = [...]unitRow{
{},
%s}

var unitNames = [...]struct{
name string
unit Unit
}{
%s}
`, consts.String(), table.String(), names.String()), nil
}

// scaled reads a decimal as a whole number of 10^-places.
func scaled(s string, places int) (int64, error) {
	whole, frac, _ := strings.Cut(s, ".")
	if len(frac) > places {
		return 0, fmt.Errorf("%q has more than %d decimals", s, places)
	}
	digits := whole + frac + strings.Repeat("0", places-len(frac))
	var v int64
	for _, c := range digits {
		if c < '0' || c > '9' || v > 1<<59 {
			return 0, fmt.Errorf("%q is not a decimal", s)
		}
		v = v*10 + int64(c-'0')
	}
	if whole == "" && frac == "" {
		return 0, fmt.Errorf("a decimal is missing")
	}
	return v, nil
}

// camel turns "fl-oz" into "FlOz".
func camel(id string) string {
	var b strings.Builder
	for _, part := range strings.FieldsFunc(id, func(c rune) bool { return c == '-' || c == '.' }) {
		b.WriteString(strings.ToUpper(part[:1]) + part[1:])
	}
	return b.String()
}
