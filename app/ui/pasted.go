package ui

import (
	"strings"

	"cupsum/core/amount"
	"cupsum/core/label"
	"cupsum/core/rule"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Pasted is a label's text that a person pasted, and what was found in it.
type Pasted struct {
	Text  string
	Panel label.Panel
	Err   error
}

// paste reads a pasted label and fills the fields with what it says. What it
// does not say leaves the fields as they are.
func (c Convert) paste(text string) Convert {
	if len(text) > label.MaxPanel { // the sentence needs to know that it is too long, not all of it
		text = text[:label.MaxPanel+1]
	}
	c.Pasted = Pasted{Text: text}
	if strings.TrimSpace(text) == "" {
		return c
	}
	c.Pasted.Panel, c.Pasted.Err = label.ReadPanel(text)
	p := c.Pasted.Panel
	m := &c.Portion.Measure
	if p.HasServings {
		m.Servings = amount.Mixed(p.ServingsMeta.Printed).Text
		if p.ServingsMeta.About {
			m.Servings = "about " + m.Servings // as labels print it, and core reads it
		}
	}
	if p.HasServing {
		m.Size = p.Serving.Text
	}
	if p.HasNet {
		m.Net = p.Net.Text
	}
	return c
}

// pasteBox is where a label's text is pasted, and what was found in it.
func (v *view) pasteBox() app.UI {
	p := v.Convert.Pasted
	id := inputID("paste")
	problem := ""
	if p.Err != nil {
		problem = v.w.Problem(p.Err)
	}
	return el("div",
		el("div.field", el("label", at{"for", id}, v.t("label.paste")),
			el("textarea", types("paste"), at{"rows", "4", "value", p.Text, "spellcheck", "false", "autocomplete", "off", "aria-describedby", id + "-about"}),
			el("p.hint", at{"id", id + "-about"}, v.t("label.paste-hint"))),
		el("p.problem", problem),
		each(p.Panel.Problems, func(_ int, p *say.Problem) app.UI { return el("p.problem", v.w.Line(p.Line)) }),
	)
}

// pastedLines are what else a pasted label says: salt and added sugar of what
// was eaten, its claims and its contradictions.
func (v *view) pastedLines() app.UI {
	c := v.Convert
	panel := c.Pasted.Panel
	var lines []app.UI
	line := func(l say.Line) { lines = append(lines, el("li", v.w.Line(l))) }
	for _, n := range []label.Nutrient{label.Sodium, label.AddedSugars} {
		f, ok := panel.Fact(n)
		if !ok {
			continue
		}
		for _, s := range v.intake(f, n) {
			line(s.Line)
		}
		if percent, ok := label.PercentDaily(n, f.Range(n), label.FromFour); ok {
			_, l := label.FiveTwenty(n, percent)
			line(l)
		}
	}
	for _, claim := range panel.Claims {
		line(claim.Line())
	}
	if panel.HasServing {
		for _, l := range panel.Check(label.Context{AsPacked: amount.Exactly(c.Detail.GramAs), Drained: c.Detail.GramCup}) {
			line(l)
		}
	}
	if len(lines) == 0 {
		return nil
	}
	return el("div.more-label", el("h3", v.t("label.found")), el("ul", lines))
}

// intake is a nutrient in what was eaten, when the servings are known.
func (v *view) intake(f label.Fact, n label.Nutrient) []rule.Step {
	m := v.Convert.Portion.Measure
	servings := amount.Exactly(amount.Int(1))
	if m.EatenBy != "servings" {
		n, _, err := label.ReadServings(m.Servings)
		if err != nil {
			return nil
		}
		servings = n
	}
	if m.EatenBy != "" {
		r, err := amount.ReadNumber(m.Eaten)
		if err != nil {
			return nil
		}
		servings = servings.Mul(r.Amount)
	}
	return f.Intake(n, servings, amount.Amount{}, label.FromFour).Steps
}
