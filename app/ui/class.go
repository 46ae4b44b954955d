package ui

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"cupsum/core/food"
	"cupsum/core/pack"
	"cupsum/core/say"
)

// A Class is what came with a class's link.
type Class struct {
	Pack  pack.Pack
	Notes []say.Line // what of it was left out, or why it could not be read
}

// readClass reads a pack from the address. A broken one leaves a sentence and
// nothing else.
func readClass(text string) Class {
	p, notes, err := pack.Read(text)
	if problem, ok := err.(*say.Problem); ok {
		notes = []say.Line{problem.Line}
	}
	return Class{Pack: p, Notes: notes}
}

// classBox shows what an educator prepared: text, foods to tap, links that are
// marked as leaving the page. Its place is always there, so that nothing after
// it is drawn anew when it comes.
func (v *view) classBox() app.UI {
	c := v.Class
	return el("div.slot", when(c.Pack.Title != "" || len(c.Notes) > 0, func() app.UI {
		return el("aside.class-box", at{"aria-label", v.t("class.title")},
			each(c.Notes, func(_ int, l say.Line) app.UI { return el("p.note", v.w.Line(l)) }),
			when(c.Pack.Title != "", func() app.UI { return el("div", v.classParts(c.Pack)) }),
		)
	}))
}

func (v *view) classParts(p pack.Pack) []app.UI {
	parts := []app.UI{el("h2", p.Title)}
	for line := range strings.Lines(p.Note) {
		parts = append(parts, el("p", strings.TrimSpace(line)))
	}
	if len(p.Foods) > 0 {
		parts = append(parts, el("h3", v.t("class.foods")), el("div.row", each(p.Foods, func(_ int, id string) app.UI {
			f, _ := food.ByID(id) // Read keeps known ones alone
			return el("button.plain", at{"type", "button"}, press("food", id), v.w.Term(f.Term()))
		})))
	}
	if len(p.Links) > 0 {
		parts = append(parts, el("h3", v.t("class.links")), el("ul", each(p.Links, func(_ int, l pack.Link) app.UI {
			return el("li", el("a", at{"href", l.URL, "target", "_blank", "rel", "noopener noreferrer", "referrerpolicy", "no-referrer"}, l.Text), " ", el("span.quiet", v.t("class.leaves", l.URL)))
		})))
	}
	return parts
}
