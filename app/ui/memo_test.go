package ui

import (
	"strings"
	"testing"

	"cupsum/app/lang"

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

// The sample that the page is made ahead with has to be one that is answered:
// only then is all of the answer there.
func TestMeasuredIsAnswered(t *testing.T) {
	m := measured(NewModel())
	if !m.Convert.Chosen || m.Convert.Err != nil || len(m.Convert.Result.Credits) == 0 {
		t.Errorf("chosen %v, error %v, credits %v", m.Convert.Chosen, m.Convert.Err, m.Convert.Result.Credits)
	}
	l := &live{}
	v := &view{Model: NewModel(), w: lang.English(), live: l}
	l.ahead = &view{m, v.w, l}
	text := app.HTMLString(v.page(el("div"), el("div"), el("div")))
	for _, want := range []string{`id="in-servings"`, `id="chosen"`, `class="number"`} {
		if !strings.Contains(text, want) {
			t.Errorf("%s is not made ahead", want)
		}
	}
	// Its keys are none that a later answer can have.
	for _, name := range []string{"measuring", "answer", "reasons"} {
		if got := l.stays[name]; got != ahead {
			t.Errorf("%s has the key %q", name, got)
		}
	}
	if strings.Contains(text, `class="page is-measuring"`) || strings.Contains(text, `class="slot measuring" hidden="false"`) {
		t.Error("what is made ahead shows")
	}
}
