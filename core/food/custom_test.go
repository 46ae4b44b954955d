package food

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"cupsum/core/say"
)

func TestCustom(t *testing.T) {
	for _, c := range []struct {
		custom   Custom
		form     Form
		class    Class
		subgroup Subgroup
		id       string
	}{
		{Custom{Name: "Loquat", Group: "fruit"}, Fresh, "fruit-cup", WholeFruit, "own:loquat"},
		{Custom{Name: "loquat", Group: "fruit"}, Dried, "fruit-dried", WholeFruit, "own:loquat"},
		{Custom{Name: "loquat", Group: "fruit"}, Juice, "fruit-juice", JuiceFruit, "own:loquat"},
		{Custom{Name: "  Abuela's   greens ", Group: "vegetable", Subgroup: "dark-green"}, Fresh, "veg-cup", DarkGreen, "own:abuela-s-greens"},
		{Custom{Name: "Salad herbs", Group: "vegetable", Subgroup: "dark-green", Kind: "leafy-raw"}, Fresh, "leafy-raw", DarkGreen, "own:salad-herbs"},
		{Custom{Name: "Chips of squash", Group: "vegetable", Subgroup: "red-orange"}, Dried, "veg-dried", RedOrange, "own:chips-of-squash"},
		{Custom{Name: "Garden juice", Group: "vegetable"}, Juice, "veg-juice", NoSubgroup, "own:garden-juice"},
		{Custom{Name: "Heirloom beans", Group: "vegetable", Subgroup: "legume"}, Canned, "legume", Legume, "own:heirloom-beans"},
		{Custom{Name: "Heirloom beans", Group: "vegetable", Subgroup: "legume"}, Dry, "legume-dry", Legume, "own:heirloom-beans"},
		{Custom{Name: "Fonio", Group: "grain", Subgroup: "whole"}, Cooked, "grain-cooked", WholeGrain, "own:fonio"},
		{Custom{Name: "Flatbread", Group: "grain", Subgroup: "refined"}, Ready, "grain-bread", RefinedGrain, "own:flatbread"},
		{Custom{Name: "Puffs", Group: "grain", Subgroup: "whole", Kind: "grain-cereal"}, Ready, "grain-cereal", WholeGrain, "own:puffs"},
		{Custom{Name: "Quail", Group: "protein", Subgroup: "animal"}, Raw, "meat-raw", Animal, "own:quail"},
		{Custom{Name: "Quail egg", Group: "protein", Subgroup: "animal", Kind: "egg"}, Cooked, "egg", Animal, "own:quail-egg"},
		{Custom{Name: "Lionfish", Group: "protein", Subgroup: "seafood"}, Cooked, "meat", Seafood, "own:lionfish"},
		{Custom{Name: "Hickory nuts", Group: "protein", Subgroup: "plant"}, Ready, "nuts", Plant, "own:hickory-nuts"},
		{Custom{Name: "Village cheese", Group: "dairy", Subgroup: "cheese"}, Ready, "cheese-natural", Cheese, "own:village-cheese"},
		{Custom{Name: "Camel milk", Group: "dairy", Subgroup: "milk"}, Ready, "milk", Milk, "own:camel-milk"},
		{Custom{Name: "Tea oil", Group: "oil"}, Ready, "oil", NoSubgroup, "own:tea-oil"},
		{Custom{Name: "Fudge", Group: "extra"}, Ready, "none", NoSubgroup, "own:fudge"},
		{Custom{Name: "Níspero 2", Group: "fruit"}, Fresh, "fruit-cup", WholeFruit, "own:níspero-2"},
	} {
		f, err := c.custom.Food(c.form)
		if err != nil {
			t.Errorf("%s: %v", c.custom.Name, err)
			continue
		}
		d, ok := f.In(c.form)
		if !ok || d.Class != c.class || f.Subgroup != c.subgroup || f.ID != c.id || f.Source == "" || d.Source == "" {
			t.Errorf("%s %s is %s with class %q and subgroup %q", c.custom.Name, c.form.ID(), f.ID, d.Class, f.Subgroup.ID())
		}
		if _, taken := ByID(f.ID); taken {
			t.Errorf("%s is in the catalogue", f.ID)
		}
	}
	f, err := Custom{Name: "Heirloom beans", Group: "vegetable", Subgroup: "legume"}.Food(Dry)
	if err != nil || len(f.Forms) != 2 || f.Forms[0].Form != Dry || f.Forms[1].Class != "legume" || f.Forms[0].Cooked.Sign() <= 0 {
		t.Errorf("dry beans don't bring the cooked ones along: %+v, %v", f.Forms, err)
	}
}

func TestCustomProblems(t *testing.T) {
	good := Custom{Name: "Loquat", Group: "fruit", Subgroup: "whole"}
	for _, c := range []struct {
		id, field string
		change    func(*Custom)
		form      Form
	}{
		{"custom.name-empty", "name", func(c *Custom) { c.Name = " \t" }, Fresh},
		{"custom.name-long", "name", func(c *Custom) { c.Name = strings.Repeat("ñ", MaxName+1) }, Fresh},
		{"custom.name-long", "name", func(c *Custom) { c.Name = strings.Repeat("🍎", 10_000_000) }, Fresh},
		{"custom.name-letters", "name", func(c *Custom) { c.Name = "🍎 2" }, Fresh},
		{"custom.name-signs", "name", func(c *Custom) { c.Name = "a\x00b" }, Fresh},
		{"custom.name-signs", "name", func(c *Custom) { c.Name = "a\u202eb" }, Fresh},
		{"custom.name-signs", "name", func(c *Custom) { c.Name = "a\xffb" }, Fresh},
		{"custom.group", "group", func(c *Custom) { c.Group = "Fruit" }, Fresh},
		{"custom.group", "group", func(c *Custom) { c.Group = strings.Repeat("x", 1000) }, Fresh},
		{"custom.mixed", "group", func(c *Custom) { c.Group, c.Subgroup = "mixed", "" }, Ready},
		{"custom.subgroup", "subgroup", func(c *Custom) { c.Subgroup = "seafood" }, Fresh},
		{"custom.subgroup-missing.grain", "subgroup", func(c *Custom) { c.Group, c.Subgroup = "grain", "" }, Ready},
		{"custom.subgroup-missing.protein", "subgroup", func(c *Custom) { c.Group, c.Subgroup = "protein", "" }, Ready},
		{"custom.subgroup-missing.dairy", "subgroup", func(c *Custom) { c.Group, c.Subgroup = "dairy", "" }, Ready},
		{"custom.form", "form", func(*Custom) {}, NoForm},
		{"custom.form", "form", func(*Custom) {}, Form(200)},
		{"custom.kind", "kind", func(c *Custom) { c.Kind = "meat" }, Fresh},
		{"custom.kind", "kind", func(c *Custom) { c.Kind = "no-such-kind" }, Fresh},
	} {
		custom := good
		c.change(&custom)
		f, err := custom.Food(c.form)
		var p *say.Problem
		if !errors.As(err, &p) || p.ID != c.id || p.Field != c.field || f.ID != "" {
			t.Errorf("%s in %s is answered by %v", c.id, c.field, err)
			continue
		}
		if len(p.String()) > 400 {
			t.Errorf("%s carries %d bytes", c.id, len(p.String()))
		}
	}
}

// TestKinds checks that every group, subgroup and form that a page may offer
// makes a food, by each of its kinds.
func TestKinds(t *testing.T) {
	for _, g := range append(Groups(), Extra) {
		for _, s := range append(g.Subgroups(), NoSubgroup) {
			if s == NoSubgroup && (g == Grain || g == Protein || g == Dairy) {
				continue
			}
			for form := Fresh; form <= Ready; form++ {
				kinds := Kinds(g, s, form)
				if len(kinds) == 0 {
					t.Errorf("%s %s %s has no kinds", g.ID(), s.ID(), form.ID())
				}
				for _, k := range kinds {
					if _, err := (Custom{Name: "Food", Group: g.ID(), Subgroup: s.ID(), Kind: k}).Food(form); err != nil {
						t.Errorf("%s %s %s %s: %v", g.ID(), s.ID(), form.ID(), k, err)
					}
				}
			}
		}
	}
	if k := Kinds(Mixed, NoSubgroup, Ready); k != nil {
		t.Errorf("mixed dishes have the kinds %v", k)
	}
}

// FuzzCustom reads a food as a day file holds it: it makes a food or a problem
// that points at a field, and a name comes through whole.
func FuzzCustom(f *testing.F) {
	f.Add([]byte(`{"name":"Loquat","group":"fruit"}`), uint8(Fresh))
	f.Add([]byte(`{"name":"x","group":"protein","subgroup":"plant","kind":"tofu"}`), uint8(Ready))
	f.Add([]byte(`{"name":"\ud800","group":"oil"}`), uint8(255))
	f.Fuzz(func(t *testing.T, data []byte, form uint8) {
		var c Custom
		if json.Unmarshal(data, &c) != nil {
			return
		}
		food, err := c.Food(Form(form))
		var p *say.Problem
		switch {
		case err == nil:
			if _, ok := food.In(Form(form)); !ok || food.Name == "" || !utf8.ValidString(food.Name) || !strings.HasPrefix(food.ID, OwnPrefix) {
				t.Errorf("%s makes %+v", data, food)
			}
		case !errors.As(err, &p) || p.ID == "" || p.Field == "":
			t.Errorf("%s is answered by %v", data, err)
		}
	})
}

func ExampleCustom_Food() {
	f, err := Custom{Name: "Loquat", Group: "fruit"}.Food(Dried)
	fmt.Println(f.Name, f.Forms[0].Class, err)
	_, err = Custom{Name: "Loquat", Group: "fruits"}.Food(Dried)
	fmt.Println(err)
	// Output:
	// Loquat fruit-dried <nil>
	// group: custom.group(fruits)
}
