package ui

import (
	"strconv"
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/day"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/say"
)

// counter gives the ids that the browser's store would give.
func counter() func() string {
	n := 0
	return func() string {
		n++
		return "p-" + strconv.Itoa(1000+n)
	}
}

// play sends messages to a new page, one after the other.
func play(msgs ...any) Model {
	m := NewModel()
	for _, msg := range msgs {
		m = update(m, msg)
	}
	return m
}

// best is the one credit's best guess of what is being measured, "" for none.
func bestOf(m Model) string {
	if m.Convert.Err != nil || len(m.Convert.Result.Credits) == 0 {
		return ""
	}
	return m.Convert.Result.Credits[0].Amount.Best.String()
}

func TestTypingACanFindsItsCups(t *testing.T) {
	m := play(Typed{"food", "canned peaches"}, Key{Name: "Enter"}, Typed{"servings", "5"}, Typed{"size", "1/2 cup (124 g)"})
	if by := m.Convert.Portion.Measure.By; by != portion.ByLabel {
		t.Fatalf("a can is measured by %q first", by)
	}
	if got := bestOf(m); got != "5/2" {
		t.Errorf("5 servings of 1/2 cup are %q cups", got)
	}
	if m.Focus != "chosen" {
		t.Errorf("the focus went to %q", m.Focus)
	}
}

// The measure offered first, and the answer that is there before anything is
// typed.
var firstMeasures = []struct {
	typed string
	by    portion.Way
	best  string // "" where the label has to be read first
}{
	{"canned black beans", portion.ByLabel, ""},
	{"raisins", portion.ByCup, "2"},         // dried counts double
	{"cooked chicken", portion.ByHand, "3"}, // a palm is taught as 3 oz
	{"brown rice cooked", portion.ByCup, "2"},
}

func TestFirstMeasureFitsTheForm(t *testing.T) {
	for _, tt := range firstMeasures {
		m := play(Typed{"food", tt.typed}, Key{Name: "Enter"})
		if got := m.Convert.Portion.Measure.By; got != tt.by {
			t.Errorf("%s: measured by %q, want %q", tt.typed, got, tt.by)
		}
		if got := bestOf(m); got != tt.best {
			t.Errorf("%s: counts as %q, want %q (%v)", tt.typed, got, tt.best, m.Convert.Err)
		}
	}
}

func TestArrowKeysWalkTheList(t *testing.T) {
	m := play(Typed{"food", "bean"})
	if len(m.Convert.Hits) < 2 || !m.Convert.Open || m.Convert.Active != 0 {
		t.Fatalf("hits %d, open %v, active %d", len(m.Convert.Hits), m.Convert.Open, m.Convert.Active)
	}
	last := len(m.Convert.Hits) // "not in the list"
	for _, step := range []struct {
		key  string
		want int
	}{{"ArrowDown", 1}, {"ArrowUp", 0}, {"ArrowUp", last}, {"ArrowDown", 0}} {
		if m = update(m, Key{Name: step.key}); m.Convert.Active != step.want {
			t.Fatalf("after %s at %d, want %d", step.key, m.Convert.Active, step.want)
		}
	}
	if m = update(m, Key{Name: "Escape"}); m.Convert.Open {
		t.Error("Escape left the list open")
	}
	second := m.Convert.Hits[1].Food.ID
	m = update(update(m, Key{Name: "ArrowDown"}), Key{Name: "ArrowDown"}) // opens, then goes on
	m = update(update(m, Key{Name: "Enter"}), Left{})
	if m.Convert.Food.ID != second || m.Convert.Open {
		t.Errorf("chose %q, want %q", m.Convert.Food.ID, second)
	}
}

func TestBadInputNeverCounts(t *testing.T) {
	chosen := play(Typed{"food", "raisins"}, Key{Name: "Enter"})
	for _, text := range []string{"", "0", "-1", "1/0", "x", "🍑", "1000", "3 lb", strings.Repeat("9", 100_000)} {
		m := update(chosen, Typed{"amount", text})
		if m.Convert.Err == nil {
			t.Errorf("%.20q was counted as %s", text, bestOf(m))
			continue
		}
		if p, ok := m.Convert.Err.(*say.Problem); !ok || p.Field != "amount" {
			t.Errorf("%.20q: the problem %v names no field", text, m.Convert.Err)
		}
		if after := update(m, Press{Do: "add", NewID: counter()}); len(after.Day.Sheet.Portions) != 0 {
			t.Errorf("%.20q was added to the day", text)
		}
	}
}

func TestAddEditRemoveUndo(t *testing.T) {
	id := counter()
	m := play(Typed{"food", "raisins"}, Key{Name: "Enter"}, Press{Do: "add", NewID: id})
	if len(m.Day.Sheet.Portions) != 1 || m.Convert.Chosen || m.Focus != "added" {
		t.Fatalf("after adding: %+v, focus %q", m.Day.Sheet.Portions, m.Focus)
	}
	p := m.Day.Sheet.Portions[0]

	m = update(m, Press{Do: "edit", Arg: p.ID})
	if m.Convert.Editing != p.ID || !m.Convert.Chosen {
		t.Fatal("the portion is not in Convert")
	}
	m = update(update(m, Typed{"amount", "1/4"}), Press{Do: "add", NewID: id})
	if got := m.Day.Sheet.Portions; len(got) != 1 || got[0].Measure.Amount != "1/4" || got[0].ID != p.ID {
		t.Fatalf("after changing: %+v", got)
	}
	m = update(m, Press{Do: "undo"})
	if got := m.Day.Sheet.Portions; len(got) != 1 || got[0].Measure.Amount != "1" {
		t.Fatalf("after taking the change back: %+v", got)
	}
	m = update(m, Press{Do: "remove", Arg: p.ID})
	if len(m.Day.Sheet.Portions) != 0 || m.Focus != "undo" {
		t.Fatalf("after removing: %+v, focus %q", m.Day.Sheet.Portions, m.Focus)
	}
	m = update(m, Press{Do: "undo"})
	if got := m.Day.Sheet.Portions; len(got) != 1 || got[0].ID != p.ID || m.Day.Undo != nil {
		t.Fatalf("after undo: %+v", got)
	}
}

// Another tab may change the day between a change and its undo; the undo
// leaves that alone.
func TestUndoKeepsWhatAnotherTabDid(t *testing.T) {
	m := play(Typed{"food", "raisins"}, Key{Name: "Enter"}, Press{Do: "add", NewID: counter()})
	m = update(m, Press{Do: "remove", Arg: "p-1001"})
	other := portion.Portion{ID: "p-2000", Food: "banana", Form: "fresh", Measure: portion.Measure{By: portion.ByPiece, Amount: "1", Piece: "medium"}}
	m = update(m, Loaded{Sheet: day.Sheet{Portions: []portion.Portion{other}}})
	m = update(m, Press{Do: "undo"})
	ids := ""
	for _, p := range m.Day.Sheet.Portions {
		ids += p.ID + " "
	}
	if ids != "p-1001 p-2000 " {
		t.Errorf("the day holds %s", ids)
	}
}

func TestSampleDayIsNotTheOwnDay(t *testing.T) {
	m := play(Typed{"food", "raisins"}, Key{Name: "Enter"}, Press{Do: "add", NewID: counter()})
	own := m.keeps()
	m = update(m, Press{Do: "sample"})
	if !m.Day.Sheet.Demo || len(m.Day.Sheet.Portions) < 5 {
		t.Fatalf("no sample: %d portions", len(m.Day.Sheet.Portions))
	}
	m = update(m, Press{Do: "clear"})
	if list := changes(own, m.keeps()); len(list) != 0 {
		t.Errorf("playing with the sample stored %v", list)
	}
	m = update(m, Press{Do: "own-day"})
	if len(m.Day.Sheet.Portions) != 1 || m.Day.Sheet.Demo {
		t.Errorf("back on the own day there is %+v", m.Day.Sheet.Portions)
	}
}

func TestFillClosesAGap(t *testing.T) {
	m := NewModel()
	fruit := m.Day.Report.Groups[0]
	ways := m.Day.Report.Ways(fruit)
	if len(ways) != 3 {
		t.Fatalf("%d ways to close the first gap", len(ways))
	}
	m = update(m, Press{Do: "fill", Arg: fillArg(fruit, 1), NewID: counter()})
	if g := m.Day.Report.Groups[0]; g.Gap.Sign() != 0 {
		t.Errorf("after the second way, %s is missing", g.Gap)
	}
	if m = update(m, Press{Do: "undo"}); len(m.Day.Sheet.Portions) != 0 {
		t.Errorf("undo left %d portions", len(m.Day.Sheet.Portions))
	}
}

func TestTargetSetChangesEditionAndAnswer(t *testing.T) {
	m := play(Typed{"food", "cooked chicken"}, Key{Name: "Enter"}, Typed{"by", "weight"}, Typed{"amount", "3"})
	if got := bestOf(m); got != "3" {
		t.Fatalf("3 oz count as %q by the 2020-2025 guidelines", got)
	}
	m = update(m, Typed{"set", "dga2025-2000"})
	if got := bestOf(m); got != "1" {
		t.Errorf("3 oz count as %q by the 2025-2030 guidelines", got)
	}
	if m = update(m, Typed{"set", "no-such"}); m.Day.Sheet.Set != "dga2025-2000" {
		t.Errorf("an unknown set was taken: %q", m.Day.Sheet.Set)
	}
}

func TestOwnHandCountsAtOnce(t *testing.T) {
	m := play(Typed{"food", "cooked rice"}, Key{Name: "Enter"}, Typed{"by", "hand"})
	if m.Convert.Portion.Measure.Hand != "fist" {
		t.Fatalf("offered %q first", m.Convert.Portion.Measure.Hand)
	}
	before := bestOf(m)
	m = update(m, Typed{"own-hand", "3/4 cup"})
	if got := bestOf(m); got != "3/2" || got == before {
		t.Errorf("a fist of 3/4 cup of rice counts as %q", got)
	}
	if m = update(m, Typed{"own-hand", "40 cups"}); bestOf(m) != before {
		t.Errorf("a hand of 40 cups changed the answer to %q", bestOf(m))
	}
	if m = update(m, Typed{"own-hand", ""}); len(m.Day.Sheet.Hands) != 0 {
		t.Errorf("an emptied field left %v", m.Day.Sheet.Hands)
	}
}

func TestBeansCountOnTheSideThatWasChosen(t *testing.T) {
	m := play(Typed{"food", "black beans"}, Key{Name: "Enter"}, Typed{"form", "cooked"}, Typed{"by", "cup"}, Typed{"amount", "1/4"})
	if c := m.Convert.Result.Credits; len(c) != 1 || c[0].Alt == nil || c[0].Alt.Amount.Best.String() != "1" {
		t.Fatalf("credits %+v", c)
	}
	m = update(m, Typed{"side", "protein"})
	if c := m.Convert.Result.Credits; len(c) != 1 || c[0].Group != food.Protein || c[0].Alt != nil {
		t.Errorf("credits %+v", c)
	}
}

func TestOwnFood(t *testing.T) {
	m := play(Typed{"food", "Aunt's greens"}, Press{Do: "own"})
	if m.Convert.Draft.Name != "Aunt's greens" || !m.Convert.Drafting {
		t.Fatalf("draft %+v", m.Convert.Draft)
	}
	m = update(update(m, Typed{"own-kind", "leafy-raw"}), Press{Do: "own-use"})
	if !m.Convert.Chosen || m.Convert.Err != nil {
		t.Fatalf("not chosen: %v %v", m.Convert.DraftErr, m.Convert.Err)
	}
	m = update(update(update(m, Typed{"by", "cup"}), Typed{"amount", "1"}), Press{Do: "add", NewID: counter()})
	if g := m.Day.Report.Groups[1]; !g.Total.Equal(amount.Exactly(amount.Frac(1, 2))) {
		t.Errorf("a cup of raw leaves fills %s cups of vegetables", g.Total)
	}
	m = update(m, Press{Do: "edit", Arg: "p-1001"})
	if m.Convert.Food.Name != "Aunt's greens" {
		t.Errorf("edited %q", m.Convert.Food.Name)
	}

	if none := play(Typed{"food", "zzzq"}, Key{Name: "Enter"}); !none.Convert.Drafting || none.Focus != "in-own-name" {
		t.Errorf("Enter on a food that is nowhere led to %q", none.Focus)
	}
	bad := play(Press{Do: "own"}, Press{Do: "own-use"})
	if bad.Convert.Chosen || bad.Convert.DraftErr == nil || bad.Focus != "in-own-name" {
		t.Errorf("a food without a name: %+v, focus %q", bad.Convert.DraftErr, bad.Focus)
	}
}

func TestOpeningADayFile(t *testing.T) {
	id := counter()
	start := play(Typed{"food", "raisins"}, Key{Name: "Enter"}, Press{Do: "add", NewID: id})
	file := string(day.Demo().Write())

	m := update(start, Opened{Text: file, NewID: id})
	if len(m.Day.Sheet.Portions) != len(day.Demo().Portions) || m.Day.Sheet.Demo {
		t.Fatalf("opened %d portions", len(m.Day.Sheet.Portions))
	}
	if m = update(m, Press{Do: "undo"}); len(m.Day.Sheet.Portions) != 1 || m.Day.Sheet.Portions[0].Food != start.Day.Sheet.Portions[0].Food {
		t.Errorf("undo gave %+v", m.Day.Sheet.Portions)
	}
	for name, text := range map[string]string{
		"empty": "", "not JSON": "hello", "cut off": file[:len(file)/2], "other": `{"format":"x"}`, "newer": `{"format":"cupsum-day","version":99}`,
	} {
		m := update(start, Opened{Text: text, NewID: id})
		if len(m.Day.Notes) == 0 || m.Focus != "day-notes" {
			t.Errorf("%s: no sentence", name)
		}
		if len(changes(start.keeps(), m.keeps())) != 0 {
			t.Errorf("%s: the day was changed", name)
		}
	}
}

func TestProgrammesOwnTargets(t *testing.T) {
	set, _ := guide.SetByID("class")
	own := set.Own("tuesday", "Tuesday numbers", "agreed in class")
	m := play(Opened{Text: string(own.JSON()), NewID: counter()})
	if m.Day.Sheet.Set != "tuesday" || m.Day.Report.Set.Name != "Tuesday numbers" || m.Day.Undo == nil {
		t.Fatalf("set %q, notes %v", m.Day.Sheet.Set, m.Day.Notes)
	}
	k, damaged := restore(changes(NewModel().keeps(), m.keeps()))
	if len(damaged) != 0 || k.sheet.Own == nil || update(NewModel(), Loaded{Sheet: k.sheet}).Day.Report.Set.Name != "Tuesday numbers" {
		t.Errorf("stored and restored: %+v", k.sheet)
	}
	m = update(update(m, Typed{"set", "us-2000"}), Typed{"set", "tuesday"})
	if m.Day.Report.Set.Name != "Tuesday numbers" {
		t.Errorf("back to %q", m.Day.Report.Set.Name)
	}
	bad := strings.Replace(string(own.JSON()), `"cupsum-targets"`, `"cupsum-targets", "surprise": 1`, 1)
	if m := play(Opened{Text: bad}); len(m.Day.Notes) != 1 || m.Day.Sheet.Set != day.DefaultSet {
		t.Errorf("a bad file of targets: set %q, notes %v", m.Day.Sheet.Set, m.Day.Notes)
	}
}

func TestStartTakesSectionAndSet(t *testing.T) {
	m := play(started("section=day&set=us-1600&lang=en&x"))
	if m.Only != "day" || m.Day.Sheet.Set != "us-1600" || !m.Loaded {
		t.Errorf("only %q, set %q", m.Only, m.Day.Sheet.Set)
	}
	m = play(Typed{"set", "us-2000"}, started("set=us-1600&section=evil"))
	if m.Only != "" || m.Day.Sheet.Set != "us-2000" {
		t.Errorf("a link changed the person's own choice: %q, %q", m.Only, m.Day.Sheet.Set)
	}
}

func TestPastedLabelFillsTheFields(t *testing.T) {
	label := "Nutrition Facts\nAbout 3.5 servings per container\nServing size 1/2 cup (130g)\nSodium 140mg 6%\nIncludes 5g Added Sugars 10%\n"
	m := play(Typed{"food", "canned peaches"}, Key{Name: "Enter"}, Typed{"paste", label})
	p := m.Convert.Portion.Measure
	if p.Servings != "about 3½" || !strings.Contains(p.Size, "1/2 cup") {
		t.Fatalf("servings %q, size %q", p.Servings, p.Size)
	}
	if got := bestOf(m); got != "7/4" {
		t.Errorf("counts as %q", got)
	}
	if m.Convert.Sodium != "140" || m.Convert.Sugars != "5" {
		t.Errorf("sodium %q, sugars %q", m.Convert.Sodium, m.Convert.Sugars)
	}
	m = update(m, Typed{"paste", strings.Repeat("x", 10<<20)})
	if m.Convert.Pasted.Err == nil || m.Convert.Portion.Measure.Servings != "about 3½" {
		t.Errorf("10 MB of text: %v", m.Convert.Pasted.Err)
	}
}
