package lang

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/say"
)

var words = English()

var valueTests = []struct {
	arg  any
	want string
}{
	{amount.Frac(9, 4), "2¼"},
	{amount.Frac(1, 7), "about ⅛"},
	{amount.Frac(1, 100), "less than ⅛"},
	{amount.Exactly(amount.Frac(7, 4)), "1¾"},
	{amount.Between(amount.Frac(5, 4), amount.Frac(3, 2), amount.Frac(7, 4)), "1¼ to 1¾"},
	{amount.Between(amount.Frac(149, 100), amount.Frac(3, 2), amount.Frac(151, 100)), "about 1½"},
	{amount.Quantity{Amount: amount.Exactly(amount.Frac(1, 2)), Unit: amount.Cup}, "½ cup"},
	{amount.Quantity{Amount: amount.Exactly(amount.Int(1)), Unit: amount.Cup}, "1 cup"},
	{amount.Quantity{Amount: amount.Exactly(amount.Frac(3, 2)), Unit: amount.Cup}, "1½ cups"},
	{amount.Quantity{Amount: amount.Exactly(amount.Frac(4553, 20)), Unit: amount.G}, "about 228 g"},
	{amount.Quantity{Amount: amount.Exactly(amount.Frac(5, 2)), Unit: amount.G}, "2.5 g"},
	{guide.Counted{Amount: amount.Exactly(amount.Int(2)), Unit: guide.OzEq}, "2 oz eq"},
	{guide.Counted{Amount: amount.Exactly(amount.Int(1)), Unit: guide.Serving}, "1 serving"},
	{portion.Some{N: amount.Exactly(amount.Int(2)), Kind: "piece", ID: "slice"}, "2 slices"},
	{portion.Some{N: amount.Exactly(amount.Frac(1, 2)), Kind: "piece", ID: "half"}, "½ half"},
	{say.Term{Kind: "food", ID: "nowhere", Text: "grandmother's stew"}, "grandmother's stew"},
	{say.New("unit.cup", amount.Exactly(amount.Int(3))), "3 cups"},
	{3, "3"},
}

func TestValue(t *testing.T) {
	for _, tt := range valueTests {
		if got := words.Value(tt.arg); got != tt.want {
			t.Errorf("%v: got %q, want %q", tt.arg, got, tt.want)
		}
	}
}

func TestMissingMessageShowsItsID(t *testing.T) {
	if got := words.Text("no.such"); got != "[no.such]" {
		t.Errorf("got %q", got)
	}
}

func TestSentencesStartWithACapital(t *testing.T) {
	got := words.Text("total.to-go", guide.Counted{Amount: amount.Exactly(amount.Frac(1, 7)), Unit: guide.CupEq})
	if got != "About ⅛ cup to go." {
		t.Errorf("got %q", got)
	}
}

func TestAbsentPlaceStays(t *testing.T) {
	if got := words.fill("a {0} b {7} c {x} {", []any{"z"}); got != "a z b {7} c {x} {" {
		t.Errorf("got %q", got)
	}
}

// used finds the ids of messages that the code asks for.
var used = regexp.MustCompile(`(?:say\.(?:New|Wrong)\(|\.note\(|\.step\([^,\n]+, |\bstep\([^,\n]+, |\.Text\(|\.t\()"([a-z0-9.-]+)"`)

// Every message that the code asks for is there.
func TestNoMessageIsMissing(t *testing.T) {
	found := 0
	for _, root := range []string{"../../core", ".."} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			src, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			for _, m := range used.FindAllStringSubmatch(string(src), -1) {
				found++
				if !has(m[1]) {
					t.Errorf("%s asks for the message %q, which is not there", path, m[1])
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if found < 100 {
		t.Errorf("only %d uses found; the pattern no longer fits the code", found)
	}
}

// has tells whether the message is there, or messages that start so where the
// code adds the rest.
func has(id string) bool {
	if !strings.HasSuffix(id, ".") && !strings.HasSuffix(id, "-") {
		return words.Has(id)
	}
	for _, other := range words.IDs() {
		if strings.HasPrefix(other, id) {
			return true
		}
	}
	return false
}

// Every term that core can name has a word.
func TestTermsHaveWords(t *testing.T) {
	var terms []say.Term
	for _, g := range []food.Group{food.Extra, food.Fruit, food.Vegetable, food.Grain, food.Protein, food.Dairy, food.Oil, food.Mixed} {
		terms = append(terms, g.Term())
		for _, s := range g.Subgroups() {
			terms = append(terms, s.Term())
		}
	}
	for _, g := range food.Groups() {
		terms = append(terms, g.Within())
	}
	for c := food.Red; c <= food.WhiteTan; c++ {
		terms = append(terms, c.Term())
	}
	for f := food.Fresh; f <= food.Ready; f++ {
		terms = append(terms, f.Term())
	}
	for _, h := range guide.Hands() {
		terms = append(terms, say.Term{Kind: "hand", ID: h.ID}, say.Term{Kind: "hand", ID: h.ID + ".one"}, say.Term{Kind: "hand", ID: h.ID + ".many"})
	}
	for _, e := range guide.Editions() {
		terms = append(terms, e.Term())
	}
	for f := range food.All() {
		for _, d := range f.Forms {
			for _, p := range d.Pieces {
				terms = append(terms, say.Term{Kind: "piece", ID: p.ID}, say.Term{Kind: "piece", ID: p.ID + ".one"}, say.Term{Kind: "piece", ID: p.ID + ".many"})
			}
			for _, c := range guide.CautionsFor(f, d) {
				terms = append(terms, say.Term{Kind: "caution", ID: c.ID})
			}
		}
	}
	missing := map[string]bool{}
	for _, term := range terms {
		if id := term.Kind + "." + term.ID; !words.Has(id) && !missing[id] {
			missing[id] = true
			t.Errorf("there is no word for %s", id)
		}
	}
	for _, s := range guide.Sets() {
		if line := words.Line(s.Title()); strings.ContainsAny(line, "[{") {
			t.Errorf("the set %s is called %q", s.ID, line)
		}
	}
}

// Sixth grade or below: by the Flesch-Kincaid formula (Kincaid et al. 1975,
// U.S. Navy report 8-75) over all sentences, and no sentence of more than 22
// words.
func TestReadingLevel(t *testing.T) {
	var sentences, count, syllables int
	for _, m := range words.messages {
		if !strings.ContainsAny(m.text, ".!?") {
			continue
		}
		for _, s := range strings.FieldsFunc(plain(m.text), func(r rune) bool { return strings.ContainsRune(".!?:;", r) }) {
			ws := strings.Fields(s)
			if len(ws) == 0 {
				continue
			}
			if len(ws) > 22 {
				t.Errorf("%s: a sentence of %d words: %q", m.id, len(ws), s)
			}
			sentences++
			count += len(ws)
			for _, w := range ws {
				syllables += syllablesOf(w)
			}
		}
	}
	grade := 0.39*float64(count)/float64(sentences) + 11.8*float64(syllables)/float64(count) - 15.59
	t.Logf("%d sentences, %d words, grade %.1f", sentences, count, grade)
	if grade > 6 {
		t.Errorf("the words read at grade %.1f, more than 6", grade)
	}
}

var places = regexp.MustCompile(`\{[0-9]+\|([^|}]*)\|[^}]*\}|\{[0-9]+\}`)

// plain puts a short number for each place of a message.
func plain(text string) string {
	text = places.ReplaceAllStringFunc(text, func(p string) string {
		if m := places.FindStringSubmatch(p); m[1] != "" {
			return m[1]
		}
		return "two"
	})
	return strings.NewReplacer("oz eq", "ounces", "e.g.", "", "1/2", "half", "2.5", "two").Replace(text)
}

// syllablesOf counts the vowel groups of a word, without a silent last e.
func syllablesOf(word string) int {
	word = strings.ToLower(strings.Trim(word, `"'(),-“”’`))
	n, was := 0, false
	for _, r := range word {
		is := strings.ContainsRune("aeiouy", r)
		if is && !was {
			n++
		}
		was = is
	}
	if n > 1 && strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") {
		n--
	}
	return max(n, 1)
}

var measuredTests = []struct {
	measure portion.Measure
	want    string
}{
	{portion.Measure{By: portion.ByCup, Amount: "1/2", Unit: "cup"}, "½ cup"},
	{portion.Measure{By: portion.ByCup, Amount: "3 tbsp", Unit: "cup"}, "3 tablespoons"},
	{portion.Measure{By: portion.ByHand, Amount: "2", Hand: "fist"}, "2 fists"},
	{portion.Measure{By: portion.ByPiece, Amount: "1", Piece: "small"}, "1 small one"},
	{portion.Measure{By: portion.ByPiece, Piece: "slice"}, "1 slice"},
	{portion.Measure{By: portion.ByWeight, Amount: "6", Unit: "oz", Bought: true}, "6 oz, as bought"},
	{portion.Measure{By: portion.ByLabel, Servings: "3 1/2", Size: "1/2 cup"}, "3½ servings of 1/2 cup"},
	{portion.Measure{By: portion.ByLabel, Size: "1/2 cup", Eaten: "1", EatenBy: "servings"}, "1 serving of 1/2 cup"},
	{portion.Measure{By: portion.ByLabel, Servings: "about 4", Size: "1/2 cup", Eaten: "1/2"}, "½ of a package: about 4 servings of 1/2 cup"},
	{portion.Measure{By: portion.ByLabel, Net: "15 oz"}, "a package of 15 oz"},
	{portion.Measure{By: portion.ByCup, Amount: "a bit"}, "a bit"},
}

func TestMeasured(t *testing.T) {
	for _, tt := range measuredTests {
		if got := words.Measured(portion.Portion{Measure: tt.measure}); got != tt.want {
			t.Errorf("%+v: got %q, want %q", tt.measure, got, tt.want)
		}
	}
}

func TestFor(t *testing.T) {
	for tag, want := range map[string]string{"en": "en", "EN": "en", "": "en", "xx": "en", "<b>": "en"} {
		if got := For(tag).Tag; got != want {
			t.Errorf("For(%q) is %s, want %s", tag, got, want)
		}
	}
	for _, w := range All() {
		if !w.Has("language.name") {
			t.Errorf("%s does not say its own name", w.Tag)
		}
	}
}
