package report

import (
	"encoding/csv"
	"strings"

	"cupsum/app/lang"
	"cupsum/core/amount"
	"cupsum/core/day"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/say"
)

// Sentence says how a total stands: "Fruit: 1¾ of 2 cups. ¼ cup to go."
func Sentence(w *lang.Words, t guide.Target, total amount.Amount, v day.Verdict, gap, above amount.Num) string {
	return w.Text("total.have", Name(t), total, Goals(w, t)) + " " + Verdict(w, t, v, gap, above)
}

// Name is what a target is for: its group, or its part of it.
func Name(t guide.Target) say.Term {
	if t.Subgroup != food.NoSubgroup {
		return t.Subgroup.Term()
	}
	return t.Group.Term()
}

// Goals says a target: "2 cups", "3 to 4 servings", "up to 3 oz eq".
func Goals(w *lang.Words, t guide.Target) string {
	low, high := amount.Exactly(t.Low), amount.Exactly(t.High)
	switch {
	case t.High.Sign() > 0 && t.Low.Sign() == 0:
		return w.Text("total.up-to", guide.Counted{Amount: high, Unit: t.Unit})
	case t.High.Sign() > 0:
		return w.Counted(amount.Between(t.Low, t.Low, t.High), t.Unit)
	}
	return w.Counted(low, t.Unit)
}

// Verdict says what a verdict means for the day: "¼ cup to go."
func Verdict(w *lang.Words, t guide.Target, v day.Verdict, gap, above amount.Num) string {
	exactly := func(n amount.Num) guide.Counted { return guide.Counted{Amount: amount.Exactly(n), Unit: t.Unit} }
	switch {
	case v == day.Short:
		return w.Text("total.to-go", exactly(gap))
	case v == day.Close:
		return w.Text("total.close")
	case v == day.Over:
		return w.Text("total.over", exactly(above))
	case above.Sign() > 0 && t.High.Sign() == 0:
		return w.Text("total.met-above", exactly(above))
	}
	return w.Text("total.met")
}

// Plain writes a check for a terminal: what the page shows, in lines.
func Plain(w *lang.Words, c Check) string {
	var b strings.Builder
	line := func(indent int, text string) {
		if text != "" {
			b.WriteString(strings.Repeat("  ", indent) + text + "\n")
		}
	}
	if c.File != "" {
		line(0, c.File)
	}
	if c.Error != nil {
		line(1, c.Error.Text)
		return b.String()
	}
	line(0, c.Title)
	if c.Sample {
		line(0, w.Text("check.sample"))
	}
	line(0, w.Text("check.against", c.Set.Title, c.report.Set.Edition.Term()))
	for _, p := range c.Portions {
		b.WriteString("\n")
		line(0, w.Text("check.portion", p.Name, p.Measured))
		if p.Error != nil {
			line(1, p.Error.Text)
			continue
		}
		for _, cr := range p.Credits {
			line(1, cr.Text)
			if cr.Alternative != nil {
				line(1, w.Text("check.or", cr.Alternative.Text))
			}
		}
		for _, s := range p.Working {
			line(2, s.Text+" ["+s.Rule+"]")
		}
		for _, t := range append(p.Warnings, p.Cautions...) {
			line(2, w.Text("check.note", t.Text))
		}
	}
	b.WriteString("\n")
	for _, t := range append(c.Totals, c.Parts...) {
		line(0, t.Text)
		if p := c.portion(t.Settle); p != nil {
			line(2, w.Text("check.settle", w.Text("check.portion", p.Name, p.Measured)))
		}
		for _, way := range t.Ways {
			var parts []string
			for _, one := range way {
				parts = append(parts, w.Text("check.portion", one.Name, one.Measured))
			}
			line(2, w.Text("check.way", strings.Join(parts, " + ")))
		}
	}
	for _, n := range c.Notes {
		line(0, n.Text)
	}
	b.WriteString("\n")
	line(0, c.Care)
	return b.String()
}

// portion finds a portion by its id; nil when there is none.
func (c Check) portion(id string) *Portion {
	for i := range c.Portions {
		if id != "" && c.Portions[i].ID == id {
			return &c.Portions[i]
		}
	}
	return nil
}

// CSV writes the day's portions for a spreadsheet, one row a credit, with
// exact fractions and rounded decimals. Cells that a spreadsheet would run as
// a formula are quoted with an apostrophe.
func CSV(w *lang.Words, r day.Report) string {
	var b strings.Builder
	out := csv.NewWriter(&b)
	row := func(cells ...string) {
		for i, c := range cells {
			cells[i] = safeCell(c)
		}
		// A strings.Builder never fails.
		_ = out.Write(cells)
	}
	row(w.Text("csv.food"), w.Text("csv.measured"), w.Text("csv.group"), w.Text("csv.part"), w.Text("csv.unit"),
		w.Text("csv.low"), w.Text("csv.best"), w.Text("csv.high"), w.Text("csv.exact"), w.Text("csv.set"), w.Text("csv.problem"))
	set := w.Line(r.Set.Title())
	for _, it := range r.Items {
		name, measured := w.Food(it.Portion), w.Measured(it.Portion)
		if it.Err != nil {
			row(name, measured, "", "", "", "", "", "", "", set, w.Problem(it.Err))
			continue
		}
		for _, c := range sides(it) {
			row(name, measured, w.Term(c.Group.Term()), partName(w, c.Subgroup), c.Unit.ID(),
				decimal(c.Amount.Low), decimal(c.Amount.Best), decimal(c.Amount.High), c.Amount.Best.String(), set, "")
		}
		if len(it.Result.Credits) == 0 {
			row(name, measured, w.Term(food.Extra.Term()), "", "", "0", "0", "0", "0", set, "")
		}
	}
	out.Flush()
	return b.String()
}

// sides lists an item's credits as the day counts them, with beans split.
func sides(it day.Item) []portion.Credit {
	var out []portion.Credit
	for _, c := range it.Result.Credits {
		if c.Alt == nil {
			out = append(out, c)
			continue
		}
		alt := *c.Alt
		c.Amount, alt.Amount = c.Amount.Scale(it.Vegetable), alt.Amount.Scale(amount.Int(1).Sub(it.Vegetable))
		for _, half := range []portion.Credit{c, alt} {
			if half.Amount.High.Sign() > 0 {
				out = append(out, half)
			}
		}
	}
	return out
}

func partName(w *lang.Words, s food.Subgroup) string {
	if s == food.NoSubgroup {
		return ""
	}
	return w.Term(s.Term())
}

func decimal(n amount.Num) string {
	text, _ := amount.Decimal(n, 3)
	return text
}

// safeCell keeps a cell from being run as a formula.
func safeCell(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}
