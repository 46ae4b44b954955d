// Command apart is the hello page with its two doors apart: this is what the
// browser gets. Its other files are those of the usual one.
package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

type hello struct{ app.Compo }

func (h *hello) Render() app.UI { return app.H1().ID("hello").Text("Hello World!") }

func main() {
	app.Route("/", func() app.Composer { return &hello{} })
	app.RunWhenOnBrowser()
}
