package ui

import (
	"slices"
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
// or what is still asked for. The first answer to what is measured comes a frame
// after the bar, which says it in words.
func (v *view) answer() app.UI {
	there, waits := v.Convert.Err == nil, v.kept().fresh
	return el("div.answer-slot", at{"id", "answer"},
		el("div.answer.waiting", at{"hidden", there || waits}, el("p", v.t("answer.waiting"))),
		v.stays("div", "answer", there && !waits, v.turn(), (*view).counted))
}

// counted is what the portion counts as.
func (v *view) counted() app.UI {
	c, r := v.Convert, v.Convert.Result
	return el("div.answer",
		el("p.eyebrow", v.w.Food(c.Portion)),
		v.big(r),
		v.stays("div.slot", "sides", splits(r), v.turn(), (*view).sides),
		el("div.slot.notes", each(r.Notes, func(_ int, l say.Line) app.UI { return el("p.note", v.w.Line(l)) })),
		v.later("reasons", strconv.Itoa(v.Turn), (*view).reasons),
		el("p.quiet", v.t("answer.edition", v.Day.Report.Set.Edition.Term())),
	)
}

// reasons are what stands behind the answer.
func (v *view) reasons() app.UI {
	r := v.Convert.Result
	return el("div.reasons",
		v.answerWorking(r.Steps),
		el("div.slot", v.labelLines()),
		el("div.slot", v.cautions(r.Cautions)))
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
// so that the working stays in view. Like the lines of the food list, credits
// that are not needed just now are hidden with what they showed last.
func (v *view) big(r portion.Result) app.UI {
	list := v.credits(r)
	all := over(list, v.kept().credits)
	v.live.credits = all
	class := "div.big"
	if len(list) > 1 {
		class += ".several"
	}
	return el(class, v.drawCredits(all, len(list)))
}

// credits are what is shown large, an alternative as one of its own.
func (v *view) credits(r portion.Result) []creditProps {
	var list []creditProps
	for _, c := range r.ByGroup() {
		list = append(list, creditProps{W: v.w, Credit: c})
		if c.Alt != nil {
			list = append(list, creditProps{W: v.w, Credit: *c.Alt, Or: true})
		}
	}
	return list
}

// drawCredits shows credits large, with their cups, and hides those after the
// first ones.
func (v *view) drawCredits(list []creditProps, shown int) []app.UI {
	var drawn []app.UI
	for i, c := range list {
		c.Hidden = i >= shown
		if i > 0 {
			drawn = append(drawn, el("p.or", at{"hidden", c.Hidden || !c.Or}, v.t("answer.or-word")))
		}
		drawn = append(drawn, keep(c, credit))
	}
	return append(drawn, el("p.figure", at{"hidden", shown > 0}, v.t("answer.nothing")))
}

type creditProps struct {
	W          *lang.Words
	Credit     portion.Credit
	Or, Hidden bool // an alternative to the one before; not needed just now
}

func credit(p creditProps) app.UI {
	v, c := &view{w: p.W}, p.Credit
	about, number := v.best(c)
	between := ""
	if !c.Amount.IsExact() {
		between = v.t("answer.range", c.Amount)
	}
	return el("div.credit", at{"hidden", p.Hidden},
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

// splits tells whether a portion can count in either of two groups, as beans do.
func splits(r portion.Result) bool { return r.Food.Subgroup == food.Legume && len(r.Credits) > 0 }

// sides lets the person say where beans count.
func (v *view) sides() app.UI {
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
	rule ruleProps
}

// working shows how the answer came about, a line a step, each with its rule.
// place tells its rules from others in the page.
func (v *view) working(place string, steps []rule.Step) app.UI {
	return v.workingOf(v.stepLines(place, steps), len(steps))
}

func (v *view) stepLines(place string, steps []rule.Step) []stepLine {
	lines := make([]stepLine, len(steps))
	for i, s := range steps {
		lines[i] = stepLine{v.w.Working(s.Line), v.ruleAt(place+strconv.Itoa(i), s.Rule)}
	}
	return lines
}

// answerWorking is the working of the answer. Like the lines of the food list,
// lines that are not needed just now are hidden with what they showed last.
func (v *view) answerWorking(steps []rule.Step) app.UI {
	lines := over(v.stepLines("answer", steps), v.kept().steps)
	v.live.steps = lines
	return v.workingOf(lines, len(steps))
}

func (v *view) workingOf(lines []stepLine, shown int) app.UI {
	return el("div.working", at{"hidden", shown == 0},
		el("h3", v.t("answer.working")),
		el("ol", each(lines, func(i int, s stepLine) app.UI { return keep(stepProps{v.w, s, i >= shown}, step) })),
	)
}

type stepProps struct {
	W      *lang.Words
	Step   stepLine
	Hidden bool
}

func step(p stepProps) app.UI {
	return el("li", at{"hidden", p.Hidden}, el("p", p.Step.text), (&view{w: p.W}).rule(p.Step.rule))
}

// ruleProps are what a rule shows. Place is where it stands; an id that its
// opener sends.
type ruleProps struct {
	ID     rule.ID
	Place  string
	Open   bool
	Static bool // the program is not there to open it
}

func (v *view) ruleAt(place string, id rule.ID) ruleProps {
	place += "/" + string(id)
	return ruleProps{id, place, slices.Contains(v.Rules, place), !v.Loaded}
}

// rule names a rule, with what it says and where that comes from to open. That
// is made when it is asked for, since each line of working has a rule and hardly
// any is opened; in the static page it is there, folded up.
func (v *view) rule(p ruleProps) app.UI {
	r, _ := rule.ByID(p.ID)
	name, says := v.w.Term(r.Name()), func() []app.UI {
		return []app.UI{el("p", v.w.Term(r.Says())), v.source(r.Source, r.Origin)}
	}
	if p.Static {
		return el("details.rule", el("summary", name), says())
	}
	opener := el("button.opener", at{"type", "button", "aria-expanded", strconv.FormatBool(p.Open)}, press("rule", p.Place), name)
	if !p.Open {
		return el("div.rule", opener)
	}
	return el("div.rule", opener, says())
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
