// Package report puts a checked day in the forms that leave the page: JSON for
// programs, text for a terminal, CSV for a spreadsheet. All three read the same
// day.Report that the page shows.
package report

import (
	"encoding/json"

	"cupsum/app/lang"
	"cupsum/core/amount"
	"cupsum/core/day"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// Format and Version name the JSON that [JSON] makes. DEVELOPERS.md documents
// its fields.
const (
	Format  = "cupsum-check"
	Version = 1
)

// A Check is one day file checked, as JSON. All numbers are exact fractions in
// strings: "7/4".
type Check struct {
	Format   string     `json:"format"`
	Version  int        `json:"version"`
	File     string     `json:"file,omitempty"`
	Error    *Text      `json:"error,omitempty"` // the file can't be read; nothing else is set then
	Title    string     `json:"title,omitempty"`
	Sample   bool       `json:"sample,omitempty"`
	Edition  string     `json:"edition,omitempty"`
	Set      *Set       `json:"set,omitempty"`
	Portions []Portion  `json:"portions,omitempty"`
	Totals   []Total    `json:"totals,omitempty"`
	Parts    []Total    `json:"parts,omitempty"`
	Notes    []Text     `json:"notes,omitempty"`
	Care     string     `json:"care,omitempty"`
	failed   bool       // a portion could not be read
	report   day.Report // what the text form reads
}

// Failed tells whether the file or one of its portions could not be read.
func (c Check) Failed() bool { return c.Error != nil || c.failed }

// A Text is a sentence with its stable id; Field is the input it is about.
type Text struct {
	ID    string `json:"id"`
	Text  string `json:"text"`
	Field string `json:"field,omitempty"`
	Rule  string `json:"rule,omitempty"` // of a working line: the rule that it uses
}

// A Set is the target set that the day is held against.
type Set struct {
	ID     string `json:"id"`
	Title  string `json:"title"`
	Source string `json:"source"`
	Origin string `json:"origin"`
}

// A Range is an amount with its ends.
type Range struct {
	Low  amount.Num `json:"low"`
	Best amount.Num `json:"best"`
	High amount.Num `json:"high"`
}

func ranged(a amount.Amount) Range { return Range{a.Low, a.Best, a.High} }

// A Credit is what a portion counts as in one group.
type Credit struct {
	Group       string  `json:"group"`
	Subgroup    string  `json:"subgroup,omitempty"`
	Unit        string  `json:"unit"`
	Amount      Range   `json:"amount"`
	Text        string  `json:"text"`
	Juice       bool    `json:"juice,omitempty"`
	Alternative *Credit `json:"alternative,omitempty"` // beans: what they count as instead, on the protein side
}

// A Portion is one portion counted, or the reason why it could not be.
type Portion struct {
	ID        string      `json:"id"`
	Food      string      `json:"food"`
	Form      string      `json:"form"`
	Name      string      `json:"name"`
	Measured  string      `json:"measured"`
	Error     *Text       `json:"error,omitempty"`
	Cups      *Range      `json:"cups,omitempty"`
	Grams     *Range      `json:"grams,omitempty"`
	Credits   []Credit    `json:"credits"`
	Vegetable *amount.Num `json:"vegetableShare,omitempty"` // of beans: the share that counts as vegetables today
	Working   []Text      `json:"working"`
	Warnings  []Text      `json:"warnings"`
	Cautions  []Text      `json:"cautions"`
}

// A Total is a group's total, or a part's, held against its target.
type Total struct {
	Group    string      `json:"group"`
	Subgroup string      `json:"subgroup,omitempty"`
	Unit     string      `json:"unit"`
	Target   Goal        `json:"target"`
	Total    Range       `json:"total"`
	Juice    *Range      `json:"juiceBeforeCap,omitempty"`
	Verdict  day.Verdict `json:"verdict"`
	Gap      amount.Num  `json:"gap"`
	Above    amount.Num  `json:"above"`
	Settle   string      `json:"settle,omitempty"` // id of the portion whose better measuring would settle it
	Ways     [][]Way     `json:"ways,omitempty"`
	Text     string      `json:"text"`
}

// A Goal is a target's ends; High is absent where the table sets none.
type Goal struct {
	Low    amount.Num  `json:"low"`
	High   *amount.Num `json:"high,omitempty"`
	Origin string      `json:"origin"`
}

// A Way is one portion of a way to close a gap.
type Way struct {
	Food     string `json:"food"`
	Form     string `json:"form"`
	Name     string `json:"name"`
	Measured string `json:"measured"`
	Credit   Credit `json:"credit"`
	OnHand   bool   `json:"onHand,omitempty"`
	Cautions []Text `json:"cautions,omitempty"`
}

// Make checks a sheet and puts the result in words. notes are what reading the
// file said.
func Make(w *lang.Words, s day.Sheet, notes []say.Line) Check {
	r := day.Check(s)
	c := Check{
		Format: Format, Version: Version, Title: s.Title, Sample: s.Demo, Edition: string(r.Set.Edition),
		Set:    &Set{r.Set.ID, w.Line(r.Set.Title()), r.Set.Source, r.Set.Origin.String()},
		Notes:  append(texts(w, notes), working(w, r.Notes)...),
		Care:   w.Text("care.general"),
		report: r,
	}
	for _, it := range r.Items {
		c.Portions = append(c.Portions, item(w, it))
		c.failed = c.failed || it.Err != nil
	}
	for _, g := range r.Groups {
		c.Totals = append(c.Totals, group(w, r, g))
	}
	for _, p := range r.Parts {
		t := Total{Group: p.Target.Group.ID(), Subgroup: p.Target.Subgroup.ID(), Unit: p.Target.Unit.ID(), Target: goal(p.Target),
			Total: ranged(p.Total), Verdict: p.Verdict, Gap: p.Gap, Above: p.Above}
		t.Text = Sentence(w, p.Target, p.Total, p.Verdict, p.Gap, p.Above)
		c.Parts = append(c.Parts, t)
	}
	return c
}

// Refused makes the check of a file that can't be read.
func Refused(w *lang.Words, err error) Check {
	return Check{Format: Format, Version: Version, Error: problem(w, err)}
}

// Encode writes checks as JSON, one object, or a list where several are given.
func Encode(checks []Check) ([]byte, error) {
	if len(checks) == 1 {
		return json.MarshalIndent(checks[0], "", "  ")
	}
	return json.MarshalIndent(checks, "", "  ")
}

func texts(w *lang.Words, lines []say.Line) []Text {
	out := []Text{}
	for _, l := range lines {
		out = append(out, Text{ID: l.ID, Text: w.Line(l)})
	}
	return out
}

func problem(w *lang.Words, err error) *Text {
	t := &Text{ID: "problem.unknown", Text: w.Problem(err)}
	if p, ok := err.(*say.Problem); ok {
		t.ID, t.Field = p.ID, p.Field
	}
	return t
}

func working(w *lang.Words, steps []rule.Step) []Text {
	out := []Text{}
	for _, s := range steps {
		out = append(out, Text{ID: s.Line.ID, Text: w.Working(s.Line), Rule: string(s.Rule)})
	}
	return out
}

func cautions(w *lang.Words, cs []guide.Caution) []Text {
	out := []Text{}
	for _, c := range cs {
		out = append(out, Text{ID: c.Line().ID, Text: w.Line(c.Line())})
	}
	return out
}

func credit(w *lang.Words, c portion.Credit) Credit {
	out := Credit{Group: c.Group.ID(), Subgroup: c.Subgroup.ID(), Unit: c.Unit.ID(), Amount: ranged(c.Amount), Juice: c.Juice,
		Text: w.Text("credit.of", guide.Counted{Amount: c.Amount, Unit: c.Unit}, c.Group.Within())}
	if c.Alt != nil {
		alt := credit(w, *c.Alt)
		out.Alternative = &alt
	}
	return out
}

func item(w *lang.Words, it day.Item) Portion {
	p := Portion{ID: it.Portion.ID, Food: it.Portion.Food, Form: it.Portion.Form, Name: w.Food(it.Portion), Measured: w.Measured(it.Portion),
		Credits: []Credit{}, Working: working(w, it.Result.Steps), Warnings: texts(w, it.Result.Notes), Cautions: cautions(w, it.Result.Cautions)}
	if it.Err != nil {
		p.Error = problem(w, it.Err)
		return p
	}
	if it.Result.HasCups {
		r := ranged(it.Result.Cups)
		p.Cups = &r
	}
	if it.Result.HasGrams {
		r := ranged(it.Result.Grams)
		p.Grams = &r
	}
	for _, c := range it.Result.Credits {
		p.Credits = append(p.Credits, credit(w, c))
		if c.Alt != nil {
			p.Vegetable = &it.Vegetable
		}
	}
	return p
}

func goal(t guide.Target) Goal {
	g := Goal{Low: t.Low, Origin: t.Origin.String()}
	if t.High.Sign() > 0 {
		g.High = &t.High
	}
	return g
}

func group(w *lang.Words, r day.Report, g day.GroupCheck) Total {
	t := Total{Group: g.Target.Group.ID(), Subgroup: g.Target.Subgroup.ID(), Unit: g.Target.Unit.ID(), Target: goal(g.Target),
		Total: ranged(g.Total), Verdict: g.Verdict, Gap: g.Gap, Above: g.Above,
		Text: Sentence(w, g.Target, g.Total, g.Verdict, g.Gap, g.Above)}
	if g.Capped {
		juice := ranged(g.Juice)
		t.Juice = &juice
	}
	if g.Settle >= 0 {
		t.Settle = r.Items[g.Settle].Portion.ID
	}
	for _, f := range r.Ways(g) {
		var way []Way
		for _, one := range f {
			way = append(way, Way{Food: one.Portion.Food, Form: one.Portion.Form, Name: w.Food(one.Portion), Measured: w.Measured(one.Portion),
				Credit: credit(w, one.Credit), OnHand: one.OnHand, Cautions: cautions(w, one.Cautions)})
		}
		t.Ways = append(t.Ways, way)
	}
	return t
}
