package spell

import (
	"fmt"
	"strings"
	"testing"
)

func TestClean(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"Green Beans", "green beans"},
		{"  jalapeño   PEPPER ", "jalapeno pepper"},
		{"jalapen\u0303o", "jalapeno"}, // ñ as n and a combining tilde
		{"lamb's-quarters", "lambs quarters"},
		{"crème brûlée", "creme brulee"},
		{"Weißbrot", "weissbrot"},
		{"Æbleskiver, œuf", "aebleskiver oeuf"},
		{"2% milk", "2 milk"},
		{"100 % juice", "100 juice"},
		{"🍎🍎 apple🍎", "apple"},
		{"żurek Łódź Šopska", "zurek lodz sopska"},
		{"яблоко", ""},
		{"\xff\xfeapple\x00pie", "apple pie"},
		{"", ""},
		{"---", ""},
		{strings.Repeat("a", 10_000_000), strings.Repeat("a", MaxText)},
	} {
		if got := string(Clean(nil, c.in)); got != c.want {
			t.Errorf("Clean(%.40q) = %.40q, not %.40q", c.in, got, c.want)
		}
	}
	if len(bare) != 0x180-0xc0 {
		t.Errorf("the accent table has %d letters, not %d", len(bare), 0x180-0xc0)
	}
}

func TestFold(t *testing.T) {
	for _, pair := range []string{
		"berry berries", "leaf leaves", "loaf loaves", "half halves", "tomato tomatoes", "tomato tomatos", "potato potatoes",
		"mango mangoes", "peach peaches", "radish radishes", "squash squashes", "apple apples", "cheese cheeses", "olive olives",
		"cookie cookies", "lentil lentils", "pea peas", "bean beans", "frijol frijoles", "nopal nopales", "cherry cherries",
		"endive endives", "avocado avocados", "anchovy anchovies", "beet beets", "fig figs", "egg eggs", "nut nuts",
	} {
		one, many, _ := strings.Cut(pair, " ")
		if a, b := Fold(nil, []byte(one)), Fold(nil, []byte(many)); string(a) != string(b) {
			t.Errorf("%s folds to %s, but %s to %s", one, a, many, b)
		}
	}
	for _, pair := range []string{"lime lima", "bean bee", "pea pear", "corn cone", "rice rib", "oat oil", "bass bas"} {
		one, other, _ := strings.Cut(pair, " ")
		if a, b := Fold(nil, []byte(one)), Fold(nil, []byte(other)); string(a) == string(b) {
			t.Errorf("%s and %s both fold to %s", one, other, a)
		}
	}
	for _, s := range []string{"asparagus", "hummus", "couscous", "watercress", "swiss", "cassis"} {
		if got := string(Fold(nil, []byte(s))); got != s {
			t.Errorf("%s folds to %s: its s is no plural", s, got)
		}
	}
}

// slow is the same distance by the textbook's table, whole and to the nearest
// beginning.
func slow(a, b []byte) (int, int) {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		for j := range d[i] {
			switch {
			case i == 0:
				d[i][j] = j
			case j == 0:
				d[i][j] = i
			default:
				cost := 1
				if a[i-1] == b[j-1] {
					cost = 0
				}
				d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+cost)
				if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
					d[i][j] = min(d[i][j], d[i-2][j-2]+1)
				}
			}
		}
	}
	best := len(a)
	for _, v := range d[len(a)] {
		best = min(best, v)
	}
	return d[len(a)][len(b)], best
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		typed, word  string
		whole, begin int
	}{
		{"brocoli", "broccoli", 1, 1},
		{"avacado", "avocado", 1, 1},
		{"banaan", "banana", 1, 1},
		{"stra", "strawberry", 6, 0},
		{"zuhc", "zucchini", 5, 1},
		{"", "fig", 3, 0},
		{"fig", "", 3, 3},
		{"corn", "corn", 0, 0},
	} {
		var p Pattern
		p.Make([]byte(c.typed))
		if w, b := p.Distance([]byte(c.word)); w != c.whole || b != c.begin {
			t.Errorf("from %s to %s: %d and %d, not %d and %d", c.typed, c.word, w, b, c.whole, c.begin)
		}
	}
}

// FuzzDistance holds the bit-parallel distance against the table.
func FuzzDistance(f *testing.F) {
	f.Add("brocoli", "broccoli")
	f.Add("ab", "ba")
	f.Add("zuchinni", "zucchini")
	f.Add(strings.Repeat("ab", 20), strings.Repeat("ba", 30))
	f.Fuzz(func(t *testing.T, a, b string) {
		x, y := Clean(nil, a), Clean(nil, b)
		x = []byte(strings.ReplaceAll(string(x), " ", ""))
		y = []byte(strings.ReplaceAll(string(y), " ", ""))
		x = x[:min(len(x), MaxWord)]
		var p Pattern
		p.Make(x)
		w, s := p.Distance(y)
		if w2, s2 := slow(x, y); w != w2 || s != s2 {
			t.Errorf("%s to %s: %d and %d, by the table %d and %d", x, y, w, s, w2, s2)
		}
	})
}

// FuzzClean checks that cleaning gives nothing but words and changes nothing
// the second time.
func FuzzClean(f *testing.F) {
	f.Add("Jalapeño 🌶 peppers")
	f.Add("\xff\x00'’ʼ")
	f.Fuzz(func(t *testing.T, text string) {
		got := string(Clean(nil, text))
		if len(got) <= MaxText && string(Clean(nil, got)) != got {
			t.Errorf("cleaning %q gives %q, and again something else", text, got)
		}
		for _, w := range strings.Split(got, " ") {
			if strings.Trim(w, "abcdefghijklmnopqrstuvwxyz0123456789") != "" || w == "" && got != "" {
				t.Errorf("cleaning %q leaves the word %q", text, w)
			}
		}
	})
}

func ExampleFold() {
	fmt.Printf("%s %s\n", Fold(nil, []byte("berries")), Fold(nil, []byte("berry")))
	// Output: berri berri
}
