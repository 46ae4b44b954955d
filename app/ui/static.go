package ui

import (
	"cupsum/app/lang"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Static is the page before the program has come, and for people without
// scripts: the worked example, an empty day, and the tables of what counts as
// a cup or an ounce. It is the page that the program then starts with, so that
// nothing jumps when it takes over. What needs the program is hidden by the
// stylesheet where scripts are off.
func Static() app.UI {
	v := &view{Model: NewModel(), w: lang.English()}
	return v.page(v.dayView(), v.tablesView(), v.evidence())
}

// Evidence is a page of its own with every rule and table, for people without
// scripts and for links to one rule ("#rule-one-dried").
func Evidence() app.UI {
	v := &view{Model: NewModel(), w: lang.English()}
	return el("div.evidence", v.evidenceHead(), v.evidenceList())
}
