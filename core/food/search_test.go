package food

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// searches are what people type, and what they mean: the food that must come
// first, or with a "~" in front among the first three; after a slash the form
// that must be hinted at, or "-" for none. They were written down from how
// people write, not from what the search finds.
var searches = []struct{ typed, want string }{
	// plain names, singular and plural, capitals
	{"apple", "apple"}, {"Apples", "apple"}, {"banana", "banana"}, {"BANANAS", "banana"}, {"strawberry", "strawberries"},
	{"blueberry", "blueberries"}, {"tomatoes", "tomato"}, {"potatoes", "potato"}, {"cherry", "cherries"}, {"peach", "peach"},
	{"leeks", "leeks"}, {"radish", "radishes"}, {"brussels sprout", "brussels-sprouts"}, {"beet", "beets"}, {"onion", "onions"},
	{"mushroom", "mushrooms"}, {"carrot", "carrots"}, {"date", "dates"}, {"fig", "figs"}, {"grape", "grapes"},
	{"egg", "egg"}, {"eggs", "egg"}, {"lentil", "lentils"}, {"chickpea", "chickpeas"}, {"peanut", "peanuts"},
	{"almond", "almonds"}, {"walnut", "walnuts"}, {"tortillas", "~corn-tortilla"}, {"pancakes", "pancake"}, {"bagels", "bagel"},
	{"sardine", "sardines"}, {"shrimps", "shrimp"}, {"berries", "mixed-berries"}, {"olives", "~black-olives"},
	// accents
	{"jalapeño", "jalapeno"}, {"jalapeno", "jalapeno"}, {"jícama", "jicama"}, {"jalapen\u0303o", "jalapeno"}, {"yautía", "yautia"}, {"purée, tomato", "tomato-puree"},
	// a letter or two wrong
	{"brocoli", "broccoli"}, {"brocolli", "broccoli"}, {"avacado", "avocado"}, {"tomatos", "tomato"}, {"tomatoe", "tomato"}, {"potatos", "potato"},
	{"zuchini", "zucchini"}, {"zuccini", "zucchini"}, {"bannana", "banana"}, {"lentls", "lentils"}, {"spinich", "spinach"}, {"spinnach", "spinach"},
	{"califlower", "cauliflower"}, {"rasberries", "raspberries"}, {"strawberrys", "strawberries"}, {"cantelope", "cantaloupe"}, {"pinapple", "pineapple"},
	{"letuce", "~iceberg-lettuce"}, {"cabage", "cabbage"}, {"colards", "collards"}, {"aspargus", "asparagus"}, {"celary", "celery"},
	{"yogert", "~low-fat-yogurt"}, {"chedder", "cheddar"}, {"mayonaise", "mayonnaise"}, {"quinua", "quinoa"}, {"spagetti", "~pasta"},
	{"humus", "hummus"}, {"raisens", "raisins"}, {"bulgar", "bulgur"}, {"tortila", "~corn-tortilla"}, {"salman", "salmon"}, {"chiken", "chicken"},
	{"banaan", "banana"}, {"aple", "apple"}, {"tunna", "tuna"}, {"peper", "~green-bell-pepper"}, {"cucmber", "cucumber"},
	// other names, also Spanish ones in use in shops
	{"garbanzo beans", "chickpeas"}, {"garbanzos", "chickpeas"}, {"frijoles negros", "black-beans"}, {"frijoles", "beans"}, {"frijoles refritos", "refried-beans"},
	{"elote", "corn"}, {"arroz", "white-rice"}, {"nopales", "cactus-pads"}, {"yuca", "cassava"}, {"camote", "sweet-potato"}, {"aguacate", "avocado"},
	{"sandía", "watermelon"}, {"naranja", "orange"}, {"zanahorias", "carrots"}, {"repollo", "cabbage"}, {"papas", "potato"}, {"cebolla", "onions"},
	{"huevos", "egg"}, {"pollo", "chicken"}, {"camarones", "shrimp"}, {"cacahuate", "peanuts"}, {"avena", "oatmeal"}, {"miel", "honey"}, {"mantequilla", "butter"},
	{"pak choi", "bok-choy"}, {"catsup", "ketchup"}, {"lasagne", "lasagna"}, {"masa harina", "masa"}, {"soymilk", "soy-milk"}, {"yoghurt", "low-fat-yogurt"},
	// words in another order, with little words, run together or apart
	{"beans, green", "green-beans"}, {"butter, peanut", "peanut-butter"}, {"beans and rice", "rice-and-beans"}, {"bread whole wheat", "whole-wheat-bread"},
	{"water melon", "watermelon"}, {"grape fruit", "grapefruit"}, {"sweetpotato", "sweet-potato"}, {"blackbeans", "black-beans"}, {"pop corn", "popcorn"},
	{"blackeyed peas", "black-eyed-peas"}, {"black-eyed peas", "black-eyed-peas"}, {"apple sauce", "applesauce"}, {"peanutbutter", "peanut-butter"},
	{"mac n cheese", "macaroni-and-cheese"}, {"corn on the cob", "corn"}, {"2 cups of strawberries", "strawberries"}, {"1/2 cup rice noodles", "rice-noodles"},
	{"2% milk", "reduced-fat-milk"}, {"a slice of white bread", "white-bread"}, {"collard greens", "collards"},
	// forms
	{"frozen corn", "corn/frozen"}, {"canned corn", "corn/canned"}, {"corn frozen", "corn/frozen"}, {"peaches in heavy syrup", "peach/canned-heavy"},
	{"peaches light syrup", "peach/canned-light"}, {"canned peaches", "peach/canned-juice"}, {"pineapple in its own juice", "pineapple/canned-juice"},
	{"dried apricots", "apricot/dried"}, {"apricots dried", "apricot/dried"}, {"dried mango", "mango/dried"}, {"raisins", "raisins/-"}, {"raw spinach", "spinach/fresh"},
	{"spinach cooked", "spinach/cooked"}, {"frozen spinach", "spinach/frozen"}, {"canned black beans", "black-beans/canned"}, {"dry black beans", "black-beans/dry"},
	{"dried beans", "beans/dry"}, {"can of kidney beans", "kidney-beans/canned"}, {"canned salmon", "salmon/canned"}, {"tuna in water", "tuna/canned-water"},
	{"roast chicken", "chicken/cooked"}, {"ground turkey raw", "ground-turkey/raw"}, {"orange juice", "orange-juice/juice"}, {"jugo de naranja", "orange-juice/juice"},
	{"apple", "apple/-"}, {"frozzen peas", "green-peas/frozen"}, {"maíz congelado", "corn/frozen"}, {"powdered milk", "nonfat-dry-milk/dry"}, {"peaches fro", "peach/frozen"},
	{"fruit cocktail in extra light syrup", "fruit-cocktail/canned-light"}, {"dates", "dates/-"},
	// while it is being typed
	{"stra", "strawberries"}, {"strawb", "strawberries"}, {"bana", "banana"}, {"broc", "broccoli"}, {"bro", "broccoli"}, {"pot", "potato"}, {"tom", "tomato"}, {"app", "apple"},
	{"carr", "carrots"}, {"sweet p", "sweet-potato"}, {"black b", "black-beans"}, {"green be", "green-beans"}, {"peanut b", "peanut-butter"}, {"cor", "corn"},
	{"spin", "spinach"}, {"chick", "~chickpeas"}, {"yog", "~low-fat-yogurt"}, {"brown r", "brown-rice"}, {"avo", "avocado"}, {"zuhc", "zucchini"},
	// bare names that many foods have
	{"beans", "beans"}, {"bean", "beans"}, {"corn", "corn"}, {"tofu", "tofu"}, {"chicken", "chicken"}, {"salmon", "salmon"}, {"squash", "~butternut-squash"},
	{"rice", "~white-rice"}, {"milk", "~whole-milk"}, {"bread", "~white-bread"}, {"juice", "fruit-juice"}, {"greens", "greens"}, {"pepper", "~green-bell-pepper"},
}

func TestSearch(t *testing.T) {
	missed := 0
	for _, c := range searches {
		want, form, hinted := strings.Cut(c.want, "/")
		id, among := strings.CutPrefix(want, "~")
		hits := Search(c.typed, 8)
		place := slices.IndexFunc(hits, func(h Hit) bool { return h.Food.ID == id })
		switch {
		case place < 0 || place > 0 && !among || place > 2:
			missed++
			t.Errorf("%q should find %s, and finds %s", c.typed, c.want, summary(hits))
		case hinted && hits[place].Form.ID() != strings.TrimPrefix(form, "-"):
			missed++
			t.Errorf("%q should hint at the form %q of %s, not at %q", c.typed, form, id, hits[place].Form.ID())
		}
	}
	t.Logf("%d of %d searches find what is meant", len(searches)-missed, len(searches))
}

func summary(hits []Hit) string {
	var b strings.Builder
	for _, h := range hits {
		fmt.Fprintf(&b, "%s %s %d, ", h.Food.ID, h.Form.ID(), h.Score)
	}
	return b.String()
}

// TestSearchEveryName types every name of the catalogue and finds its food
// first; with a letter missing, it still finds it among the first ten.
func TestSearchEveryName(t *testing.T) {
	short := 0
	for f := range All() {
		for i, name := range append([]string{f.Name}, f.Also...) {
			hits := Search(name, 3)
			if len(hits) == 0 || hits[0].Food.ID != f.ID {
				t.Errorf("%q of %s finds %s", name, f.ID, summary(hits))
				continue
			}
			if i == 0 && hits[0].Match != name {
				t.Errorf("%q of %s matched as %q", name, f.ID, hits[0].Match)
			}
		}
		if name := f.Name; len(name) >= 6 && isASCII(name) {
			cut := name[:len(name)/2] + name[len(name)/2+1:]
			if !slices.ContainsFunc(Search(cut, 10), func(h Hit) bool { return h.Food.ID == f.ID }) {
				short++
				t.Logf("%q does not find %s among ten", cut, f.ID)
			}
		}
	}
	if short*50 > Count() {
		t.Errorf("%d of %d names are lost by one letter: more than 2 %%", short, Count())
	}
}

func isASCII(s string) bool { return len(s) == utf8.RuneCountInString(s) }

func TestSearchNothing(t *testing.T) {
	for _, text := range []string{"", " ", "🍎", "яблоко", "---", "\x00\xff", strings.Repeat(" ", 10_000_000), strings.Repeat("🍎", 3_000_000), "xqzwk", "qqqqqqqqqqqqqq"} {
		if hits := Search(text, 10); len(hits) != 0 {
			t.Errorf("%.20q finds %s", text, summary(hits))
		}
	}
	if hits := Search(strings.Repeat("apple ", 2_000_000), 5); len(hits) == 0 || hits[0].Food.ID != "apple" {
		t.Errorf("12 MB of apples find %s", summary(hits))
	}
	if hits := Search("🍎 apple 🍏", 5); len(hits) == 0 || hits[0].Food.ID != "apple" {
		t.Errorf("an apple between emoji finds %s", summary(hits))
	}
	for _, limit := range []int{0, -1} {
		if hits := Search("apple", limit); hits != nil {
			t.Errorf("at most %d hits are %d", limit, len(hits))
		}
	}
	if hits := Search("a", 1<<40); len(hits) == 0 || len(hits) > Count() {
		t.Errorf("a finds %d foods", len(hits))
	}
}

// TestSearchShorter holds that a smaller limit gives the beginning of the same
// list, and that no food is in it twice.
func TestSearchShorter(t *testing.T) {
	for _, text := range []string{"a", "be", "rice", "corn", "cheese", "juice", "chicken soup", "dried"} {
		all := Search(text, 50)
		seen := map[string]bool{}
		for i, h := range all {
			if seen[h.Food.ID] {
				t.Errorf("%q finds %s twice", text, h.Food.ID)
			}
			seen[h.Food.ID] = true
			if i > 0 && h.Score > all[i-1].Score {
				t.Errorf("%q: %s stands behind worse ones", text, h.Food.ID)
			}
			if h.Form != NoForm {
				if _, ok := h.Food.In(h.Form); !ok {
					t.Errorf("%q hints at %s of %s, which it hasn't", text, h.Form.ID(), h.Food.ID)
				}
			}
		}
		for i, h := range Search(text, 5) {
			if h.Food.ID != all[i].Food.ID {
				t.Errorf("%q: %s is at place %d of five, %s of fifty", text, h.Food.ID, i, all[i].Food.ID)
			}
		}
	}
}

// FuzzSearch holds that nothing that is typed breaks the search.
func FuzzSearch(f *testing.F) {
	for _, s := range []string{"apple", "brocoli", "in its own juice", "jalapeño 🌶", "\xff", "a b c d e f g h i j k l m n o p q", "canned can canned frozen dried"} {
		f.Add(s, 5)
	}
	f.Fuzz(func(t *testing.T, text string, limit int) {
		hits := Search(text, limit)
		if len(hits) > max(limit, 0) {
			t.Fatalf("%d hits for at most %d", len(hits), limit)
		}
		for i, h := range hits {
			if h.Food.ID == "" || h.Match == "" || i > 0 && h.Score > hits[i-1].Score {
				t.Fatalf("%q finds %s", text, summary(hits))
			}
		}
	})
}

// BenchmarkSearch takes what costs least and most: a letter, a good name, a
// misspelt one, a long phrase, and words that nothing matches.
func BenchmarkSearch(b *testing.B) {
	Search("apple", 1) // makes the index, which BenchmarkIndex measures
	for _, text := range []string{"s", "stra", "brocoli", "canned peaches in heavy syrup", "xqzjw kkwqqp zzzzzzz yyyyyyy"} {
		b.Run(strings.ReplaceAll(text, " ", "-"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Search(text, 8)
			}
		})
	}
}

// The index finds every word that it has, and no other; its tables stay far
// from full.
func TestIndex(t *testing.T) {
	ix := makeIndex()
	for _, w := range ix.words {
		if !ix.has(w) {
			t.Errorf("%s is not found", w)
		}
		if len(w) < 30 && ix.has(append([]byte("zq"), w...)) {
			t.Errorf("zq%s is found", w)
		}
	}
	if len(ix.words)*2 > len(ix.byWord) {
		t.Errorf("%d words in a table of %d", len(ix.words), len(ix.byWord))
	}
	if len(ix.list) > 0xffff || len(ix.words) > 0xffff {
		t.Errorf("%d words in all and %d different ones are too many for their numbers", len(ix.list), len(ix.words))
	}
}

func BenchmarkIndex(b *testing.B) {
	for b.Loop() {
		makeIndex()
	}
}

func ExampleSearch() {
	for _, h := range Search("canned peeches", 1) {
		fmt.Println(h.Food.Name, h.Form.ID())
	}
	// Output: peach canned-juice
}
