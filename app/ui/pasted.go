package ui

import (
	"strings"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/label"
	"cupsum/core/portion"
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
	if p.HasSodium {
		c.Sodium, _ = amount.Decimal(p.Sodium.Printed, 1)
	}
	if p.HasAdded {
		c.Sugars, _ = amount.Decimal(p.Added.Printed, 1)
	}
	return c
}

// fact is a nutrient of one serving, from what was typed or pasted. An empty
// text is no fact and no error.
func (c Convert) fact(n label.Nutrient) (f label.Fact, ok bool, err error) {
	text := c.Sugars
	if n == label.Sodium {
		text = c.Sodium
	}
	if strings.TrimSpace(text) == "" {
		return f, false, nil
	}
	r, err := amount.Read(strings.TrimSuffix(strings.TrimSpace(text), n.Unit()))
	if err != nil {
		return f, false, err
	}
	if f, ok = c.Pasted.Panel.Fact(n); ok && f.Printed.Equal(r.Amount.Best) {
		return f, true, nil // with what else the panel says of it
	}
	return label.Fact{Printed: r.Amount.Best}, true, nil
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

// nutrientField is where salt or sugar of one serving is typed.
func (v *view) nutrientField(field string, n label.Nutrient, value, name, hint string) app.UI {
	problem := ""
	if _, _, err := v.Convert.fact(n); err != nil {
		problem = v.w.Problem(err)
	}
	return v.entry(entry{field: field, label: name, value: value, hint: hint, mode: "decimal", problem: problem})
}

// labelLines are what else a label says: salt and added sugar of what was
// eaten, what draining takes out, the packing, its claims and contradictions.
func (v *view) labelLines() app.UI {
	c := v.Convert
	panel := c.Pasted.Panel
	var lines []app.UI
	line := func(l say.Line) {
		if !l.IsZero() {
			lines = append(lines, el("li", v.w.Line(l)))
		}
	}
	line(c.medium().Advice().Line)
	for _, n := range []label.Nutrient{label.Sodium, label.AddedSugars} {
		f, ok, _ := c.fact(n)
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
	if c.Sodium != "" || c.Portion.Liquid == portion.Drained {
		for _, t := range []label.Treatment{label.Draining, label.Rinsing} {
			if r, ok := label.TakenOut(c.rinsed(), t, label.Sodium); ok {
				_, s := r.Left(amount.Amount{})
				line(s.Line)
			}
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
	return el("div.label-lines", el("h3", v.t("label.found")), el("ul", lines))
}

// medium is what canned fruit is packed in: as pasted, else as its form says.
func (c Convert) medium() label.Medium {
	if c.Food.Group != food.Fruit || !c.Detail.Form.Packed() || c.Portion.Measure.By != portion.ByLabel {
		return label.NoMedium
	}
	if c.Pasted.Panel.Medium != label.NoMedium {
		return c.Pasted.Panel.Medium
	}
	for _, m := range label.Media() {
		if "canned-"+m.ID() == c.Detail.Form.ID() {
			return m
		}
	}
	return label.NoMedium
}

// rinsed is the food's key in the table of what draining takes out; "" where
// nobody measured it.
func (c Convert) rinsed() string {
	switch {
	case !c.Detail.Form.Packed():
		return ""
	case c.Food.Subgroup == food.Legume:
		return "beans"
	}
	for _, key := range label.RinsedFoods() {
		if key == c.Food.ID || strings.TrimSuffix(key, "s") == c.Food.ID || strings.TrimSuffix(key, "es") == c.Food.ID {
			return key
		}
	}
	return ""
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
