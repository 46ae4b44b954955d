// Command usual is a go-app hello page made the usual way, one main for both
// sides: what the page's size is held against.
package main

import (
	"log"
	"net/http"
	"os"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

type hello struct{ app.Compo }

func (h *hello) Render() app.UI { return app.H1().ID("hello").Text("Hello World!") }

func main() {
	app.Route("/", func() app.Composer { return &hello{} })
	app.RunWhenOnBrowser()
	// Icons of its own: go-app's stand on another host.
	icon := app.Icon{Default: "/web/icon.png", Large: "/web/icon.png", SVG: "/web/icon.svg", Maskable: "/web/icon.png"}
	handler := &app.Handler{Name: "Hello", Icon: icon}
	if len(os.Args) > 1 { // the same, as static files
		if err := app.GenerateStaticWebsite(os.Args[1], handler); err != nil {
			log.Fatal(err)
		}
		return
	}
	http.Handle("/", handler)
	log.Fatal(http.ListenAndServe("127.0.0.1:8000", nil))
}
