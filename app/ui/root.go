package ui

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// New makes the root component.
func New() app.Composer { return &root{} }

type root struct{ app.Compo }

// Render draws the page.
func (r *root) Render() app.UI {
	return app.Main().Class("sheet").Body(app.H1().Text("Cupsum"), app.P().ID("probe").Text("running"))
}

// Static is what the page shows before the program.
func Static() app.UI { return app.Main().Class("sheet").Body(app.H1().Text("Cupsum")) }
