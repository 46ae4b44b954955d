package main

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// A foodPacker writes records in the layout that core/food/packed.go explains.
type foodPacker struct {
	out   []byte
	texts map[string]int // place of each text
}

func packFoods(foods []*foodEntry) string {
	texts := foodTexts(foods)
	p := foodPacker{texts: map[string]int{}}
	for i, t := range texts {
		p.texts[t] = i
	}
	var names []string
	var at, forms []int
	var records strings.Builder
	for _, f := range foods {
		name := f.get("name")
		if name == strings.ReplaceAll(f.get("id"), "-", " ") {
			name = "" // made from the id
		}
		names = append(names, f.get("id"), name, strings.Join(otherNames(f), ";"))
		at = append(at, len(p.out))
		p.food(f)
		set := 0
		for _, d := range f.forms {
			set |= 1 << place(formNames, d.get("form"))
		}
		forms = append(forms, set)
		fmt.Fprintf(&records, "%s // %s\n", integers(p.out[at[len(at)-1]:]), f.get("id"))
	}
	offset := "uint16"
	if len(p.out) > 0xffff {
		offset = "uint32"
	}
	return fmt.Sprintf(`package food

// foodAt is where each food's record starts.
var foodAt = [...]%s{%s}

// foodForms is the set of each food's forms, a bit for each.
var foodForms = [...]uint16{%s}

var foodBytes = [...]byte{
%s}

%s
%s`, offset, integers(at), integers(forms), records.String(), textLiteral("name", names), textLiteral("text", texts))
}

// otherNames lists a food's other names but those that search can't tell from
// one before: strawberry beside strawberries.
func otherNames(f *foodEntry) []string {
	var kept []string
	seen := map[string]bool{"": true, searchKey(f.get("name")): true}
	for _, n := range strings.Split(f.get("also"), ";") {
		if key := searchKey(n); !seen[key] {
			seen[key] = true
			kept = append(kept, n)
		}
	}
	return kept
}

func textLiteral(name string, all []string) string {
	var marks, sizes []int
	at := 0
	for i, t := range all {
		if i%16 == 0 {
			marks = append(marks, at)
		}
		sizes = append(sizes, len(t))
		at += len(t)
	}
	return fmt.Sprintf("const %ss = %q\n\nvar %sMarks = [...]uint32{%s}\n\nvar %sSizes = [...]uint16{%s}\n",
		name, strings.Join(all, ""), name, integers(marks), name, integers(sizes))
}

func integers[T ~int | ~uint8](list []T) string {
	var b strings.Builder
	for _, v := range list {
		fmt.Fprintf(&b, "%d,", v)
	}
	return b.String()
}

// foodTexts lists every text of the records once, the commonest first, so that
// their places are short numbers.
func foodTexts(foods []*foodEntry) []string {
	count := map[string]int{}
	add := func(r row, columns ...string) {
		for _, c := range columns {
			count[r.get(c)]++
		}
	}
	for _, f := range foods {
		add(f.row, "source")
		for _, c := range cautions(f.row) {
			count[c]++
		}
		for _, d := range f.forms {
			add(d.row, "class", "source", "note")
			for _, r := range d.pieces {
				add(r, "piece", "source", "size")
			}
			for _, r := range d.parts {
				add(r, "class", "source")
			}
		}
	}
	return slices.SortedFunc(maps.Keys(count), func(a, b string) int {
		return cmp.Or(cmp.Compare(count[b], count[a]), strings.Compare(a, b))
	})
}

func cautions(r row) []string {
	return strings.FieldsFunc(r.get("cautions"), func(c rune) bool { return c == ';' })
}

func (p *foodPacker) number(v int) {
	for v >= 0x80 {
		p.out = append(p.out, byte(v)|0x80)
		v >>= 7
	}
	p.out = append(p.out, byte(v))
}

func (p *foodPacker) text(s string) { p.number(p.texts[s]) }

func (p *foodPacker) decimals(r row, columns ...string) {
	for _, c := range columns {
		v, _ := parseDecimal(r.get(c)) // checked before
		p.number(v.packed())
	}
}

func (p *foodPacker) origin(r row) {
	p.number(place([]string{"published", "practice", "memory"}, r.get("origin")))
}

func (p *foodPacker) food(f *foodEntry) {
	group := f.get("group")
	p.number(place(groupNames, group))
	p.number(subgroupPlace(group, f.get("subgroup")))
	p.number(place(colourNames, f.get("colour")))
	p.number(flags(f.get("calcium") != ""))
	p.text(f.get("source"))
	p.origin(f.row)
	p.number(len(cautions(f.row)))
	for _, c := range cautions(f.row) {
		p.text(c)
	}
	p.number(len(f.forms))
	for _, d := range f.forms {
		p.form(d)
	}
}

// flags puts the first condition in the lowest bit.
func flags(on ...bool) int {
	v := 0
	for i, b := range on {
		if b {
			v |= 1 << i
		}
	}
	return v
}

func (p *foodPacker) form(d *formEntry) {
	has := func(c string) bool { return d.get(c) != "" }
	p.number(place(formNames, d.get("form")))
	p.text(d.get("class"))
	p.text(d.get("source"))
	p.origin(d.row)
	p.number(flags(has("eq_cup"), has("eq_100g"), has("g_cup"), has("g_cup_low") || has("g_cup_high"), has("g_label_cup"),
		has("drained"), has("cooked_g"), has("edible"), has("note"), len(d.pieces) > 0, len(d.parts) > 0))
	for _, c := range []string{"eq_cup", "eq_100g", "g_cup"} {
		if has(c) {
			p.decimals(d.row, c)
		}
	}
	if has("g_cup_low") || has("g_cup_high") {
		p.ends(d.row, "g_cup")
	}
	if has("g_label_cup") {
		p.decimals(d.row, "g_label_cup")
	}
	if has("drained") {
		low, high := "drained_low", "drained_high"
		if !has(low) {
			low = "drained"
		}
		if !has(high) {
			high = "drained"
		}
		p.decimals(d.row, low, "drained", high)
	}
	for _, c := range []string{"cooked_g", "edible"} {
		if has(c) {
			p.decimals(d.row, c)
		}
	}
	if has("note") {
		p.text(d.get("note"))
	}
	if len(d.pieces) > 0 {
		p.number(len(d.pieces))
		for _, r := range d.pieces {
			p.piece(r)
		}
	}
	if len(d.parts) > 0 {
		p.number(len(d.parts))
		for _, r := range d.parts {
			p.number(place(groupNames, r.get("group")))
			p.number(subgroupPlace(r.get("group"), r.get("subgroup")))
			p.text(r.get("class"))
			p.decimals(r, "eq_100g")
			p.text(r.get("source"))
			p.origin(r)
		}
	}
}

// ends packs the low and the high end of a column; an empty one is the best.
func (p *foodPacker) ends(r row, column string) {
	for _, c := range []string{column + "_low", column + "_high"} {
		if r.get(c) == "" {
			c = column
		}
		p.decimals(r, c)
	}
}

func (p *foodPacker) piece(r row) {
	has := func(c string) bool { return r.get(c) != "" }
	p.text(r.get("piece"))
	p.text(r.get("source"))
	p.origin(r)
	ranged := has("eq_low") || has("eq_high")
	p.number(flags(has("g"), has("count"), has("eq"), ranged, has("size")))
	if has("size") {
		p.text(r.get("size"))
	}
	for _, c := range []string{"g", "count", "eq"} {
		if has(c) {
			p.decimals(r, c)
		}
	}
	if ranged {
		p.ends(r, "eq")
	}
}

// A decimal is digits with so many behind the point.
type decimal struct{ digits, places int }

func (d decimal) packed() int { return d.digits<<2 | d.places }

// parseDecimal reads a plain decimal with at most three decimals and cuts
// zeros at its end.
func parseDecimal(s string) (decimal, error) {
	v, err := scaled(s, 3)
	if err != nil || v > 1<<40 {
		return decimal{}, fmt.Errorf("%q is not a plain decimal with at most 3 decimals", s)
	}
	d := decimal{int(v), 3}
	for d.places > 0 && d.digits%10 == 0 {
		d.digits /= 10
		d.places--
	}
	return d, nil
}

// thousandths is the decimal as a whole number of thousandths.
func (d decimal) thousandths() int { return d.digits * [...]int{1000, 100, 10, 1}[d.places] }
