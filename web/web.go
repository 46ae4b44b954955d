// Package web carries the files that the site builder puts into a page: scripts,
// stylesheets and page templates. Nothing here is served as it lies; see
// app/site.
package web

import "embed"

// Files are the scripts, stylesheets (css/, joined in order of name) and page
// templates.
//
//go:embed *.js css/*.css *.tmpl
var Files embed.FS
