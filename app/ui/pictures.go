package ui

import (
	"strconv"

	"cupsum/core/amount"
	"cupsum/core/guide"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Pictures show to the quarter what the text beside them says exactly, so they
// are hidden from screen readers. They carry classes, never colours: the
// stylesheet knows light, dark, forced colours and print.

// mostDrawn is how many cups or weights one picture shows.
const mostDrawn = 8

var quarter = amount.Frac(1, 4)

// quarters rounds an amount for drawing: how many quarters are sure (low) and
// how many may be (high).
func quarters(a amount.Amount) (low, high int) {
	return steps(a.Low, quarter), steps(a.High, quarter)
}

// steps is x in steps of the given size, rounded for drawing.
func steps(x, size amount.Num) int {
	n, _, ok := x.Round(size).Quo(size).Ints()
	if !ok || n > 1<<20 {
		return 1 << 20
	}
	return int(max(n, 0))
}

// measures draws an amount as measuring cups, or as kitchen weights for
// ounces, each filled to the quarter: plain up to the low end, hatched up to
// the high end.
func measures(a amount.Amount, u guide.Unit) app.UI {
	if u == guide.GramOil {
		return nil
	}
	low, high := quarters(a)
	if high == 0 && a.High.Sign() > 0 {
		high = 1
	}
	count := (high + 3) / 4
	more := 0
	if count > mostDrawn {
		more, count = count-mostDrawn, mostDrawn
	}
	list := make([]app.UI, 0, count+1)
	for i := range count {
		l, h := min(max(low-4*i, 0), 4), min(max(high-4*i, 0), 4)
		if u == guide.CupEq {
			list = append(list, cup(l, h))
		} else {
			list = append(list, weight(l, h))
		}
	}
	if more > 0 {
		list = append(list, el("span.more-measures", "+"+strconv.Itoa(more)))
	}
	return el("div.measures", at{"aria-hidden", "true"}, list)
}

// The cup's inside narrows downwards. For each quarter from empty to full: the
// height of the level and its left and right end.
var cupLevels = [5][3]string{{"42.5", "8.5", "33.5"}, {"31.5", "7.25", "34.75"}, {"23", "6.5", "35.5"}, {"14.5", "5.75", "36.25"}, {"5.5", "5", "37"}}

// cup draws one measuring cup with quarter marks. Both bands are always there,
// so that a key press changes what a picture is made of in no more than figures.
func cup(low, high int) app.UI {
	band := func(class string, from, to int) app.UI {
		if to <= from {
			return svg("path."+class, at{"d", "M0 0"})
		}
		a, b := cupLevels[from], cupLevels[to]
		return svg("path."+class, at{"d", "M" + a[1] + " " + a[0] + "L" + b[1] + " " + b[0] + "H" + b[2] + "L" + a[2] + " " + a[0] + "Z"})
	}
	return svg("svg.cup", at{"viewBox", "0 0 54 46"},
		band("sure", 0, low), band("maybe", low, high),
		svg("path.line", at{"d", "M2.5 3.5L5 6L8 40Q8.2 43 11 43H31Q33.8 43 34 40L37 6L38 3.5ZM36.6 11H43Q50 11 50 18V22Q50 30 42 30H35"}),
		svg("path.ticks", at{"d", "M7.3 31.5H12M6.5 23H14M5.8 14.5H11"}),
	)
}

// weight draws one kitchen weight, which stands for an ounce or a serving.
func weight(low, high int) app.UI {
	levels := [5]string{"41", "34.5", "28", "21.5", "15"}
	heights := [5]string{"0", "6.5", "13", "19.5", "26"}
	band := func(class string, from, to int) app.UI {
		return svg("rect."+class, at{"x", "5", "width", "26", "y", levels[to], "height", heights[to-from]})
	}
	return svg("svg.weight", at{"viewBox", "0 0 36 46"},
		band("sure", 0, low), band("maybe", low, high),
		svg("path.line", at{"d", "M14 12Q9 8 12 4.5Q18 0 24 4.5Q27 8 22 12V15H28Q31 15 31 18V39Q31 42 28 42H8Q5 42 5 39V18Q5 15 8 15H14Z"}),
		svg("path.ticks", at{"d", "M5.5 34.5H9M5.5 28H11M5.5 21.5H9"}),
	)
}

// Strips are drawn in a box of this size; a number line of its width.
const (
	stripWidth = 400
	stripTop   = 14 // above it the notch, below it the bar
	stripBar   = 18
)

// strip draws a group's day as one long measure: quarter ticks, a notch at the
// target, filled to the low end of the total and hatched to the high end.
func strip(total amount.Amount, t guide.Target) app.UI {
	target := t.Low.Max(t.High)
	full := total.High.Max(target).Mul(amount.Frac(9, 8))
	unit := amount.Int(1)
	if t.Unit == guide.GramOil {
		unit = amount.Int(5)
	}
	if full.Less(unit) {
		full = unit
	}
	at2 := func(x amount.Num) int { return steps(x.Mul(amount.Int(stripWidth)).Quo(full), amount.Int(1)) }
	num := strconv.Itoa
	bar := func(class string, from, to amount.Num) app.UI {
		x, w := at2(from), max(at2(to)-at2(from), 0)
		return svg("rect."+class, at{"x", num(x), "width", num(w), "y", num(stripTop), "height", num(stripBar)})
	}
	return svg("svg.strip", at{"viewBox", "-4 0 408 52", "aria-hidden", "true"},
		bar("sure", amount.Num{}, total.Low), bar("maybe", total.Low, total.High),
		svg("path.ticks", at{"d", ticks(full, unit, at2)}),
		svg("path.line", at{"d", "M0 " + num(stripTop) + "H400V" + num(stripTop+stripBar) + "H0Z"}),
		svg("g.numerals", numerals(full, unit, at2)),
		svg("g.notches", notch(t.Low, at2), when(t.High.Sign() > 0 && !t.High.Equal(t.Low), func() app.UI { return notch(t.High, at2) })),
	)
}

// ticks is the path of the marks below the bar's top edge: long at whole
// units, short at quarters where they are not too close.
func ticks(full, unit amount.Num, at2 func(amount.Num) int) string {
	step, every := unit.Mul(quarter), 4
	if amount.Int(12).Mul(unit).Less(full) {
		step, every = unit, 5
	}
	d := make([]byte, 0, 512)
	x := step
	for i := 1; x.Less(full) && i < 400; i++ {
		length := "5"
		if i%every == 0 {
			length = "10"
		} else if i%every == 2 && every == 4 {
			length = "7"
		}
		d = append(d, 'M')
		d = strconv.AppendInt(d, int64(at2(x)), 10)
		d = append(d, " "...)
		d = strconv.AppendInt(d, stripTop+stripBar, 10)
		d = append(d, "v-"...)
		d = append(d, length...)
		x = x.Add(step)
	}
	return string(d)
}

// numerals are the whole numbers under the bar, as many as have room.
func numerals(full, unit amount.Num, at2 func(amount.Num) int) []app.UI {
	step := unit
	for amount.Int(8).Mul(step).Less(full) {
		step = step.Add(unit)
	}
	var list []app.UI
	for x := step; x.Less(full); x = x.Add(step) {
		text, _ := amount.Decimal(x, 0)
		list = append(list, svg("text", at{"x", strconv.Itoa(at2(x)), "y", "50"}, text))
	}
	return list
}

// notch is the mark at a target.
func notch(x amount.Num, at2 func(amount.Num) int) app.UI {
	if x.Sign() <= 0 {
		return nil
	}
	n := strconv.Itoa(at2(x))
	return svg("path.notch", at{"d", "M" + n + " 36V11m-7 -10h14l-7 11z"})
}

// patterns defines the hatching that the pictures use.
func patterns() app.UI {
	return svg("svg.patterns", at{"width", "0", "height", "0", "aria-hidden", "true", "focusable", "false"},
		svg("defs", svg("pattern", at{"id", "hatch", "width", "5", "height", "5", "patternUnits", "userSpaceOnUse", "patternTransform", "rotate(45)"},
			svg("path.hatch", at{"d", "M0 0V5"}))))
}
