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

// mostDrawn is how many cups or weights one picture shows, a rowOf at most in one
// row.
const (
	mostDrawn = 8
	rowOf     = 4
)

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

// A vessel is the outline that amounts are drawn in: its paths start at from and
// ticked and go on in relative steps. Its inside narrows downwards; for each
// quarter from empty to full there are the height of the level and its left and
// right end.
type vessel struct {
	class        string
	width        int // of one with the space beside it
	from, ticked [2]float64
	line, ticks  string
	levels       [5][3]float64
}

const vesselHeight = 50 // of one with the space below it

// cup is a measuring cup with quarter marks; weight is a kitchen weight, which
// stands for an ounce or a serving.
var (
	cup = vessel{
		"cups", 60, [2]float64{2.5, 3.5}, [2]float64{7.3, 31.5},
		"l2.5 2.5l3 34q.2 3 3 3h20q2.8 0 3-3l3-34l1-2.5m-1.4 7.5h6.4q7 0 7 7v4q0 8-8 8h-7", "h4.7m-5.5-8.5h7.5m-8.2-8.5h5.2",
		[5][3]float64{{42.5, 8.5, 33.5}, {31.5, 7.25, 34.75}, {23, 6.5, 35.5}, {14.5, 5.75, 36.25}, {5.5, 5, 37}},
	}
	weight = vessel{
		"weights", 42, [2]float64{14, 12}, [2]float64{5.5, 34.5},
		"q-5-4-2-7.5q6-4.5 12 0q3 3.5-2 7.5v3h6q3 0 3 3v21q0 3-3 3h-20q-3 0-3-3v-21q0-3 3-3h6z", "h3.5m-3.5-6.5h5.5m-5.5-6.5h3.5",
		[5][3]float64{{41, 5, 31}, {34.5, 5, 31}, {28, 5, 31}, {21.5, 5, 31}, {15, 5, 31}},
	}
)

// measures draws an amount as measuring cups, or as kitchen weights for
// ounces, each filled to the quarter: plain up to the low end, hatched up to
// the high end. However many there are, they are the same four paths, so that a
// key press changes no more than these. One is one em wide.
func measures(a amount.Amount, u guide.Unit) app.UI {
	if u == guide.GramOil {
		return nil
	}
	one := weight
	if u == guide.CupEq {
		one = cup
	}
	low, high := quarters(a)
	if high == 0 && a.High.Sign() > 0 {
		high = 1
	}
	count, more := min((high+3)/4, mostDrawn), max((high+3)/4-mostDrawn, 0)
	columns, rows := min(count, rowOf), (count+rowOf-1)/rowOf
	var sure, maybe, line, ticks []byte
	for i := range count {
		x, y := float64(i%rowOf*one.width), float64(i/rowOf*vesselHeight)
		l, h := min(max(low-4*i, 0), 4), min(max(high-4*i, 0), 4)
		sure = one.band(sure, x, y, 0, l)
		maybe = one.band(maybe, x, y, l, h)
		line = append(point(line, "M", x+one.from[0], y+one.from[1]), one.line...)
		ticks = append(point(ticks, "M", x+one.ticked[0], y+one.ticked[1]), one.ticks...)
	}
	var rest app.UI
	if more > 0 { // beside the last row
		columns++
		rest = svg("text", at{"x", strconv.Itoa(rowOf*one.width + 4), "y", strconv.Itoa(rows*vesselHeight - 16)}, "+"+strconv.Itoa(more))
	}
	path := func(class string, d []byte) app.UI {
		if len(d) == 0 {
			d = []byte("M0 0")
		}
		return svg("path."+class, at{"d", string(d)})
	}
	return svg("svg.measures."+one.class, at{
		"aria-hidden", "true", "width", strconv.Itoa(columns) + "em",
		"viewBox", "0 0 " + strconv.Itoa(max(columns, 1)*one.width) + " " + strconv.Itoa(max(rows, 1)*vesselHeight),
	}, path("sure", sure), path("maybe", maybe), path("line", line), path("ticks", ticks), rest)
}

// band adds to a path what is in a vessel that stands at x, y, from one quarter
// to another.
func (v vessel) band(path []byte, x, y float64, from, to int) []byte {
	if to <= from {
		return path
	}
	a, b := v.levels[from], v.levels[to]
	path = point(path, "M", x+a[1], y+a[0])
	path = point(path, "L", x+b[1], y+b[0])
	path = point(path, "L", x+b[2], y+b[0])
	return append(point(path, "L", x+a[2], y+a[0]), 'Z')
}

// point adds a step to a place to a path.
func point(path []byte, step string, x, y float64) []byte {
	path = strconv.AppendFloat(append(path, step...), x, 'f', -1, 64)
	return strconv.AppendFloat(append(path, ' '), y, 'f', -1, 64)
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
