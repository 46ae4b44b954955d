package ui

import "github.com/maxence-charriere/go-app/v10/pkg/app"

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
	lines map[string]line // of the day, by portion, as they were drawn last
}

// keyed makes a keyed view. The name is the part's own in the page.
func (v *view) keyed(name, key string, draw func(*view) app.UI) app.UI {
	if v.live == nil {
		v.live = &live{}
	}
	v.live.v = v
	return &keyed{Key: key, name: name, live: v.live, draw: draw}
}

// CompoID keeps one part from taking another's place.
func (k *keyed) CompoID() string { return k.name }

// Render is go-app's way to draw.
func (k *keyed) Render() app.UI { return k.draw(k.live.v) }
