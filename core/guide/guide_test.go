package guide_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
)

func TestOnes(t *testing.T) {
	nowhere := []food.Class{"mixed", "none", "", "no-such-class"}
	for _, e := range guide.Editions() {
		for _, c := range nowhere {
			if got := guide.Ones(e, c); got != nil {
				t.Errorf("%s counts in %s: %v", c, e, got)
			}
		}
		// Every other class counts in every edition that is shown.
		for _, c := range guide.Classes() {
			if got := guide.Ones(e, c); (len(got) == 0) != slices.Contains(nowhere, c) {
				t.Errorf("%s, %s: %d rows", e, c, len(got))
			}
		}
		for _, o := range guide.Crediting(e) {
			r, ok := rule.ByID(o.Rule)
			if !ok || o.Source == "" || o.Factor.Sign() <= 0 {
				t.Errorf("%s, %s: rule %q, source %q, factor %v", e, o.Class, o.Rule, o.Source, o.Factor)
			}
			if o.Origin == rule.Published && r.Origin == rule.Practice {
				t.Errorf("%s, %s is published by a rule of practice", e, o.Class)
			}
			if o.Unit != guide.UnitFor(e, o.Group) {
				t.Errorf("%s, %s is counted in %s", e, o.Class, o.Unit.ID())
			}
			if e == guide.DGA2025 && o.Group == food.Grain && o.Subgroup != food.WholeGrain {
				t.Errorf("%s counts grains that are not whole in %s", o.Class, e)
			}
		}
	}
	if guide.Ones("dga-1950", "milk") != nil || guide.Ones("", "") != nil {
		t.Error("an edition that isn't there has rows")
	}
	// Appending to an answer must not reach the table.
	first := guide.Ones(guide.DGA2020, "egg")
	_ = append(first, guide.One{Class: "broken"})
	if guide.Ones(guide.DGA2020, "evaporated")[0].Class != "evaporated" {
		t.Error("an append to an answer changed the table")
	}
}

// What is not in one edition's words is marked so: a published row of the
// 2025-2030 edition names that edition, and what is carried over is practice.
func TestCarriedOver(t *testing.T) {
	n := 0
	for _, o := range guide.Crediting(guide.DGA2025) {
		if o.Rule == rule.CarriedOver {
			n++
			if o.Origin != rule.Practice {
				t.Errorf("%s is carried over, but %s", o.Class, o.Origin)
			}
		}
		if o.Origin == rule.Published && !strings.Contains(o.Source, "2025-2030") {
			t.Errorf("%s is published in %q", o.Class, o.Source)
		}
	}
	if n == 0 {
		t.Error("nothing is carried over")
	}
}

func TestSets(t *testing.T) {
	sets := guide.Sets()
	if len(sets) != 57 {
		t.Fatalf("%d sets, want 57", len(sets))
	}
	patterns := guide.Patterns()
	seen := map[string]bool{}
	for i, s := range sets {
		if seen[s.ID] || s.Source == "" || len(s.Targets) == 0 {
			t.Errorf("%s: twice %t, source %q, %d targets", s.ID, seen[s.ID], s.Source, len(s.Targets))
		}
		seen[s.ID] = true
		if i > 0 {
			last := sets[i-1]
			a, b := slices.Index(patterns, last.Pattern), slices.Index(patterns, s.Pattern)
			if a > b || a == b && last.Level >= s.Level {
				t.Errorf("%s comes after %s", s.ID, last.ID)
			}
		}
		if got, ok := guide.SetByID(s.ID); !ok || got.ID != s.ID {
			t.Errorf("%s is not found", s.ID)
		}
		worst := rule.Published
		for _, x := range s.Targets {
			if x.Unit != guide.UnitFor(s.Edition, x.Group) {
				t.Errorf("%s: %s is counted in %s", s.ID, x.Group.ID(), x.Unit.ID())
			}
			if x.Low.Sign() == 0 && x.High.Sign() == 0 {
				t.Errorf("%s has an empty target", s.ID)
			}
			if !x.Weekly {
				worst = max(worst, x.Origin)
			}
		}
		if worst != s.Origin {
			t.Errorf("%s is %s, its least sure daily target %s", s.ID, s.Origin, worst)
		}
	}
	if !slices.Equal(guide.Levels("us"), []int{1000, 1200, 1400, 1600, 1800, 2000, 2200, 2400, 2600, 2800, 3000, 3200}) {
		t.Errorf("levels %v", guide.Levels("us"))
	}
	if guide.Levels("class") != nil || guide.Levels("none") != nil {
		t.Error("a pattern without levels has some")
	}
	if s, ok := guide.SetByID("nothing"); ok || s.ID != "" {
		t.Error("a set that isn't there was found")
	}
	// A caller may change what it got.
	s, _ := guide.SetByID("class")
	s.Targets[0].Low = amount.Int(99)
	if again, _ := guide.SetByID("class"); again.Targets[0].Low.Equal(amount.Int(99)) {
		t.Error("a caller changed the table")
	}
}

// The class's round numbers, as the issue of the project gives them.
func TestClassNumbers(t *testing.T) {
	s, _ := guide.SetByID("class")
	want := map[string]string{"fruit/": "2 cup-eq", "vegetable/": "3 cup-eq", "grain/": "6 oz-eq", "grain/whole": "3 oz-eq", "protein/": "6 oz-eq", "dairy/": "3 cup-eq"}
	for _, x := range s.Targets {
		key := x.Group.ID() + "/" + x.Subgroup.ID()
		if got := x.Low.String() + " " + x.Unit.ID(); got != want[key] || x.Origin != rule.Practice || x.Weekly {
			t.Errorf("%s: %s (%s), want %s", key, got, x.Origin, want[key])
		}
		delete(want, key)
	}
	if len(want) != 0 {
		t.Errorf("missing: %v", want)
	}
}

func TestHands(t *testing.T) {
	for _, h := range guide.Hands() {
		a := h.Holds.Amount
		if !a.Low.Less(a.Best.Add(amount.Frac(1, 100))) || a.High.Less(a.Best) || a.IsExact() || h.Source == "" || h.Rule != rule.HandCommon {
			t.Errorf("%s: %v, rule %s", h.ID, h.Holds, h.Rule)
		}
		// What the text of the usual measure says, read back, is plausible.
		own, err := guide.OwnHand(h.ID, a.Best.String()+" "+h.Holds.Unit.ID())
		if err != nil || !own.Own || !own.Holds.Amount.Best.Equal(a.Best) || own.Holds.Amount.Low.Less(a.Low) {
			t.Errorf("own %s: %+v, %v", h.ID, own, err)
		}
	}
	fist, _ := guide.HandByID("fist")
	if !fist.Holds.Amount.Best.Equal(amount.Int(1)) || fist.Holds.Unit != amount.Cup {
		t.Errorf("a fist is %v", fist.Holds)
	}
	if _, ok := guide.HandByID("elbow"); ok {
		t.Error("an elbow is a measure")
	}
}

var ownHands = []struct {
	id, text string
	want     string // of the quantity
	wrong    string // or the problem
}{
	// what people type
	{"fist", "3/4 cup", "9/16..3/4..15/16 cup", ""},
	{"fist", "¾", "9/16..3/4..15/16 cup", ""},
	{"fist", "12 tbsp", "9..12..15 tbsp", ""},
	{"fist", "200 ml", "150..200..250 ml", ""},
	{"fist", "1/2 to 1 cup", "1/2..3/4..1 cup", ""},
	{"palm", "3.5 oz", "21/8..7/2..35/8 oz", ""},
	{"palm", "100 g", "75..100..125 g", ""},
	{"thumb-tip", "1 t", "3/4..1..5/4 tsp", ""},
	// what can't be
	{"fist", "5 cups", "", "guide.hand-big"},
	{"fist", "1 gallon", "", "guide.hand-big"},
	{"fist", "1 tsp", "", "guide.hand-small"},
	{"fist", "0", "", "guide.hand-zero"},
	{"fist", "0 cups", "", "guide.hand-zero"},
	{"fist", "3 oz", "", "guide.hand-unit"},
	{"palm", "1/2 cup", "", "guide.hand-unit"},
	{"fist", "", "", "amount.empty"},
	{"fist", "big", "", "amount.no-number"},
	{"fist", "-1 cup", "", "amount.negative"},
	{"fist", "🍎", "", "amount.no-number"},
	{"fist", strings.Repeat("9", 10<<20), "", "amount.long"},
	{"elbow", "1 cup", "", "guide.hand-unknown"},
	{strings.Repeat("é", 10_000), "1 cup", "", "guide.hand-unknown"},
}

func TestOwnHand(t *testing.T) {
	for _, c := range ownHands {
		h, err := guide.OwnHand(c.id, c.text)
		id, field := wrongID(err)
		if id != c.wrong || err != nil && field != "hand" {
			t.Errorf("%.20q holds %.20q: %v, want %q", c.id, c.text, err, c.wrong)
		}
		if c.want != "" && h.Holds.String() != c.want {
			t.Errorf("%q holds %q: %v, want %s", c.id, c.text, h.Holds, c.want)
		}
	}
}

func ids(list []guide.Caution) string {
	var s []string
	for _, c := range list {
		s = append(s, c.ID)
	}
	return strings.Join(s, " ")
}

var cautionCases = []struct {
	f    food.Food
	d    food.Detail
	want string
}{
	{food.Food{Group: food.Fruit}, food.Detail{Form: food.Fresh}, ""},
	{food.Food{Group: food.Fruit}, food.Detail{Form: food.CannedHeavy}, "can-safety sugar-juice"},
	{food.Food{Group: food.Fruit}, food.Detail{Form: food.CannedWater}, "can-safety"},
	{food.Food{Group: food.Fruit, Cautions: []string{"sulfites"}}, food.Detail{Form: food.Dried}, "sulfites sugar-juice"},
	{food.Food{Group: food.Fruit, Cautions: []string{"sulfites", "choking"}}, food.Detail{Form: food.Fresh}, "choking"},
	{food.Food{Group: food.Fruit}, food.Detail{Form: food.Juice}, "raw-juice sugar-juice infant-drinks"},
	{food.Food{Group: food.Vegetable}, food.Detail{Form: food.Juice}, "raw-juice infant-drinks"},
	{food.Food{Group: food.Vegetable, Subgroup: food.Legume, Cautions: []string{"kidney-bean-boil"}}, food.Detail{Form: food.Canned}, "can-safety sodium"},
	{food.Food{Group: food.Vegetable, Subgroup: food.Legume, Cautions: []string{"kidney-bean-boil"}}, food.Detail{Form: food.Dry}, "kidney-bean-boil"},
	{food.Food{Group: food.Vegetable, Cautions: []string{"raw-sprouts"}}, food.Detail{Form: food.Fresh}, "raw-sprouts"},
	{food.Food{Group: food.Vegetable, Cautions: []string{"raw-sprouts"}}, food.Detail{Form: food.Canned}, "can-safety sodium"},
	{food.Food{Group: food.Vegetable, Cautions: []string{"vitamin-k"}}, food.Detail{Form: food.Dried}, "vitamin-k"},
	{food.Food{Group: food.Dairy, Cautions: []string{"lactose", "allergen-milk"}}, food.Detail{Form: food.Ready, Class: "milk"}, "allergen-milk lactose infant-drinks"},
	{food.Food{Group: food.Protein, Cautions: []string{"mercury", "allergen-fish", "no-such"}}, food.Detail{Form: food.CannedWater}, "mercury can-safety allergen-fish"},
	// a place of another kind is never beside a food
	{food.Food{Cautions: []string{"general", "hand-rough"}}, food.Detail{Form: food.Ready}, ""},
}

func TestCautionsFor(t *testing.T) {
	for _, c := range cautionCases {
		if got := ids(guide.CautionsFor(c.f, c.d)); got != c.want {
			t.Errorf("%v %s: %q, want %q", c.f.Cautions, c.d.Form.ID(), got, c.want)
		}
	}
	if got := ids(guide.Cautions(guide.InHand)); got != "hand-rough" {
		t.Errorf("beside a hand: %q", got)
	}
	for _, id := range []string{"general", "targets-estimate", "counting-may-harm", "allergen-sesame", "home-canned"} {
		if c, ok := guide.CautionByID(id); !ok || c.Line().ID != "caution."+id || c.Source == "" {
			t.Errorf("%s: %+v", id, c)
		}
	}
	if _, ok := guide.CautionByID("nutmeg"); ok {
		t.Error("a caution that isn't there was found")
	}
}

// messages reads the words that people see.
func messages(t *testing.T) map[string]string {
	t.Helper()
	files, _ := filepath.Glob(filepath.Join("..", "..", "app", "lang", "data", "en", "*.csv"))
	all := map[string]string{}
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		recs, err := csv.NewReader(f).ReadAll()
		f.Close()
		if err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		for _, rec := range recs {
			all[rec[0]] = rec[1]
		}
	}
	return all
}

// Every line that the guide can say has words: those in the source, and those
// made of an id.
func TestWordsAreThere(t *testing.T) {
	words := messages(t)
	need := map[string]bool{}
	sources, _ := filepath.Glob("*.go")
	say := regexp.MustCompile(`(?:say\.(?:Wrong|New)\(|wrong\([^,]+, )"([a-z0-9-]+\.[a-z0-9.-]+)"[,)]`)
	for _, file := range sources {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		for _, m := range say.FindAllStringSubmatch(string(text), -1) {
			need[m[1]] = true
		}
	}
	if len(need) < 30 {
		t.Errorf("only %d messages found in the source", len(need))
	}
	for _, p := range append(guide.Patterns(), guide.PatternOwn) {
		need["pattern."+p], need["pattern-name."+p] = true, true
	}
	for _, h := range guide.Hands() {
		need["hand."+h.ID] = true
	}
	for _, where := range []guide.Place{guide.InFood, guide.InHand, guide.InTarget, guide.InPage} {
		for _, c := range guide.Cautions(where) {
			need[c.Line().ID] = true
		}
	}
	for _, e := range append(guide.Editions(), guide.School) {
		need["edition."+string(e)] = true
	}
	for _, s := range guide.Sets() {
		for _, x := range s.Targets {
			need["group."+x.Group.ID()] = true
			if x.Subgroup != food.NoSubgroup {
				need["subgroup."+x.Subgroup.Term().ID] = true
			}
			if x.Part != "" {
				need["part."+x.Part] = true
			}
			need["counted."+x.Unit.ID()] = true
		}
	}
	for id := range need {
		if words[id] == "" {
			t.Errorf("no words for %s", id)
		}
	}
}

// What the catalogue and the guide say of each other fits: every class of the
// catalogue is one of the guide's, and every caution that a food names exists
// and is shown beside one of its forms.
func TestCatalogueFits(t *testing.T) {
	classes, foods := guide.Classes(), 0
	for _, f := range food.Foods() {
		foods++
		shown := map[string]bool{}
		for _, d := range f.Forms {
			if !slices.Contains(classes, d.Class) {
				t.Errorf("%s, %s: no class %q", f.ID, d.Form.ID(), d.Class)
			}
			for _, c := range guide.CautionsFor(f, d) {
				shown[c.ID] = true
			}
			for _, o := range guide.Ones(guide.DGA2020, d.Class) {
				if o.Cooked && d.Cooked.Sign() == 0 {
					t.Errorf("%s, %s: counted cooked, with no share that stays", f.ID, d.Form.ID())
				}
				if o.Per == guide.Per100g && d.Eq100g.Sign() == 0 {
					t.Errorf("%s, %s: counted by weight, with no factor", f.ID, d.Form.ID())
				}
			}
		}
		for _, id := range f.Cautions {
			if _, ok := guide.CautionByID(id); !ok {
				t.Errorf("%s: no caution %q", f.ID, id)
			} else if !shown[id] {
				t.Errorf("%s: the caution %s is beside none of its forms", f.ID, id)
			}
		}
	}
	if foods == 0 {
		t.Error("no foods")
	}
}
