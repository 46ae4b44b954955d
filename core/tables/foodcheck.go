package main

import (
	"encoding/csv"
	"os"
	"strings"

	"cupsum/core/food/spell"
)

// checkFoods finds what is wrong with the joined catalogue: words outside the
// lists, figures outside plausible bounds, forms without a measure, names that
// search could not tell apart. Every error names its file and line.
func checkFoods(foods []*foodEntry) []error {
	var c foodChecker
	c.names = map[string]row{}
	c.known = knownCautions()
	for _, f := range foods {
		c.food(f)
		for _, d := range f.forms {
			c.form(f, d)
		}
	}
	return c.errs
}

type foodChecker struct {
	errs  []error
	names map[string]row // food by search key
	known map[string]bool
}

func (c *foodChecker) wrong(r row, text string, args ...any) {
	c.errs = append(c.errs, r.errorf(text, args...))
}

// knownCautions reads the ids of guide's cautions, the first column of their
// table; nil while there is none.
func knownCautions() map[string]bool {
	f, err := os.Open("core/guide/data/cautions.csv")
	if err != nil {
		return nil
	}
	defer f.Close()
	recs, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil // guide's own maker reports it
	}
	ids := map[string]bool{}
	for _, r := range recs[1:] {
		ids[r[0]] = true
	}
	return ids
}

func (c *foodChecker) food(f *foodEntry) {
	id, group := f.get("id"), f.get("group")
	if !isKey(id) {
		c.wrong(f.row, "the id %q is not of lower-case letters, digits and single hyphens", id)
	}
	if place(groupNames, group) < 0 {
		c.wrong(f.row, "there is no group %q", group)
		return
	}
	sub := f.get("subgroup")
	switch {
	case subgroupPlace(group, sub) < 0:
		c.wrong(f.row, "%s has no subgroup %q", group, sub)
	case sub == "" && !hasWord("extra oil mixed", group):
		c.wrong(f.row, "a food of the group %s needs a subgroup", group)
	}
	colour := f.get("colour")
	if place(colourNames, colour) < 0 || colour != "" && !hasWord("fruit vegetable", group) {
		c.wrong(f.row, "the colour %q is outside the list for %s", colour, group)
	}
	if v := f.get("calcium"); v != "" && v != "yes" {
		c.wrong(f.row, "calcium is %q, not yes or empty", v)
	}
	if f.get("calcium") != "" && group == "dairy" {
		c.wrong(f.row, "calcium marks sources outside the dairy group")
	}
	for _, caution := range strings.Split(f.get("cautions"), ";") {
		if caution != "" && (!isKey(caution) || c.known != nil && !c.known[caution]) {
			c.wrong(f.row, "there is no caution %q", caution)
		}
	}
	if len(f.forms) == 0 {
		c.wrong(f.row, "%s has no form", id)
	}
	c.name(f, f.get("name"))
	c.name(f, strings.ReplaceAll(id, "-", " ")) // search knows it too
	if also := f.get("also"); also != "" {
		for _, n := range strings.Split(also, ";") {
			c.name(f, n)
		}
	}
}

// name holds that search can tell the name from all others.
func (c *foodChecker) name(f *foodEntry, name string) {
	key := searchKey(name)
	switch {
	case key == "":
		c.wrong(f.row, "the name %q has no letters to search by", name)
	case name != strings.TrimSpace(name) || len(name) > 60:
		c.wrong(f.row, "the name %q is too long or has spaces around it", name)
	case c.names[key].values != nil && c.names[key].at != f.at: // a food may repeat itself: jícama, jicama
		c.wrong(f.row, "the name %q clashes with %s of %s in search", name, c.names[key].get("id"), c.names[key].at)
	default:
		c.names[key] = f.row
	}
}

// searchKey is what search sees of a name: its words, singular and plural
// alike.
func searchKey(name string) string {
	var key []byte
	for _, w := range strings.Fields(string(spell.Clean(nil, name))) {
		if len(key) > 0 {
			key = append(key, ' ')
		}
		key = spell.Fold(key, []byte(w))
	}
	return string(key)
}

func isKey(s string) bool {
	return s != "" && strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789-") == "" && !strings.Contains("-"+s+"-", "--")
}

func (c *foodChecker) form(f *foodEntry, d *formEntry) {
	class := d.get("class")
	rule, ok := classRules[class]
	if !ok {
		c.wrong(d.row, "there is no class %q", class)
		return
	}
	if !hasWord(rule.groups, f.get("group")) {
		c.wrong(d.row, "the class %s does not fit a food of the group %s", class, f.get("group"))
	}
	if place(formNames, d.get("form")) < 1 {
		c.wrong(d.row, "there is no form %q", d.get("form"))
	}
	for _, cup := range []string{"g_cup", "g_cup_low", "g_cup_high"} {
		c.between(d.row, cup, 1000*rule.low, 1000*rule.high)
	}
	c.between(d.row, "g_label_cup", 15_000, 400_000)
	c.between(d.row, "eq_cup", 1, 25_000)
	c.between(d.row, "eq_100g", 0, 1000*mostPer100g[f.get("group")])
	for _, share := range []string{"drained_low", "drained", "drained_high"} {
		c.between(d.row, share, 20_000, 100_000)
	}
	c.between(d.row, "edible", 10_000, 100_000)
	c.between(d.row, "cooked_g", 30_000, 900_000)
	c.ordered(d.row, "g_cup_low", "g_cup", "g_cup_high")
	c.ordered(d.row, "drained_low", "drained", "drained_high")
	if hasWord(needMeasure, class) && d.get("eq_100g") == "" && d.get("eq_cup") == "" && len(d.pieces) == 0 {
		c.wrong(d.row, "%s %s has no measure: no cup, no piece and no weight", d.get("food"), d.get("form"))
	}
	if (class == "mixed") != (len(d.parts) > 0) {
		c.wrong(d.row, "the class %s and %d parts do not go together", class, len(d.parts))
	}
	if class == "meat-raw" && d.get("cooked_g") == "" {
		c.wrong(d.row, "raw meat needs its weight when cooked")
	}
	seen := map[string]string{}
	for _, r := range d.pieces {
		if at := seen[r.get("piece")]; at != "" {
			c.wrong(r, "the piece %q is in %s already", r.get("piece"), at)
		}
		seen[r.get("piece")] = r.at
		c.piece(r)
	}
	for _, r := range d.parts {
		c.part(r)
	}
}

func (c *foodChecker) piece(r row) {
	if !isKey(r.get("piece")) {
		c.wrong(r, "the piece %q is not of lower-case letters, digits and single hyphens", r.get("piece"))
	}
	c.between(r, "g", 10, 8_000_000)
	c.between(r, "count", 10, 200_000)
	for _, eq := range []string{"eq", "eq_low", "eq_high"} {
		c.between(r, eq, 0, 32_000)
	}
	c.ordered(r, "eq_low", "eq", "eq_high")
	if r.get("g") == "" && r.get("eq") == "" {
		c.wrong(r, "a piece needs its grams or what it counts as")
	}
}

func (c *foodChecker) part(r row) {
	group := r.get("group")
	if place(groupNames, group) < 0 || group == "mixed" || subgroupPlace(group, r.get("subgroup")) < 0 {
		c.wrong(r, "there is no group %q with a subgroup %q", group, r.get("subgroup"))
		return
	}
	if class := r.get("class"); class != "" && !hasWord(classRules[class].groups, group) {
		c.wrong(r, "the class %q does not fit the group %s", class, group)
	}
	if r.get("eq_100g") == "" {
		c.wrong(r, "a part needs its equivalents in 100 g")
	}
	c.between(r, "eq_100g", 1, 1000*mostPer100g[group])
}

// between holds that a figure, where there is one, is a decimal within bounds,
// which are thousandths.
func (c *foodChecker) between(r row, column string, low, high int) {
	text := r.get(column)
	if text == "" {
		return
	}
	d, err := parseDecimal(text)
	if err != nil {
		c.wrong(r, "%s: %v", column, err)
		return
	}
	if v := d.thousandths(); v < low || v > high {
		c.wrong(r, "%s %s is not between %d and %d thousandths, which would be plausible", column, text, low, high)
	}
}

// ordered holds that low <= best <= high where they are given, and that there
// are no ends without a best.
func (c *foodChecker) ordered(r row, columns ...string) {
	last := -1
	for _, column := range columns {
		text := r.get(column)
		if text == "" {
			continue
		}
		if r.get(columns[1]) == "" {
			c.wrong(r, "%s is given and %s is not", column, columns[1])
			return
		}
		d, err := parseDecimal(text)
		if err != nil {
			return // reported by between
		}
		if d.thousandths() < last {
			c.wrong(r, "%s are not in order", strings.Join(columns, ", "))
		}
		last = d.thousandths()
	}
}
