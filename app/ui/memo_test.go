package ui

import (
	"strconv"
	"strings"
	"testing"

	"cupsum/app/lang"
	"cupsum/core/portion"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// shown is a page drawn after others, with what they left in it.
func shown(l *live, m Model) string {
	v := &view{Model: m, w: lang.English(), live: l}
	return app.HTMLString(v.page(v.dayView(), v.tablesView(), v.evidence()))
}

func TestLinesThatAreNotNeededStayHidden(t *testing.T) {
	l := &live{}
	shown(l, play(Typed{"food", "bean"}))
	if len(l.hits) != maxHits {
		t.Fatalf("%d lines for \"bean\", want %d", len(l.hits), maxHits)
	}
	for _, tt := range []struct{ typed, active string }{
		{"", ""}, {"kohlrabi", `aria-activedescendant="food-0"`}, {"bean", `aria-activedescendant="food-0"`},
	} {
		m := play(Typed{"food", tt.typed})
		text := shown(l, m)
		want := 0
		if m.Convert.Open {
			want = len(m.Convert.Hits) + 1 // and "not in the list"
		}
		if got := strings.Count(text, `role="option"`); got != maxHits+1 {
			t.Errorf("%q: %d lines in the page, want %d", tt.typed, got, maxHits+1)
		}
		if got := strings.Count(text, `id="food-`) - 1; got != want { // the hint is food-about
			t.Errorf("%q: %d lines to choose from, want %d", tt.typed, got, want)
		}
		if !strings.Contains(text, tt.active) {
			t.Errorf("%q: no %s", tt.typed, tt.active)
		}
	}
}

func TestWorkingHidesTheLinesBeforeIt(t *testing.T) {
	l := &live{}
	beans := play(Press{Do: "food", Arg: "black-beans/canned"}, Typed{"servings", "3.5"}, Typed{"size", "1/2 cup (130 g)"}, Typed{"liquid", "drained"})
	shown(l, beans)
	many := len(beans.Convert.Result.Steps)
	peach := play(Press{Do: "food", Arg: "peach/canned-juice"}, Typed{"servings", "5"}, Typed{"size", "1/2 cup (124 g)"})
	few := len(peach.Convert.Result.Steps)
	if few >= many {
		t.Fatalf("%d lines are not fewer than %d", few, many)
	}
	shown(l, peach)
	if len(l.steps) != many {
		t.Errorf("%d lines are left, want %d", len(l.steps), many)
	}
	text := app.HTMLString((&view{Model: peach, w: lang.English(), live: l}).answerWorking(peach.Convert.Result.Steps))
	if got := strings.Count(text, `<li hidden="false">`); got != few {
		t.Errorf("%d lines are shown, want %d:\n%s", got, few, text)
	}
	if got := strings.Count(text, "<li hidden>") + strings.Count(text, `<li hidden="true">`); got != many-few {
		t.Errorf("%d lines are hidden, want %d", got, many-few)
	}
}

func TestRulesOpenWhereTheyStand(t *testing.T) {
	m := play(Started{}, Press{Do: "food", Arg: "peach/canned-juice"}, Typed{"servings", "5"}, Typed{"size", "1/2 cup (124 g)"})
	steps := m.Convert.Result.Steps
	place := "answer0/" + string(steps[0].Rule)
	says := func(m Model) int {
		_, answer, _ := strings.Cut(shown(&live{}, m), `id="answer"`)
		answer, _, _ = strings.Cut(answer, `id="bar"`)
		return strings.Count(answer, `class="source"`)
	}
	if got := says(m); got != 0 {
		t.Errorf("%d rules are open at the start", got)
	}
	open := update(m, Press{Do: "rule", Arg: place})
	if got := says(open); got != 1 {
		t.Errorf("%d rules are open after one was opened", got)
	}
	if got := says(update(open, Press{Do: "rule", Arg: place})); got != 0 {
		t.Errorf("%d rules are open after it was closed", got)
	}
}

func TestWhatMayWaitIsDrawnWithTheNextFrame(t *testing.T) {
	l := &live{}
	key := func(want string) string {
		v := &view{Model: NewModel(), w: lang.English(), live: l}
		v.stays("div", "part", true, "1", func(*view) app.UI { return el("div") })
		return v.later("reasons", want, func(*view) app.UI { return el("p") }).(*keyed).Key
	}
	if got := key("1"); got != "1" {
		t.Errorf("at leisure: key %q, want 1", got)
	}
	l.late = true
	if got := key("2"); got != "1" {
		t.Errorf("while it has to wait: key %q, want 1", got)
	}
	l.late = false
	if got := key("2"); got != "2" {
		t.Errorf("with the next frame: key %q, want 2", got)
	}
}

// The samples that the page is made ahead with have to be answered, and to be
// measured as they say: only then is all that a press will need there.
func TestSamplesAreAnswered(t *testing.T) {
	ways := []portion.Way{portion.ByHand, portion.ByCup, portion.ByLabel, portion.ByLabel}
	if len(ways) != len(samples) {
		t.Fatalf("%d samples, want %d", len(samples), len(ways))
	}
	l := &live{}
	v := &view{Model: NewModel(), w: lang.English(), live: l}
	text := ""
	for i, way := range ways {
		m := sample(NewModel(), i+1)
		if c := m.Convert; !c.Chosen || c.Err != nil || c.Portion.Measure.By != way || (c.Result.ByGroup()[0].Alt != nil) != (c.Food.ID == "black-beans") {
			t.Errorf("sample %d: chosen %v, error %v, measured %+v, counts as %+v", i, c.Chosen, c.Err, c.Portion.Measure, c.Result.Credits)
		}
		l.make(&view{m, v.w, l})
		text = app.HTMLString(v.page(el("div"), el("div"), el("div")))
		l.ahead = nil
		// Its keys are none that a later answer can have.
		fields := "amount"
		if way == portion.ByLabel {
			fields = "label"
		}
		for _, name := range []string{"measuring", "answer", "reasons", fields} {
			if got, want := l.stays[name], "ahead"+strconv.Itoa(i+1); got != want {
				t.Errorf("%s has the key %q, want %q", name, got, want)
			}
		}
	}
	for _, want := range []string{`id="in-servings"`, `id="in-eaten"`, `id="in-amount"`, `id="in-unit"`, `id="chosen"`, `class="number"`, `name="hand"`, `name="side"`} {
		if !strings.Contains(text, want) {
			t.Errorf("%s is not made ahead", want)
		}
	}
	if strings.Contains(text, `class="page is-measuring"`) || strings.Contains(text, `class="slot measuring" hidden="false"`) {
		t.Error("what is made ahead shows")
	}
}

// Once a person has measured something, what is made ahead leaves it alone.
func TestSamplesDoNotTakeOver(t *testing.T) {
	l := &live{}
	m := play(Press{Do: "food", Arg: "peach/canned-juice"}, Typed{"servings", "5"}, Typed{"size", "1/2 cup (124 g)"})
	shown(l, m)
	l.make(&view{sample(NewModel(), 1), lang.English(), l})
	shown(l, m)
	if key := l.stays["measuring"]; l.unused("measuring") {
		t.Errorf("what is measured has the key %q", key)
	}
	if l.stays["amount"] != "ahead1" {
		t.Errorf("fields that were not used have the key %q", l.stays["amount"])
	}
}

// What may wait a frame, by what was done. What stood behind another food's
// answer must never show behind this one's.
func TestWhatWaitsForWhat(t *testing.T) {
	label := []any{Press{Do: "food", Arg: "peach/canned-juice"}, Typed{"servings", "5"}}
	answered := append(label[:2:2], Typed{"size", "1/2 cup"})
	onDay := append(answered[:3:3], Press{Do: "add", NewID: func() string { return "p-1" }})
	for _, tt := range []struct {
		name   string
		before []any
		msg    any
		want   waits
	}{
		{"a letter in the food field", nil, Typed{"food", "pea"}, waits{}},
		{"a letter without an answer", label, Typed{"size", "1/"}, waits{}},
		{"the letter that makes the answer", label, Typed{"size", "1/2 cup"}, waits{late: true, fresh: true}},
		{"a letter that changes it", answered, Typed{"size", "1/2 cup (1"}, waits{late: true}},
		{"an option", answered, Typed{"liquid", "drained"}, waits{late: true}},
		{"a food with an answer of its own", answered, Press{Do: "food", Arg: "banana/fresh"}, waits{late: true, fresh: true, chosen: true}},
		{"a food that asks first", answered, Press{Do: "food", Arg: "black-beans/canned"}, waits{}},
		{"the same from the keyboard", []any{Typed{"food", "banana"}}, Key{Name: "Enter"}, waits{late: true, fresh: true, chosen: true}},
		{"adding", answered, Press{Do: "add", NewID: counter()}, waits{late: true, added: true}},
		{"removing", onDay, Press{Do: "remove", Arg: "p-1"}, waits{late: true, totals: true}},
		{"changing", onDay, Press{Do: "edit", Arg: "p-1"}, waits{late: true, fresh: true, chosen: true, totals: true}}, // the undo goes
	} {
		r := newRoot()
		before := play(tt.before...)
		r.m = update(before, tt.msg)
		r.later(before, tt.msg)
		if got := r.live.waits; got != tt.want {
			t.Errorf("%s: %+v waits, want %+v", tt.name, got, tt.want)
		}
	}
	// Who types on before the next frame has not seen it yet.
	r := newRoot()
	for i := range answered {
		r.m = play(answered[:i+1]...)
		r.later(play(answered[:i]...), answered[i])
	}
	before := r.m
	r.m = update(before, Typed{"size", "1/2 cup (1"})
	r.later(before, Typed{"size", "1/2 cup (1"})
	if !r.live.fresh {
		t.Error("the next letter shows what stood behind the answer before")
	}
}
