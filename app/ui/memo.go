package ui

import (
	"slices"
	"strconv"
	"strings"

	"cupsum/core/food"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// A memo is a view that is drawn anew only when what it shows has changed:
// most of the page stands still while somebody types, and making its elements
// for nothing costs a slow phone more than the answer does. P is a type of its
// own for each view, so that one memo never takes another's place.
type memo[P any] struct {
	app.Compo
	Props P // compared by go-app; has to be all that draw depends on
	draw  func(P) app.UI
}

// keep makes a memo.
func keep[P any](props P, draw func(P) app.UI) app.UI { return &memo[P]{Props: props, draw: draw} }

// Render is go-app's way to draw.
func (m *memo[P]) Render() app.UI { return m.draw(m.Props) }

// A keyed view is one that is drawn anew only when its key has changed. The key
// says in a few bytes what a whole part of the model comes to, where comparing
// that part would cost as much as drawing it.
type keyed struct {
	app.Compo
	Key  string // compared by go-app
	name string
	live *live
	draw func(*view) app.UI
}

// live holds the newest view for the components that a page keeps from one
// drawing to the next.
type live struct {
	v     *view
	lines map[string]line   // of the day, by portion, as they were drawn last
	made  int               // how many lines were made
	stays map[string]string // keys of what stays and of what comes later, by name
	waits
	day   int        // version of the day that is drawn
	ahead *view      // a view of something measured, while what it needs is made ahead
	mades int        // how often something was made ahead
	hits  []food.Hit // in the lines of the food list, shown or not
	steps []stepLine // in the lines of the answer's working, shown or not

	credits []creditProps       // in the answer, shown or not
	chips   map[string][]option // by field, shown or not
}

// waits says what is drawn only one frame later; see root.later.
type waits struct {
	late   bool // something: what stands behind the answer, and what is below
	added  bool // the day, to which something was added from elsewhere
	totals bool // the totals of the day
	fresh  bool // the answer, since it is the first to what is measured
	chosen bool // the bar too, since the food was chosen just now
}

// kept is what the page keeps; a view that is alone, as in the static page, has
// nothing yet.
func (v *view) kept() *live {
	if v.live == nil {
		v.live = &live{}
	}
	if v.live.stays == nil {
		v.live.stays, v.live.lines, v.live.chips = map[string]string{}, map[string]line{}, map[string][]option{}
	}
	return v.live
}

// keyed makes a keyed view. The name is the part's own in the page.
func (v *view) keyed(name, key string, draw func(*view) app.UI) app.UI {
	v.kept().v = v
	if v.live.ahead != nil {
		v.live.v = v.live.ahead
	}
	return &keyed{Key: key, name: name, live: v.live, draw: draw}
}

// stays is a keyed view that is hidden while it is not wanted, as it was drawn
// last, instead of going: it comes back with a few texts changed, where to make
// all its elements anew takes a slow phone longer than a person should wait. For
// the same reason they are made ahead, from samples, while nobody waits.
// As long as it has never been wanted it is an empty element.
func (v *view) stays(class, name string, wanted bool, key string, draw func(*view) app.UI) app.UI {
	switch kept := v.kept(); {
	case kept.ahead == v: // within what is made ahead
		if wanted || kept.stays[name] == "" {
			kept.stays[name] = kept.aheadKey()
		}
	case kept.ahead != nil && !wanted && kept.unused(name):
		kept.stays[name] = kept.aheadKey()
	case wanted:
		kept.stays[name] = key
	}
	return el(class, at{"hidden", !wanted}, v.asKept(name, draw))
}

// later is a keyed view that may be drawn one frame after the rest. A slow phone
// shows the answer to a press at once, and then what stands behind it.
func (v *view) later(name, key string, draw func(*view) app.UI) app.UI {
	switch kept := v.kept(); {
	case kept.ahead == v:
		kept.stays[name] = kept.aheadKey()
	case !kept.late:
		kept.stays[name] = key
	}
	return v.asKept(name, draw)
}

// asKept is a keyed view with the key that the page keeps for it; without one it
// is an empty element.
func (v *view) asKept(name string, draw func(*view) app.UI) app.UI {
	return v.keyed(name, v.kept().stays[name], func(v *view) app.UI {
		if v.live.stays[name] == "" {
			return el("div")
		}
		return draw(v)
	})
}

// over lays fresh lines over those that were there: what is left of them below
// stays in the page, hidden.
func over[T any](fresh, before []T) []T {
	return append(slices.Clip(fresh), before[min(len(fresh), len(before)):]...)
}

// ahead begins the keys of what was made ahead; no turn is one of these.
const ahead = "ahead"

func (l *live) aheadKey() string { return ahead + strconv.Itoa(l.mades) }

// unused tells whether a part has shown nothing yet but a sample.
func (l *live) unused(name string) bool {
	key := l.stays[name]
	return key == "" || strings.HasPrefix(key, ahead)
}

// make has the next drawing make ahead what the view shows.
func (l *live) make(v *view) {
	l.ahead = v
	l.mades++
}

// turn is the key of what changes with the model's turn.
func (v *view) turn() string {
	if v.kept().late {
		return strconv.Itoa(v.Turn) + " late"
	}
	return strconv.Itoa(v.Turn)
}

// CompoID keeps one part from taking another's place.
func (k *keyed) CompoID() string { return k.name }

// Render is go-app's way to draw.
func (k *keyed) Render() app.UI { return k.draw(k.live.v) }
