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
	onKey app.EventHandler  // of the food field; nil in the static page
	lines map[string]line   // of the day, by portion, as they were drawn last
	made  int               // how many lines were made
	stays map[string]string // keys of what stays, by name
}

// keyed makes a keyed view. The name is the part's own in the page.
func (v *view) keyed(name, key string, draw func(*view) app.UI) app.UI {
	if v.live == nil {
		v.live = &live{}
	}
	v.live.v = v
	return &keyed{Key: key, name: name, live: v.live, draw: draw}
}

// stays is a keyed view that is hidden while it is not wanted, as it was drawn
// last, instead of going: it comes back with a few texts changed, where to make
// all its elements anew takes a slow phone longer than a person should wait.
// draw gives something empty as long as the view has never been wanted.
func (v *view) stays(class, name string, wanted bool, key string, draw func(*view) app.UI) app.UI {
	if v.live == nil {
		v.live = &live{}
	}
	if v.live.stays == nil {
		v.live.stays = map[string]string{}
	}
	if wanted {
		v.live.stays[name] = key
	}
	return el(class, at{"hidden", !wanted}, v.keyed(name, v.live.stays[name], draw))
}

// CompoID keeps one part from taking another's place.
func (k *keyed) CompoID() string { return k.name }

// Render is go-app's way to draw.
func (k *keyed) Render() app.UI { return k.draw(k.live.v) }
