package main

import "strings"

// The words that catalogue tables may use, in the order of core/food's
// constants. They are here once more, since the generator must run when core/food
// does not compile; a test holds the two together.
var (
	groupNames    = []string{"extra", "fruit", "vegetable", "grain", "protein", "dairy", "oil", "mixed"}
	subgroupNames = []string{"", "fruit-whole", "fruit-juice", "vegetable-dark-green", "vegetable-red-orange", "vegetable-legume", "vegetable-starchy", "vegetable-other",
		"grain-whole", "grain-refined", "protein-animal", "protein-seafood", "protein-plant", "dairy-milk", "dairy-yogurt", "dairy-cheese", "dairy-soy"}
	colourNames = []string{"", "red", "orange-yellow", "green", "blue-purple", "white-tan"}
	formNames   = []string{"", "fresh", "frozen", "canned", "canned-water", "canned-juice", "canned-light", "canned-heavy", "dried", "juice", "cooked", "dry", "raw", "ready"}
)

// A classRule is what is plausible for a class: the groups of the foods that
// have it, and what a measured cup of it weighs in grams. The ends are wide:
// they catch a slipped point and a wrong column, not a doubtful figure.
type classRule struct {
	groups    string
	low, high int
}

var classRules = map[string]classRule{
	"fruit-cup":        {"fruit", 60, 320},
	"fruit-dried":      {"fruit", 15, 260},
	"fruit-juice":      {"fruit", 220, 300},
	"veg-cup":          {"vegetable", 15, 340},
	"leafy-raw":        {"vegetable", 8, 160},
	"veg-dried":        {"vegetable", 3, 250},
	"veg-juice":        {"vegetable", 220, 300},
	"legume":           {"vegetable protein", 100, 300},
	"legume-dry":       {"vegetable protein", 100, 240},
	"legume-soup":      {"vegetable protein mixed", 200, 300},
	"hummus":           {"vegetable protein", 200, 300},
	"grain-cooked":     {"grain", 70, 290},
	"grain-dry":        {"grain", 20, 230},
	"grain-bread":      {"grain", 15, 200},
	"grain-cereal":     {"grain", 8, 140},
	"grain-weighed":    {"grain", 15, 300},
	"popcorn":          {"grain", 5, 40},
	"meat":             {"protein", 70, 300},
	"meat-raw":         {"protein", 100, 300},
	"egg":              {"protein", 100, 280},
	"nuts":             {"protein", 50, 190},
	"nut-butter":       {"protein", 200, 300},
	"tofu":             {"protein", 150, 300},
	"tempeh":           {"protein", 120, 220},
	"soy-nuts":         {"protein", 50, 200},
	"protein-weighed":  {"protein", 15, 300},
	"milk":             {"dairy", 200, 320},
	"yogurt":           {"dairy", 200, 300},
	"soy-drink":        {"dairy", 200, 300},
	"cheese-natural":   {"dairy", 50, 280},
	"cheese-processed": {"dairy", 50, 280},
	"ricotta":          {"dairy", 200, 280},
	"cottage":          {"dairy", 190, 260},
	"evaporated":       {"dairy", 220, 280},
	"dry-milk":         {"dairy", 50, 150},
	"frozen-dairy":     {"dairy", 60, 260},
	"dairy-weighed":    {"dairy", 15, 330},
	"oil":              {"oil", 10, 300},
	"mixed":            {"mixed", 20, 400},
	"none":             {"extra fruit vegetable grain protein dairy oil mixed", 5, 400},
}

// mostPer100g is the most equivalents that 100 g of a group's food can hold:
// a little over the highest row of the equivalents database (FPED 2017-2018):
// dried apples 2.2, dried seaweed 10, rice chips 6.1, dried fish 7.8, dry milk 4.
var mostPer100g = map[string]int{"fruit": 4, "vegetable": 12, "grain": 7, "protein": 10, "dairy": 6, "oil": 100, "extra": 0, "mixed": 100}

// place finds a word in a list; -1 when it isn't there.
func place(list []string, word string) int {
	for i, w := range list {
		if w == word {
			return i
		}
	}
	return -1
}

// subgroupPlace finds a subgroup of a group; "" is none.
func subgroupPlace(group, sub string) int {
	if sub == "" {
		return 0
	}
	return place(subgroupNames, group+"-"+sub)
}

// needMeasure are the classes that say by themselves neither what a cup nor what
// an ounce of weight counts as.
const needMeasure = "egg grain-weighed protein-weighed dairy-weighed dry-milk frozen-dairy oil"

func hasWord(words, w string) bool {
	for _, x := range strings.Fields(words) {
		if x == w {
			return true
		}
	}
	return false
}
