package ui

import (
	"strings"

	"cupsum/core/guide"
)

// csv is the day as a table for a spreadsheet: a row a portion and group.
func (v view) csv() string {
	var b strings.Builder
	row := func(cells ...string) {
		for i, c := range cells {
			if i > 0 {
				b.WriteByte(',')
			}
			b.WriteString(cell(c))
		}
		b.WriteString("\r\n")
	}
	row(v.t("csv.food"), v.t("csv.measured"), v.t("csv.group"), v.t("csv.part"), v.t("csv.low"), v.t("csv.best"), v.t("csv.high"), v.t("csv.unit"), v.t("csv.set"), v.t("csv.problem"))
	set := v.w.Line(v.Day.Report.Set.Title())
	for _, it := range v.Day.Report.Items {
		name := v.w.Term(v.nameOf(it.Portion))
		if it.Err != nil {
			row(name, v.howMuch(it.Portion), "", "", "", "", "", "", set, v.w.Problem(it.Err))
			continue
		}
		if len(it.Result.Credits) == 0 {
			row(name, v.howMuch(it.Portion), v.t("answer.nothing"), "", "", "", "", "", set, "")
		}
		for _, c := range it.Result.Credits {
			sub := ""
			if c.Subgroup.ID() != "" {
				sub = v.w.Term(c.Subgroup.Term())
			}
			row(name, v.howMuch(it.Portion), v.w.Term(c.Group.Term()), sub, c.Amount.Low.String(), c.Amount.Best.String(), c.Amount.High.String(), unitName(v, c.Unit), set, "")
		}
	}
	return b.String()
}

func unitName(v view, u guide.Unit) string { return v.t("unit." + u.ID() + ".many") }

// cell quotes a cell where it must be. A text that a spreadsheet would take for
// a formula gets an apostrophe, since a food's name may come from a file.
func cell(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		text = "'" + text
	}
	if strings.ContainsAny(text, ",\"\r\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}
