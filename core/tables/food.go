package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"cupsum/core/food/spell"
)

// A foodEntry is one food with its rows of all four tables.
type foodEntry struct {
	row
	forms []*formEntry
}

// A formEntry is one form of a food with its pieces and parts.
type formEntry struct {
	row
	pieces, parts []row
}

const foodData = "core/food/data/"

// loadFoods reads the catalogue's tables, checks them and joins them, foods in
// the order of ids. All that is wrong is reported at once.
func loadFoods() ([]*foodEntry, error) {
	var err [4]error
	var tables [4][]row
	for i, t := range foodColumns {
		if files, _ := filepath.Glob(foodData + t.folder + "/*.csv"); len(files) == 0 && t.folder != "foods" {
			continue // a catalogue may have no dishes
		}
		tables[i], err[i] = read(foodData+t.folder+"/*.csv", strings.Split(t.columns, ",")...)
	}
	if err := errors.Join(err[:]...); err != nil {
		return nil, err
	}
	var errs []error
	foods, byID := make([]*foodEntry, 0, len(tables[0])), map[string]*foodEntry{}
	for _, r := range tables[0] {
		if other, dup := byID[r.get("id")]; dup {
			errs = append(errs, r.errorf("the food %q is in %s already", r.get("id"), other.at))
			continue
		}
		f := &foodEntry{row: r}
		byID[r.get("id")] = f
		foods = append(foods, f)
	}
	forms := map[string]*formEntry{}
	for _, r := range tables[1] {
		f, key := byID[r.get("food")], r.get("food")+" "+r.get("form")
		if f == nil {
			errs = append(errs, r.errorf("there is no food %q", r.get("food")))
			continue
		}
		if other, dup := forms[key]; dup {
			errs = append(errs, r.errorf("the form %q of %s is in %s already", r.get("form"), r.get("food"), other.at))
			continue
		}
		forms[key] = &formEntry{row: r}
		f.forms = append(f.forms, forms[key])
	}
	for i, rows := range tables[2:] {
		for _, r := range rows {
			f := forms[r.get("food")+" "+r.get("form")]
			switch {
			case f == nil:
				errs = append(errs, r.errorf("there is no form %q of %q", r.get("form"), r.get("food")))
			case i == 0:
				f.pieces = append(f.pieces, r)
			default:
				f.parts = append(f.parts, r)
			}
		}
	}
	errs = append(errs, checkFoods(foods)...)
	slices.SortFunc(foods, func(a, b *foodEntry) int { return strings.Compare(a.get("id"), b.get("id")) })
	for _, f := range foods {
		slices.SortStableFunc(f.forms, func(a, b *formEntry) int {
			return place(formNames, a.get("form")) - place(formNames, b.get("form"))
		})
	}
	return foods, errors.Join(errs...)
}

// foodColumns are the catalogue's tables and their columns, as DEVELOPERS.md
// explains them.
var foodColumns = [4]struct{ folder, columns string }{
	{"foods", "id,name,also,group,subgroup,colour,calcium,cautions,source,origin"},
	{"forms", "food,form,class,eq_cup,eq_100g,g_cup,g_cup_low,g_cup_high,g_label_cup,drained_low,drained,drained_high,cooked_g,edible,fped,ndb,source,origin,note"},
	{"pieces", "food,form,piece,size,g,count,eq,eq_low,eq_high,source,origin"},
	{"parts", "food,form,group,subgroup,class,eq_100g,source,origin"},
}

func makeFoods() (string, error) {
	foods, err := loadFoods()
	if err != nil {
		return "", err
	}
	phrases, err := makeFormPhrases()
	if err != nil {
		return "", err
	}
	return packFoods(foods) + phrases, nil
}

// makeFormPhrases packs the words that name a form in what people type.
func makeFormPhrases() (string, error) {
	rows, err := read(foodData+"phrases/*.csv", "phrase", "forms", "source", "origin")
	if err != nil {
		return "", err
	}
	seen := map[string]string{}
	var sources []string
	var b strings.Builder
	b.WriteString("\n// formPhrases are the phrases of data/phrases.\nvar formPhrases = [...]formPhrase{\n")
	for _, r := range rows {
		phrase := r.get("phrase")
		if clean := string(spell.Clean(nil, phrase)); clean != phrase || seen[phrase] != "" {
			return "", r.errorf("the phrase %q is not in plain letters or is there already", phrase)
		}
		seen[phrase] = r.at
		var codes []string
		for _, name := range strings.Split(r.get("forms"), ";") {
			code := place(formNames, name)
			if code < 1 {
				return "", r.errorf("there is no form %q", name)
			}
			codes = append(codes, fmt.Sprint(code))
		}
		if len(codes) > 5 {
			return "", r.errorf("%d forms are more than 5", len(codes))
		}
		if r.get("origin") != "practice" {
			return "", r.errorf("what people call a form is practice, not %s", r.get("origin"))
		}
		source := place(sources, r.get("source"))
		if source < 0 {
			source = len(sources)
			sources = append(sources, r.get("source"))
		}
		fmt.Fprintf(&b, "{%q, [5]Form{%s}, %d},\n", phrase, strings.Join(codes, ", "), source)
	}
	b.WriteString("}\n\nvar phraseSources = [...]string{\n")
	for _, s := range sources {
		fmt.Fprintf(&b, "%q,\n", s)
	}
	b.WriteString("}\n")
	return b.String(), nil
}
