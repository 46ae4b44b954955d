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
