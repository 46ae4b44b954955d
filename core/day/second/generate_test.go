package second_test

import (
	"fmt"
	"math/big"
	"math/rand"
	"strconv"

	"cupsum/core/portion"
)

// A made portion is the portion as the program gets it, in texts, and the
// numbers that the texts were made of.
type made struct {
	portion.Portion
	form *formRow

	n    span   // cup, hand, piece, weight: how many
	unit string // cup, weight: of what

	// Of a label:
	servings span
	size     *big.Rat // as printed, in sizeUnit; nil: only the metric amount is printed
	sizeUnit string
	grams    *big.Rat // as printed; nil: none
	ml       *big.Rat // as printed; nil: none
	eaten    *span    // nil: the whole package
	net      *big.Rat // grams; nil: not typed
}

// A numeral is a number as a person writes it and what it stands for.
type numeral struct {
	text string
	span
}

// A maker makes random days.
type maker struct {
	*rand.Rand
	book   *book
	beans  []*foodRow
	juices []*foodRow
	cans   []*foodRow
	sure   bool // numbers without doubt only
}

func newMaker(b *book, seed int64) *maker {
	m := &maker{Rand: rand.New(rand.NewSource(seed)), book: b}
	for _, f := range b.foods {
		for _, d := range f.forms {
			switch {
			case b.countsTwice(d.class):
				m.beans = append(m.beans, f)
			case d.class == "fruit-juice" || d.class == "veg-juice":
				m.juices = append(m.juices, f)
			case d.drained != nil:
				m.cans = append(m.cans, f)
			}
		}
	}
	return m
}

// food picks a food, those with rules of their own more often than their share
// of the catalogue.
func (m *maker) food() *foodRow {
	from := m.book.foods
	switch p := m.Intn(100); {
	case p < 15:
		from = m.beans
	case p < 25:
		from = m.juices
	case p < 40:
		from = m.cans
	}
	return from[m.Intn(len(from))]
}

// numeral makes an amount up to about most, as people write amounts. Reading:
// "about" is half a step each way (rule about), the step being what the number
// is written in: a half for 2 1/2, one for 2. The best guess of "2 to 3" is
// its middle.
func (m *maker) numeral(most int) numeral {
	whole := int64(m.Intn(most))
	switch p := m.Intn(20); {
	case p < 7 || m.sure && p >= 17:
		return numeral{strconv.FormatInt(whole+1, 10), exactly(frac(whole+1, 1))}
	case p < 14:
		parts := []struct{ n, d int64 }{{1, 2}, {1, 4}, {3, 4}, {1, 3}, {2, 3}, {1, 8}}
		f := parts[m.Intn(len(parts))]
		text := fmt.Sprintf("%d/%d", f.n, f.d)
		if whole > 0 {
			text = fmt.Sprintf("%d %s", whole, text)
		}
		return numeral{text, exactly(add(frac(whole, 1), frac(f.n, f.d)))}
	case p < 17:
		text := fmt.Sprintf("%d.%d", whole, 5)
		return numeral{text, exactly(add(frac(whole, 1), frac(1, 2)))}
	case p < 18:
		return numeral{fmt.Sprintf("about %d 1/2", whole+1), span{
			add(frac(whole+1, 1), frac(1, 4)), add(frac(whole+1, 1), frac(1, 2)), add(frac(whole+1, 1), frac(3, 4)),
		}}
	case p < 19:
		return numeral{fmt.Sprintf("about %d", whole+1), span{
			add(frac(whole, 1), frac(1, 2)), frac(whole+1, 1), add(frac(whole+1, 1), frac(1, 2)),
		}}
	default:
		return numeral{fmt.Sprintf("%d to %d", whole+1, whole+2), span{
			frac(whole+1, 1), add(frac(whole+1, 1), frac(1, 2)), frac(whole+2, 1),
		}}
	}
}

// portion makes a portion that can be counted by its food's rows.
func (m *maker) portion(id int) *made {
	for {
		f := m.food()
		d := f.forms[m.Intn(len(f.forms))]
		p := &made{form: d}
		p.ID, p.Food, p.Form = fmt.Sprintf("p%d", id), f.id, d.form
		switch m.Intn(5) {
		case 0:
			m.byCup(p)
		case 1:
			m.byWeight(p)
		case 2:
			m.byHand(p)
		case 3:
			m.byPiece(p)
		case 4:
			m.byLabel(p)
		}
		if m.book.countsTwice(d.class) || d.class == "mixed" {
			p.Side = []portion.Side{portion.SideAuto, portion.SideAuto, portion.SideVegetable, portion.SideProtein}[m.Intn(4)]
		}
		if d.canBePouredFrom && d.drained != nil {
			p.Liquid = []portion.Liquid{portion.LiquidUnsaid, portion.WithLiquid, portion.Drained, portion.Drained}[m.Intn(4)]
		}
		if p.Measure.By != "" && m.book.canCount(p) {
			return p
		}
	}
}

// putUnit picks the unit beside the amount or writes it into the text.
func (m *maker) putUnit(p *made, n numeral, unit string) {
	p.n, p.unit = n.span, unit
	p.Measure.Amount = n.text
	switch {
	case m.Intn(2) == 0:
		p.Measure.Unit = unit
	case unit == "fl-oz":
		p.Measure.Amount += " fl oz"
	default:
		p.Measure.Amount += " " + unit
	}
}

func (m *maker) byCup(p *made) {
	p.Measure.By = portion.ByCup
	switch m.Intn(6) {
	case 0:
		m.putUnit(p, m.numeral(6), "tbsp")
	case 1:
		m.putUnit(p, m.numeral(6), "tsp")
	case 2:
		m.putUnit(p, m.numeral(12), "fl-oz")
	default:
		m.putUnit(p, m.numeral(3), "cup")
	}
}

func (m *maker) byWeight(p *made) {
	p.Measure.By = portion.ByWeight
	switch m.Intn(4) {
	case 0:
		grams := int64(5 * (1 + m.Intn(80)))
		m.putUnit(p, numeral{strconv.FormatInt(grams, 10), exactly(frac(grams, 1))}, "g")
	case 1:
		m.putUnit(p, m.numeral(2), "lb")
	default:
		m.putUnit(p, m.numeral(8), "oz")
	}
	p.Measure.Bought = p.form.edible != nil && m.Intn(2) == 0
}

func (m *maker) byHand(p *made) {
	p.Measure.By = portion.ByHand
	p.Measure.Hand = m.book.handIDs[m.Intn(len(m.book.handIDs))]
	n := m.numeral(3)
	p.n, p.Measure.Amount = n.span, n.text
}

func (m *maker) byPiece(p *made) {
	if len(p.form.pieces) == 0 {
		return
	}
	p.Measure.By = portion.ByPiece
	p.Measure.Piece = p.form.pieces[m.Intn(len(p.form.pieces))].id
	n := m.numeral(4)
	p.n, p.Measure.Amount = n.span, n.text
}

// byLabel makes the texts of a label whose parts agree with one another, since
// this is about counting and not about contradictions.
func (m *maker) byLabel(p *made) {
	p.Measure.By = portion.ByLabel
	d := p.form
	gramsPerCup := d.gLabelCup
	if gramsPerCup == nil && d.gCup != nil && d.drained == nil {
		gramsPerCup = d.gCup.best
	}
	cups := []*big.Rat{frac(1, 4), frac(1, 3), frac(1, 2), frac(2, 3), frac(3, 4), frac(1, 1), frac(1, 8), frac(1, 16)}[m.Intn(8)]
	switch m.Intn(4) {
	case 0: // a weight alone
		g := int64(15 + m.Intn(200))
		p.grams = frac(g, 1)
		p.Measure.Size = fmt.Sprintf("%d g", g)
	case 1: // a volume alone
		m.volume(p, cups)
	case 2: // both in one drink
		if d.class != "fruit-juice" && d.class != "veg-juice" && d.class != "milk" && d.class != "soy-drink" {
			p.Measure.By = ""
			return
		}
		m.volume(p, cups)
		p.ml = mul(cups, frac(240, 1))
		p.Measure.Size += fmt.Sprintf(" (%s mL)", p.ml.RatString())
	case 3:
		if gramsPerCup == nil {
			p.Measure.By = ""
			return
		}
		m.volume(p, cups)
		p.grams = whole(mul(cups, gramsPerCup))
		if p.grams.Sign() == 0 || p.grams.Cmp(frac(5, 1)) < 0 {
			p.Measure.By = ""
			return
		}
		p.Measure.Size += fmt.Sprintf(" (%s g)", p.grams.RatString())
	}
	s := m.servingCount()
	p.servings, p.Measure.Servings = s.span, s.text
	if p.grams != nil && m.Intn(3) == 0 {
		p.net = whole(mul(s.best, p.grams)) // no more than its rounding off
		p.Measure.Net = p.net.RatString() + " g"
	}
	switch m.Intn(3) {
	case 0: // the whole package
	case 1:
		n := m.numeral(2)
		p.eaten, p.Measure.Eaten, p.Measure.EatenBy = &n.span, n.text, "package"
	case 2:
		n := m.numeral(3)
		p.eaten, p.Measure.Eaten, p.Measure.EatenBy = &n.span, n.text, "servings"
	}
}

// volume prints a label's volume, in spoons where it is small.
func (m *maker) volume(p *made, cups *big.Rat) {
	switch {
	case cups.Cmp(frac(1, 8)) <= 0:
		p.size, p.sizeUnit = mul(cups, frac(16, 1)), "tbsp"
	case m.Intn(4) == 0 && mul(cups, frac(8, 1)).IsInt():
		p.size, p.sizeUnit = mul(cups, frac(8, 1)), "fl oz"
	default:
		p.size, p.sizeUnit = cups, "cup"
	}
	p.Measure.Size = p.size.RatString() + " " + p.sizeUnit
}

// servingCount makes the servings per container as a label may print them: to
// the nearest half from 2 to 5, to the nearest whole elsewhere (rule
// about-servings). "About" is all that rounds to the printed number.
func (m *maker) servingCount() numeral {
	type printed struct {
		text       string
		lo, at, hi *big.Rat
	}
	about := []printed{
		{"about 1", frac(1, 2), frac(1, 1), frac(3, 2)},
		{"about 2", frac(3, 2), frac(2, 1), frac(9, 4)},
		{"about 2.5", frac(9, 4), frac(5, 2), frac(11, 4)},
		{"about 3", frac(11, 4), frac(3, 1), frac(13, 4)},
		{"about 3.5", frac(13, 4), frac(7, 2), frac(15, 4)},
		{"About 4 1/2", frac(17, 4), frac(9, 2), frac(19, 4)},
		{"about 5", frac(19, 4), frac(5, 1), frac(11, 2)},
		{"about 7", frac(13, 2), frac(7, 1), frac(15, 2)},
		{"about 12", frac(23, 2), frac(12, 1), frac(25, 2)},
	}
	if m.Intn(3) == 0 {
		a := about[m.Intn(len(about))]
		return numeral{a.text, span{a.lo, a.at, a.hi}}
	}
	if m.Intn(3) == 0 {
		n := int64(1 + m.Intn(4))
		return numeral{fmt.Sprintf("%d 1/2", n), exactly(add(frac(n, 1), frac(1, 2)))}
	}
	n := int64(1 + m.Intn(8))
	return numeral{strconv.FormatInt(n, 10), exactly(frac(n, 1))}
}

// whole is x to the nearest whole number, as labels print grams.
func whole(x *big.Rat) *big.Rat {
	twice := mul(x, frac(2, 1))
	n := new(big.Int).Add(twice.Num(), twice.Denom())
	return new(big.Rat).SetInt(n.Div(n, new(big.Int).Mul(twice.Denom(), big.NewInt(2))))
}
