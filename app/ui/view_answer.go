package ui

import (
	"strconv"
	"strings"

	"cupsum/app/lang"
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/rule"
	"cupsum/core/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// answerLine is what a portion counts as, in words: "1¾ cups of vegetables";
// for beans both sides.
func (v *view) answerLine(r portion.Result) string {
	credits := r.ByGroup()
	if len(credits) == 0 {
		return v.t("answer.nothing")
	}
	text := v.creditLine(credits[0])
	for _, c := range credits[1:] {
		text = v.t("answer.and", text, v.creditLine(c))
	}
	if alt := credits[0].Alt; alt != nil {
		text = v.t("answer.or", text, v.creditLine(*alt))
	}
	return text
}

func (v *view) creditLine(c portion.Credit) string {
	return v.t("credit.of", guide.Counted{Amount: c.Amount, Unit: c.Unit}, c.Group.Within())
}

// answer is what the portion counts as, drawn, in words and with its working;
// or what is still asked for.
func (v *view) answer() app.UI {
	there := v.Convert.Err == nil
	return el("div.answer-slot", at{"id", "answer"},
		el("div.answer.waiting", at{"hidden", there}, el("p", v.t("answer.waiting"))),
		v.stays("div", "answer", there, strconv.Itoa(v.Turn), (*view).counted))
}

// counted is what the portion counts as.
func (v *view) counted() app.UI {
	if v.Convert.Err != nil {
		return el("div.answer")
	}
	c, r := v.Convert, v.Convert.Result
	return el("div.answer",
		el("p.eyebrow", v.w.Food(c.Portion)),
		v.big(r),
		el("div.slot", v.sides(r)),
		el("div.slot.notes", each(r.Notes, func(_ int, l say.Line) app.UI { return el("p.note", v.w.Line(l)) })),
		el("div.slot", v.working(r.Steps)),
		el("div.slot", v.labelLines()),
		el("div.slot", v.cautions(r.Cautions)),
		el("p.quiet", v.t("answer.edition", v.Day.Report.Set.Edition.Term())),
	)
}

func (v *view) addButton() app.UI {
	id, short := "convert.add", "convert.add-short"
	switch {
	case v.Convert.Editing != "":
		id, short = "convert.save", "convert.save-short"
	case v.Day.Sheet.Demo:
		id = "convert.add-sample"
	}
	return el("button.main", at{"type", "button", "aria-label", v.t(id)}, press("add", ""),
		el("span.in-full", v.t(id)), el("span.in-short", v.t(short)))
}

// big is what it counts as, in large; smaller where it counts in several groups,
// so that the working stays in view.
func (v *view) big(r portion.Result) app.UI {
	list := v.credits(r)
	if len(list) > 1 {
		return el("div.big.several", list)
	}
	return el("div.big", list)
}

// credits shows each credit large, with its cups.
func (v *view) credits(r portion.Result) []app.UI {
	if len(r.Credits) == 0 {
		return []app.UI{el("p.figure", v.t("answer.nothing"))}
	}
	var list []app.UI
	for _, c := range r.ByGroup() {
		list = append(list, v.credit(c))
		if c.Alt != nil {
			list = append(list, el("p.or", v.t("answer.or-word")), v.credit(*c.Alt))
		}
	}
	return list
}

type creditProps struct {
	W      *lang.Words
	Credit portion.Credit
}

func (v *view) credit(c portion.Credit) app.UI { return keep(creditProps{v.w, c}, credit) }

func credit(p creditProps) app.UI {
	v, c := &view{w: p.W}, p.Credit
	about, number := v.best(c)
	between := ""
	if !c.Amount.IsExact() {
		between = v.t("answer.range", c.Amount)
	}
	return el("div.credit",
		el("p.figure",
			el("span.about", about), " ",
			el("span.number", number), " ",
			el("span.of", v.t("answer.of", c.Group.Within()))),
		measures(c.Amount, c.Unit),
		el("p.range", between),
	)
}

// best is the best guess with its unit, and the word "about" apart where it is
// rounded or a range.
func (v *view) best(c portion.Credit) (about, number string) {
	printed := amount.Mixed(c.Amount.Best)
	if printed.Less || c.Unit == guide.GramOil {
		return "", v.w.Counted(amount.Exactly(c.Amount.Best), c.Unit)
	}
	n := c.Amount.Best
	if printed.Rounded {
		if r, err := amount.ReadNumber(printed.Text); err == nil {
			n = r.Amount.Best
		}
	}
	if printed.Rounded || !c.Amount.IsExact() {
		about = strings.TrimSpace(v.t("number.about", ""))
	}
	return about, v.w.Counted(amount.Exactly(n), c.Unit)
}

// sides lets the person say where beans count.
func (v *view) sides(r portion.Result) app.UI {
	if r.Food.Subgroup != food.Legume || len(r.Credits) == 0 {
		return nil
	}
	return v.chips("side", v.t("side.legend"), string(v.Convert.Portion.Side), v.sideOptions())
}

func (v *view) sideOptions() []option {
	return []option{
		{string(portion.SideAuto), v.t("side.auto")},
		{string(portion.SideVegetable), v.t("side.vegetable")},
		{string(portion.SideProtein), v.t("side.protein")},
	}
}

// A stepLine is one line of working in words.
type stepLine struct {
	text string
	rule rule.ID
}

type workingProps struct {
	W     *lang.Words
	Steps []stepLine
}

// working shows how the answer came about, a line a step, each with its rule.
func (v *view) working(steps []rule.Step) app.UI {
	if len(steps) == 0 {
		return nil
	}
	lines := make([]stepLine, len(steps))
	for i, s := range steps {
		lines[i] = stepLine{v.w.Working(s.Line), s.Rule}
	}
	return keep(workingProps{v.w, lines}, working)
}

func working(p workingProps) app.UI {
	v := &view{w: p.W}
	return el("div.working",
		el("h3", v.t("answer.working")),
		el("ol", each(p.Steps, func(_ int, s stepLine) app.UI { return keep(stepProps{p.W, s.text, s.rule}, step) })),
	)
}

type stepProps struct {
	W    *lang.Words
	Text string
	Rule rule.ID
}

func step(p stepProps) app.UI {
	return el("li", el("p", p.Text), (&view{w: p.W}).rule(p.Rule))
}

// rule names a rule, with what it says and where that comes from to open.
func (v *view) rule(id rule.ID) app.UI {
	r, _ := rule.ByID(id)
	return details("rule", v.w.Term(r.Name()), el("p", v.w.Term(r.Says())), v.source(r.Source, r.Origin))
}

// source names where a figure comes from; what nobody read in a document is
// marked.
func (v *view) source(source string, o rule.Origin) app.UI {
	return el("p.source", source, " ", v.origin(o))
}

func (v *view) origin(o rule.Origin) app.UI {
	return el("span.origin."+o.String(), v.t("origin."+o.String()))
}

type cautionsProps struct {
	W    *lang.Words
	List []guide.Caution
}

// cautions stand beside the food, the gravest first; many are folded up.
func (v *view) cautions(list []guide.Caution) app.UI {
	if len(list) == 0 {
		return nil
	}
	return keep(cautionsProps{v.w, list}, cautions)
}

func cautions(p cautionsProps) app.UI {
	v, list := &view{w: p.W}, p.List
	line := func(_ int, c guide.Caution) app.UI { return el("li", v.w.Line(c.Line())) }
	shown := min(len(list), 2)
	return el("div.cautions",
		el("h3", v.t("answer.cautions")),
		el("ul", each(list[:shown], line)),
		el("div", when(len(list) > shown, func() app.UI {
			return details("more", v.t("answer.cautions-more", len(list)-shown), el("ul", each(list[shown:], line)))
		})),
	)
}

// bar keeps the answer in view while a person types on a phone.
func (v *view) bar() app.UI {
	return el("div.bar", at{"id", "bar"},
		el("p", v.answerLine(v.Convert.Result)),
		el("div", when(v.Only != "convert", v.addButton)),
	)
}

// spoken is the answer as a screen reader hears it once it has settled.
func (v *view) spoken() string {
	c := v.Convert
	if !c.Chosen {
		return ""
	}
	if c.Err != nil {
		return v.w.Problem(c.Err)
	}
	return v.t("answer.spoken", v.w.Food(c.Portion), v.answerLine(c.Result))
}
