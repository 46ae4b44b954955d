package food

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// MaxName is the longest name of a person's own food, in characters.
const MaxName = 60

// OwnPrefix starts the id of every food that a person entered; no catalogue id
// has a colon.
const OwnPrefix = "own:"

// A Custom is a food that the catalogue lacks, as a person entered it or a day
// file holds it. Nothing in it is checked before [Custom.Food].
type Custom struct {
	Name     string `json:"name"`
	Group    string `json:"group"`              // key of a [Group]
	Subgroup string `json:"subgroup,omitempty"` // key of a [Subgroup] of the group
	Kind     Class  `json:"kind,omitempty"`     // one of [Kinds]; empty is the first of them
}

// Kinds lists how a person's own food of the group, subgroup and form may be
// counted, the commonest first: cooked vegetables by the cup, raw leaves by
// half of it. It is nil where there is no such food.
func Kinds(g Group, s Subgroup, f Form) []Class {
	switch g {
	case Fruit:
		switch {
		case f == Juice || s == JuiceFruit:
			return []Class{"fruit-juice"}
		case f == Dried || f == Dry:
			return []Class{"fruit-dried"}
		}
		return []Class{"fruit-cup"}
	case Vegetable:
		return vegetableKinds(s, f)
	case Grain:
		switch f {
		case Cooked:
			return []Class{"grain-cooked", "grain-bread"}
		case Dry:
			return []Class{"grain-dry", "grain-cereal"}
		}
		return []Class{"grain-bread", "grain-cereal", "grain-cooked"}
	case Protein:
		switch {
		case s == Plant:
			return []Class{"nuts", "nut-butter", "tofu", "tempeh", "soy-nuts", "hummus"}
		case f == Raw:
			return []Class{"meat-raw"}
		case s == Animal:
			return []Class{"meat", "egg"}
		}
		return []Class{"meat"}
	case Dairy:
		switch s {
		case Yogurt:
			return []Class{"yogurt"}
		case Cheese:
			return []Class{"cheese-natural", "cheese-processed", "ricotta", "cottage"}
		case SoyDairy:
			return []Class{"soy-drink"}
		}
		return []Class{"milk", "evaporated"}
	case Oil:
		return []Class{"oil"}
	case Extra:
		return []Class{"none"}
	}
	return nil
}

func vegetableKinds(s Subgroup, f Form) []Class {
	switch {
	case s == Legume && (f == Dry || f == Dried):
		return []Class{"legume-dry"}
	case s == Legume:
		return []Class{"legume", "legume-soup", "hummus"}
	case f == Juice:
		return []Class{"veg-juice"}
	case f == Dried || f == Dry:
		return []Class{"veg-dried"}
	case f == Fresh && (s == DarkGreen || s == OtherVegetable || s == NoSubgroup):
		return []Class{"veg-cup", "leafy-raw"}
	}
	return []Class{"veg-cup"}
}

// Food makes the food in the form, ready to be counted like one of the
// catalogue. A field that can't be right is a [*say.Problem] that points at it.
// What a cup of the food weighs is not known, except where all foods of its
// kind agree.
func (c Custom) Food(form Form) (Food, error) {
	var f Food
	if p := c.read(&f, form); p != nil {
		return Food{}, p
	}
	f.Source, f.Origin = enteredByPerson, rule.Practice
	f.ID = OwnPrefix + slug(f.Name)
	return f, nil
}

const enteredByPerson = "entered by the person"

// read checks the fields in their order and fills the food.
func (c Custom) read(f *Food, form Form) *say.Problem {
	var p *say.Problem
	if f.Name, p = c.name(); p != nil {
		return p
	}
	var ok bool
	if f.Group, ok = GroupByID(c.Group); !ok {
		return say.Wrong("custom.group", c.Group).In("group")
	}
	if f.Group == Mixed {
		return say.Wrong("custom.mixed", f.Name).In("group")
	}
	if f.Subgroup, ok = SubgroupByID(f.Group, c.Subgroup); !ok {
		return say.Wrong("custom.subgroup", c.Subgroup, f.Group.Term()).In("subgroup")
	}
	if f.Subgroup == NoSubgroup && (f.Group == Grain || f.Group == Protein || f.Group == Dairy) {
		return say.Wrong("custom.subgroup-missing."+f.Group.ID(), f.Name).In("subgroup")
	}
	if form == NoForm || int(form) >= len(formIDs) {
		return say.Wrong("custom.form", f.Name).In("form")
	}
	kinds := Kinds(f.Group, f.Subgroup, form)
	kind := c.Kind
	if kind == "" {
		kind = kinds[0]
	}
	if !slices.Contains(kinds, kind) {
		return say.Wrong("custom.kind", string(kind), f.Name).In("kind")
	}
	if f.Group == Fruit && f.Subgroup == NoSubgroup {
		f.Subgroup = WholeFruit
		if kind == "fruit-juice" {
			f.Subgroup = JuiceFruit
		}
	}
	f.Forms = ownForms(form, kind)
	return nil
}

// ownForms makes the form of a person's own food, with what is known of all
// foods of its kind. Dry beans bring the cooked ones along, which they are
// counted as.
func ownForms(form Form, kind Class) []Detail {
	forms := make([]Detail, 1, 2)
	d := &forms[0]
	d.Form, d.Class, d.Source, d.Origin = form, kind, enteredByPerson, rule.Practice
	switch kind {
	case "oil":
		d.Eq100g, d.GramCup = amount.Int(100), amount.Exactly(amount.Int(218))
		d.Source, d.Origin = "USDA SR28 (2016): vegetable oil, 1 cup is 218 g", rule.Published
	case "meat-raw":
		d.Cooked = amount.Frac(3, 4)
		d.Source = "common practice: 4 oz of raw meat or fish cooks down to 3 oz"
	case "egg":
		d.Pieces = []Piece{{ID: "egg", Count: amount.Int(1), Source: enteredByPerson, Origin: rule.Practice}}
	case "legume-dry":
		d.Cooked, d.GramCup = amount.Frac(2469, 1000), amount.Exactly(amount.Int(184))
		d.Source, d.Origin = ownBeans, rule.Published
		forms = append(forms, Detail{Form: Cooked, Class: "legume", GramCup: amount.Exactly(amount.Int(175)), Source: ownBeans, Origin: rule.Published})
	}
	return forms
}

const ownBeans = "USDA SR28 (2016): kidney beans of all types, 1 dry cup is 184 g; USDA ERS fruit and vegetable prices, 2022 (2024): 100 g of dry beans are 246.9 g cooked, a cup of them 175 g"

func (c Custom) name() (string, *say.Problem) {
	if len(c.Name) > 8*MaxName {
		return "", say.Wrong("custom.name-long", MaxName).In("name")
	}
	name := strings.Join(strings.Fields(c.Name), " ")
	letters := 0
	for _, r := range name {
		switch {
		case unicode.IsLetter(r):
			letters++
		case r == utf8.RuneError || unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r):
			return "", say.Wrong("custom.name-signs", MaxName).In("name")
		}
	}
	switch {
	case name == "":
		return "", say.Wrong("custom.name-empty").In("name")
	case letters == 0:
		return "", say.Wrong("custom.name-letters", name).In("name")
	case utf8.RuneCountInString(name) > MaxName:
		return "", say.Wrong("custom.name-long", MaxName).In("name")
	}
	return name, nil
}

// slug makes a key of a checked name: its letters and digits in lower case,
// with hyphens between.
func slug(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return strings.Join(words, "-")
}
