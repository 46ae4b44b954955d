package ui

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"cupsum/app/browser"
	"cupsum/app/lang"
	"cupsum/core/amount"
	"cupsum/core/guide"
	"cupsum/core/rule"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// html is the whole page of a model.
func html(m Model) string {
	v := &view{Model: m, w: lang.English()}
	return app.HTMLString(v.page(v.dayView(), v.tablesView(), v.evidence()))
}

// words is the text of a view without its tags, in one line.
func words(html string) string {
	return strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(html, " ")), " ")
}

// pages are states of the page that between them show every view.
var pages = map[string]Model{
	"start":    NewModel(),
	"list":     play(Typed{"food", "bean"}),
	"can":      play(Typed{"food", "canned peaches"}, Key{Name: "Enter"}, Typed{"servings", "5"}, Typed{"size", "1/2 cup (124 g)"}),
	"can, bad": play(Typed{"food", "canned peaches"}, Key{Name: "Enter"}, Typed{"servings", "0"}, Typed{"size", "1/2 cup (124 g)"}),
	"part":     play(Typed{"food", "canned peaches"}, Key{Name: "Enter"}, Typed{"eatenBy", "package"}),
	"some":     play(Typed{"food", "canned peaches"}, Key{Name: "Enter"}, Typed{"eatenBy", "servings"}),
	"pasted": play(Typed{"food", "canned peaches"}, Key{Name: "Enter"},
		Typed{"paste", "About 3.5 servings per container\nServing size 1/2 cup (130g)\nSodium 140mg 6%\nIncludes 5g Added Sugars 10%"}),
	"salt":     play(Typed{"food", "black beans canned"}, Key{Name: "Enter"}, Typed{"servings", "3.5"}, Typed{"size", "1/2 cup (130 g)"}, Typed{"sodium", "400 mg"}, Typed{"sugars", "x"}),
	"hand":     play(Typed{"food", "cooked chicken"}, Key{Name: "Enter"}),
	"own hand": play(Typed{"food", "cooked rice"}, Key{Name: "Enter"}, Typed{"by", "hand"}, Typed{"own-hand", "9 miles"}),
	"piece":    play(Typed{"food", "banana"}, Key{Name: "Enter"}),
	"weight":   play(Typed{"food", "banana"}, Key{Name: "Enter"}, Typed{"by", "weight"}),
	"beans":    play(Typed{"food", "black beans"}, Key{Name: "Enter"}, Typed{"form", "cooked"}),
	"own food": play(Press{Do: "own"}, Press{Do: "own-use"}, Typed{"own-group", "grain"}),
	"added":    play(Typed{"food", "raisins"}, Key{Name: "Enter"}, Press{Do: "add", NewID: counter()}),
	"sample":   play(Press{Do: "sample"}, Press{Do: "have", Arg: "banana"}, Press{Do: "evidence"}),
	"new":      play(Press{Do: "sample"}, Typed{"set", "dga2025-2000"}),
	"removed":  play(Press{Do: "sample"}, Press{Do: "clear"}),
	"person":   play(Typed{"age", "34"}, Typed{"sex", "female"}, Typed{"activity", "moderate"}),
	"baby":     play(Typed{"age", "1"}),
	"lost":     play(Stored{browser.Lost.ID()}),
	"notices":  play(Loaded{Damaged: []string{"x"}}, Stored{"store.full"}, Updatable{}, Opened{Text: "x"}),
}

func TestNoMessageIsMissing(t *testing.T) {
	missing := regexp.MustCompile(`\[[a-z]+[a-z0-9-]*\.[a-z0-9.-]+\]|\{\d`)
	for name, m := range pages {
		if found := missing.FindAllString(html(m), -1); found != nil {
			t.Errorf("%s: %q", name, found)
		}
	}
}

// An id that stands twice breaks labels, descriptions and focus.
func TestIDsAreUniqueAndReferencesHold(t *testing.T) {
	id := regexp.MustCompile(` id="([^"]*)"`)
	ref := regexp.MustCompile(` (?:for|aria-labelledby|aria-describedby|aria-controls|aria-activedescendant)="([^"]*)"`)
	for name, m := range pages {
		text := html(m)
		seen := map[string]bool{}
		for _, found := range id.FindAllStringSubmatch(text, -1) {
			if seen[found[1]] {
				t.Errorf("%s: the id %q stands twice", name, found[1])
			}
			seen[found[1]] = true
		}
		for _, found := range ref.FindAllStringSubmatch(text, -1) {
			for _, to := range strings.Fields(found[1]) {
				if !seen[to] {
					t.Errorf("%s: nothing has the id %q", name, to)
				}
			}
		}
		if len(seen) < 10 {
			t.Errorf("%s: only %d ids found; the pattern no longer fits", name, len(seen))
		}
	}
}

// Everything that can be pressed or typed into says so in words, and does
// something.
func TestControlsHaveNamesAndDoSomething(t *testing.T) {
	button := regexp.MustCompile(`(?s)<button([^>]*)>(.*?)</button>`)
	input := regexp.MustCompile(`<(?:input|select|textarea)([^>]*)>`)
	attr := func(tag, name string) string {
		found := regexp.MustCompile(` ` + name + `="([^"]*)"`).FindStringSubmatch(tag)
		if found == nil {
			return ""
		}
		return found[1]
	}
	for name, m := range pages {
		text := html(m)
		for _, b := range button.FindAllStringSubmatch(text, -1) {
			if attr(b[1], "data-do") == "" || attr(b[1], "type") != "button" || words(b[2]) == "" {
				t.Errorf("%s: a button without deed, type or name: %s", name, b[0])
			}
		}
		for _, in := range input.FindAllStringSubmatch(text, -1) {
			if attr(in[1], "type") == "radio" { // its words are around it, its deed is its group's
				if group := attr(in[1], "name"); group == "" || !strings.Contains(text, ` data-in="`+group+`"`) {
					t.Errorf("%s: a radio button without deed: %s", name, in[0])
				}
				continue
			}
			id := attr(in[1], "id")
			if attr(in[1], "data-in") == "" || !strings.Contains(text, ` for="`+id+`"`) {
				t.Errorf("%s: a field without label or deed: %s", name, in[0])
			}
		}
	}
}

// An empty value would come back from a browser as "on" or as the option's words.
func TestNoOptionWithoutValue(t *testing.T) {
	for name, m := range pages {
		for _, tag := range regexp.MustCompile(`<(?:option|input[^>]* type="radio")[^>]*>`).FindAllString(html(m), -1) {
			if !strings.Contains(tag, ` value="`) {
				t.Errorf("%s: %s", name, tag)
			}
		}
	}
}

// shows lists what the states must say in words.
var shows = map[string][]string{
	"start":    {"How many cups is that?", "5 servings per container", "2½ cups of fruit", "0 of 2 cups", "2 cups to go.", "Nothing here yet", "General education, not medical advice"},
	"list":     {"Not in the list? Add it"},
	"can":      {"peach", "2½ cups of fruit", "5 servings are not 5 cups", "How we got there", "Counted by: Dietary Guidelines 2020–2025.", "Take care", "Add to my day"},
	"can, bad": {"Zero servings? A package holds some food."},
	"part":     {"Which part of the package?"},
	"some":     {"How many servings?"},
	"pasted":   {"From the label", "sodium", "added sugars"},
	"salt":     {"sodium", "drained and rinsed", "has no number"},
	"hand":     {"about 3 oz eq of protein foods", "It can be 2 to 5.", "My own hand"},
	"own hand": {"Such as 1, 2 or 1/2"},
	"piece":    {"How big is one?"},
	"weight":   {"As bought, with peel, core or bone"},
	"beans":    {"Count these beans as", "of protein foods", "of vegetables"},
	"own food": {"Your own food", "Which kind?", "What is it called?"},
	"added":    {"Added: raisins.", "See your day", "On my day: 1 food", "Undo"},
	"sample":   {"This is a sample from a made-up class.", "Back to my own day", "Too close to call.", "Tables of figures", "recalled, not read"},
	"new":      {"Counted by: Dietary Guidelines 2025–2030.", "servings"},
	"removed":  {"The day is cleared.", "Undo"},
	"person":   {"Use this target", "US-style pattern"},
	"baby":     {"Ask the child's doctor", "Use the class's numbers"},
	"notices":  {"A newer version", "no room left", "could not be read", "Your day is as it was."},
}

func TestPagesSay(t *testing.T) {
	for name, want := range shows {
		text := words(html(pages[name]))
		for _, w := range want {
			if !strings.Contains(strings.ReplaceAll(text, "&#39;", "'"), w) {
				t.Errorf("%s does not say %q", name, w)
			}
		}
	}
}

// A problem stands at its field, in words, and never beside an answer.
func TestProblemStandsAtItsField(t *testing.T) {
	text := html(pages["can, bad"])
	if !strings.Contains(text, `id="in-servings-about"`) || !strings.Contains(text, `aria-invalid`) {
		t.Error("the field does not point at its problem")
	}
	if strings.Contains(text, `id="bar"`) || strings.Contains(text, `data-do="add"`) {
		t.Error("there is an answer beside a problem")
	}
	if empty := html(pages["some"]); strings.Contains(empty, "aria-invalid") {
		t.Error("an empty field is called wrong before anything was typed")
	}
}

// The static page is the page that the program starts with, and it needs no
// attribute that scripts alone would give.
func TestStaticPage(t *testing.T) {
	text := app.HTMLString(Static())
	for _, want := range []string{"2½ cups", "dried fruit", "raw leafy greens", "peanut or other nut butter", "hard cheese"} {
		if !strings.Contains(words(text), want) {
			t.Errorf("the static page lacks %q", want)
		}
	}
	if !strings.Contains(text, `id="food"`) {
		t.Error("nothing to type into while the program loads")
	}
	if strings.Contains(text, " style=") || strings.Contains(text, "onclick") {
		t.Error("inline style or handler, against the content security policy")
	}
}

func TestEvidenceNamesEveryRule(t *testing.T) {
	text := app.HTMLString(Evidence())
	for _, r := range rule.Rules {
		if !strings.Contains(text, `id="rule-`+string(r.ID)+`"`) {
			t.Errorf("the evidence lacks %s", r.ID)
		}
	}
	if got := strings.Count(text, "<details"); got < 10 {
		t.Errorf("%d tables of figures", got)
	}
}

// What counts as one, by the Dietary Guidelines for Americans 2020-2025, Table
// A3-2 note c, written out here.
var ones = map[string]string{
	"½ cup": "dried fruit", "2 cups": "raw leafy greens", "1½ oz": "hard cheese", "¼ cup": "cooked beans, peas or lentils", "½ oz": "nuts or seeds", "1 tablespoon": "peanut",
}

func TestTablesOfOne(t *testing.T) {
	v := &view{Model: NewModel(), w: lang.English()}
	text := words(app.HTMLString(v.tablesView()))
	for much, what := range ones {
		if !strings.Contains(text, much+" "+what) {
			t.Errorf("the tables do not say that %s of %s is one", much, what)
		}
	}
}

func TestCupsAreFilledToTheQuarter(t *testing.T) {
	q := func(n int64) amount.Num { return amount.Frac(n, 4) }
	for _, tt := range []struct {
		a                 amount.Amount
		cups, maybe, wide int
	}{
		{amount.Exactly(q(10)), 3, 0, 3},
		{amount.Between(q(5), q(6), q(7)), 2, 1, 2},
		{amount.Between(q(3), q(6), q(9)), 3, 3, 3},
		{amount.Exactly(amount.Frac(1, 16)), 1, 1, 1}, // a trace is drawn as one
		{amount.Exactly(amount.Int(40)), 8, 0, 5},
		{amount.Exactly(amount.Int(5)), 5, 0, 4}, // in two rows
		{amount.Amount{}, 0, 0, 0},
	} {
		text := app.HTMLString(measures(tt.a, guide.CupEq))
		// Each cup has one handle, each hatched part is closed by itself.
		path := func(class string) string {
			tag := regexp.MustCompile(`<path[^>]*class="` + class + `"[^>]*>`).FindString(text)
			_, d, _ := strings.Cut(tag, ` d="`)
			return d
		}
		if got := strings.Count(path("line"), "q7 0 7 7"); got != tt.cups {
			t.Errorf("%s: %d cups, want %d", tt.a, got, tt.cups)
		}
		if got := strings.Count(path("maybe"), "Z"); got != tt.maybe {
			t.Errorf("%s: %d hatched, want %d", tt.a, got, tt.maybe)
		}
		if tt.a.High.Sign() > 0 && !strings.Contains(text, `width="`+strconv.Itoa(tt.wide)+`em"`) {
			t.Errorf("%s: not %d wide: %s", tt.a, tt.wide, text)
		}
		if more := strings.Contains(text, "+32"); more != (tt.cups == mostDrawn) {
			t.Errorf("%s: says what is not drawn: %v", tt.a, more)
		}
	}
}

func TestStripEndsWhereTheAmountsDo(t *testing.T) {
	text := app.HTMLString(strip(amount.Between(amount.Int(1), amount.Int(1), amount.Int(2)), guide.Target{Low: amount.Int(4), Unit: guide.CupEq}))
	// The whole strip is 4 1/2 cups in 400 units: 1 cup is 89, 2 are 178, the target is at 356.
	for _, want := range []string{`width="89"`, `x="89"`, `M356 36`} {
		if !strings.Contains(text, want) {
			t.Errorf("the strip lacks %s", want)
		}
	}
}

func TestStoredDocumentsComeBack(t *testing.T) {
	m := play(Press{Do: "have", Arg: "banana"}, Typed{"set", "us-2000"}, Typed{"title", "Tuesday"}, Typed{"age", "34"},
		Typed{"food", "cooked rice"}, Key{Name: "Enter"}, Typed{"by", "hand"}, Typed{"own-hand", "3/4 cup"}, Press{Do: "add", NewID: counter()})
	docs := changes(NewModel().keeps(), m.keeps())
	if len(docs) != 6 {
		t.Fatalf("%d documents", len(docs))
	}
	k, damaged := restore(docs)
	if len(damaged) != 0 || len(changes(k, m.keeps())) != 0 {
		t.Errorf("restored %+v, damaged %v", k, damaged)
	}
	// One spoilt document leaves the others alone.
	i := slices.IndexFunc(docs, func(e browser.Entry) bool { return e.ID == "hands" })
	docs[i].Body = []byte(`[1,2]`)
	k, damaged = restore(docs)
	if len(damaged) != 1 || damaged[0].ID != "hands" || len(k.sheet.Portions) != 1 || k.sheet.Title != "Tuesday" {
		t.Errorf("restored %+v, damaged %v", k, damaged)
	}
}

func TestPersonIsInNoFile(t *testing.T) {
	m := play(Typed{"age", "34"}, Typed{"sex", "female"})
	if file := string(m.Day.Sheet.Write()); strings.Contains(file, "34") || strings.Contains(file, "female") {
		t.Errorf("the day file tells of the person: %s", file)
	}
}
