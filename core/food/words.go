package food

import (
	"slices"

	"cupsum/core/say"
)

// The keys of groups, subgroups, colours and forms, as in tables and day
// files, in the order of their constants.
var (
	groupIDs    = []string{"extra", "fruit", "vegetable", "grain", "protein", "dairy", "oil", "mixed"}
	subgroupIDs = []string{"", "whole", "juice", "dark-green", "red-orange", "legume", "starchy", "other", "whole", "refined", "animal", "seafood", "plant", "milk", "yogurt", "cheese", "soy"}
	colourIDs   = []string{"", "red", "orange-yellow", "green", "blue-purple", "white-tan"}
	formIDs     = []string{"", "fresh", "frozen", "canned", "canned-water", "canned-juice", "canned-light", "canned-heavy", "dried", "juice", "cooked", "dry", "raw", "ready"}
)

// subgroupsOf lists which subgroups each group has.
var subgroupsOf = [...][2]Subgroup{
	Fruit: {WholeFruit, JuiceFruit}, Vegetable: {DarkGreen, OtherVegetable}, Grain: {WholeGrain, RefinedGrain},
	Protein: {Animal, Plant}, Dairy: {Milk, SoyDairy}, Mixed: {},
}

func find[T ~uint8](ids []string, id string) (T, bool) {
	i := slices.Index(ids, id)
	return T(max(i, 0)), i >= 0
}

// GroupByID finds a group by its key.
func GroupByID(id string) (Group, bool) { return find[Group](groupIDs, id) }

// ID is the group's key in tables and day files.
func (g Group) ID() string { return groupIDs[g] }

// Term is the group's name for people.
func (g Group) Term() say.Term { return say.Term{Kind: "group", ID: g.ID()} }

// Within is the group's name in the middle of a sentence: "of vegetables".
func (g Group) Within() say.Term { return say.Term{Kind: "within", ID: g.ID()} }

// Groups lists the groups that targets are set for, in the order of the page.
func Groups() []Group { return []Group{Fruit, Vegetable, Grain, Protein, Dairy, Oil} }

// SubgroupByID finds a subgroup of a group by its key; "" is NoSubgroup.
func SubgroupByID(g Group, id string) (Subgroup, bool) {
	if id == "" {
		return NoSubgroup, true
	}
	for _, s := range g.Subgroups() {
		if subgroupIDs[s] == id {
			return s, true
		}
	}
	return NoSubgroup, false
}

// Subgroups lists the subgroups of a group.
func (g Group) Subgroups() []Subgroup {
	if int(g) >= len(subgroupsOf) || subgroupsOf[g][0] == NoSubgroup {
		return nil
	}
	var subs []Subgroup
	for s := subgroupsOf[g][0]; s <= subgroupsOf[g][1]; s++ {
		subs = append(subs, s)
	}
	return subs
}

// Group is the group that the subgroup belongs to; Extra for NoSubgroup.
func (s Subgroup) Group() Group {
	for g := range subgroupsOf {
		if s != NoSubgroup && s >= subgroupsOf[g][0] && s <= subgroupsOf[g][1] {
			return Group(g)
		}
	}
	return Extra
}

// ID is the subgroup's key in tables and day files, one within its group.
func (s Subgroup) ID() string { return subgroupIDs[s] }

// Term is the subgroup's name for people, its id with the group's before it:
// "grain-whole".
func (s Subgroup) Term() say.Term {
	return say.Term{Kind: "subgroup", ID: s.Group().ID() + "-" + s.ID()}
}

// ColourByID finds a colour by its key.
func ColourByID(id string) (Colour, bool) { return find[Colour](colourIDs, id) }

// ID is the colour's key in tables.
func (c Colour) ID() string { return colourIDs[c] }

// Term is the colour's name for people.
func (c Colour) Term() say.Term { return say.Term{Kind: "colour", ID: c.ID()} }

// FormByID finds a form by its key.
func FormByID(id string) (Form, bool) { return find[Form](formIDs, id) }

// ID is the form's key in tables and day files.
func (f Form) ID() string { return formIDs[f] }

// Term is the form's name for people.
func (f Form) Term() say.Term { return say.Term{Kind: "form", ID: f.ID()} }

// Packed tells whether the form comes in a liquid that may be poured off.
func (f Form) Packed() bool { return f >= Canned && f <= CannedHeavy }
