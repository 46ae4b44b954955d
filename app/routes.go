package main

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"cupsum/app/ui"
)

// routes says which component shows at which path. The page's loader makes every
// address of the site "/" to go-app (see web/boot.js), so there is one.
func routes() {
	app.Route("/", ui.New)
}
