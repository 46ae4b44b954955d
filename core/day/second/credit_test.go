package second_test

import "math/big"

const (
	dga2020 = "dga-2020"
	legumes = "legume"
)

// A credit is what a portion counts as in one group.
type credit struct {
	group, sub string
	span
	juice bool
	alt   *credit // beans: the protein side of the same food
}

// A quantity is what was eaten, as measured: by volume, by weight, or both,
// where a label prints both. perCup turns one into the other.
type quantity struct{ cups, grams, perCup *span }

func (q quantity) inCups() *span {
	if q.cups != nil || q.grams == nil || q.perCup == nil {
		return q.cups
	}
	c := q.grams.over(*q.perCup)
	return &c
}

func (q quantity) inGrams() *span {
	if q.grams != nil || q.cups == nil || q.perCup == nil {
		return q.grams
	}
	g := q.cups.times(*q.perCup)
	return &g
}

func (q quantity) in100g() *span { return scaled(q.inGrams(), frac(1, 100)) }

func (b *book) countsTwice(class string) bool {
	return len(b.ones[dga2020+" "+class]) == 2
}

// row finds the crediting row of a class in a group for a subgroup.
func (b *book) row(edition, class, group, sub string) *oneRow {
	for _, r := range b.ones[edition+" "+class] {
		if r.group == group && (r.sub == "" || r.sub == sub) {
			return &r
		}
	}
	return nil
}

// measured reads off the quantity from the portion's numbers.
func (b *book) measured(p *made, hands map[string]span) quantity {
	cup := b.units["cup"].size
	perCup := p.form.gCup
	switch p.Measure.By {
	case "cup":
		c := p.n.by(div(b.units[p.unit].size, cup))
		return quantity{cups: &c, perCup: perCup}
	case "weight":
		g := p.n.by(b.units[p.unit].size)
		if p.Measure.Bought {
			g = g.by(p.form.edible)
		}
		return quantity{grams: &g, perCup: perCup}
	case "hand":
		hand := b.hands[p.Measure.Hand]
		holds := hand.holds
		if own, ok := hands[p.Measure.Hand]; ok {
			holds = own
		}
		unit := b.units[hand.unit]
		q := p.n.times(holds).by(unit.size)
		if unit.kind == "weight" {
			return quantity{grams: &q, perCup: perCup}
		}
		q = q.by(div(frac(1, 1), cup))
		return quantity{cups: &q, perCup: perCup}
	case "piece":
		if piece := p.piece(); piece.g != nil {
			g := p.n.by(piece.g)
			return quantity{grams: &g, perCup: perCup}
		}
	case "label":
		return b.labelled(p)
	}
	return quantity{}
}

func (p *made) piece() *pieceRow {
	for _, x := range p.form.pieces {
		if x.id == p.Measure.Piece {
			return x
		}
	}
	return nil
}

// labelled works out a label: servings eaten times the serving size (rule
// label-servings), and drained by the published share where the liquid was
// poured off (rule drained-weight). A label's cup is 16 of its tablespoons and
// 8 of its fluid ounces (rule unit-label).
//
// Reading: a label's cup counts as a cup, as printed, and holds what
// g_label_cup says where the table has it, else g_cup.
func (b *book) labelled(p *made) quantity {
	n := p.servings
	switch {
	case p.eaten == nil:
	case p.Measure.EatenBy == "servings":
		n = *p.eaten
	default:
		n = n.times(*p.eaten)
	}
	var q quantity
	switch d := p.form; {
	case d.gLabelCup != nil:
		s := exactly(d.gLabelCup)
		q.perCup = &s
	case !d.canBePouredFrom: // no liquid: a cup is a cup
		q.perCup = d.gCup
	}
	switch {
	case p.size != nil:
		q.cups = scaled(&n, div(p.size, labelCup[p.sizeUnit]))
	case p.ml != nil:
		q.cups = scaled(&n, div(p.ml, frac(240, 1)))
	}
	q.grams = scaled(&n, p.grams)
	if p.Liquid == "drained" || p.Liquid == "" && p.form.food.group == "protein" && p.form.drained != nil && p.form.canBePouredFrom {
		packed := q.inGrams()
		if packed == nil {
			return quantity{}
		}
		// The drained share is one of the net weight, where that is known.
		if p.net != nil && p.Measure.EatenBy != "servings" {
			g := exactly(p.net)
			if p.eaten != nil {
				g = g.times(*p.eaten)
			}
			packed = &g
		}
		g := packed.times(*p.form.drained)
		drained := quantity{grams: &g, perCup: p.form.gCup}
		// What is left when the liquid is poured off is no more cups than there
		// were with it (rule drained-weight), in each of low, best and high.
		if c, with := drained.inCups(), q.inCups(); c != nil && with != nil {
			drained.cups = &span{least(c.lo, with.lo), least(c.best, with.best), least(c.hi, with.hi)}
		}
		return drained
	}
	return q
}

// labelCup is how many of a label's units make its cup (rule unit-label).
var labelCup = map[string]*big.Rat{"cup": frac(1, 1), "tbsp": frac(16, 1), "fl oz": frac(8, 1)}

// credits tells what the portion counts as in an edition; ok is false when the
// tables do not say.
func (b *book) credits(edition string, p *made, hands map[string]span) (list []credit, ok bool) {
	d, q := p.form, b.measured(p, hands)
	switch d.class {
	case "none":
		return nil, q.cups != nil || q.grams != nil || p.Measure.By == "piece"
	case "mixed":
		return b.dish(edition, d, q)
	}
	// The first row is the food's own group; a second one is beans as protein.
	var own *credit
	for _, group := range []string{d.food.group, "protein"} {
		if own != nil && group == d.food.group || group != d.food.group && !b.countsTwice(d.class) {
			continue
		}
		row := b.row(edition, d.class, group, d.food.sub)
		if row == nil {
			continue
		}
		s := b.one(edition, d, row, p, q)
		if s == nil {
			return nil, false
		}
		c := &credit{group: group, sub: d.food.sub, span: *s, juice: d.class == "fruit-juice" || d.class == "veg-juice"}
		if own == nil {
			own = c
		} else {
			own.alt = c
		}
	}
	if own == nil {
		return nil, true // counts nowhere in this edition
	}
	return []credit{*own}, true
}

// one works out a crediting row for a portion; nil when the tables don't say.
func (b *book) one(edition string, d *formRow, row *oneRow, p *made, q quantity) *span {
	base := b.row(dga2020, d.class, d.food.group, d.food.sub)
	// What tables of pieces, cups and 100 g count is in 2020 equivalents of
	// the food's own group; another edition or group has its own number of
	// them, in the proportion of the two factors.
	converted := func(s *span, k *big.Rat) *span {
		if s == nil || k == nil || base == nil || base.per != row.per {
			return nil
		}
		return scaled(s, mul(k, div(row.factor, base.factor)))
	}
	if piece := p.piece(); piece != nil && piece.eq != nil {
		eq := p.n.over(exactly(piece.count)).times(*piece.eq)
		return converted(&eq, frac(1, 1))
	}
	switch row.per {
	case "cup":
		if row.cooked {
			// Dry beans are first cooked, and then measured in cups of the
			// cooked beans (guide.One.Cooked).
			for _, form := range d.food.forms {
				if form.form == "cooked" && q.inGrams() != nil {
					g := q.inGrams().by(d.cooked)
					return byTwoTables(p, quantity{grams: &g, perCup: form.gCup}, row.factor, converted(scaled(&g, frac(1, 100)), form.eq100))
				}
			}
			return nil
		}
		// One cup of this very food (rule cup-of-this) comes before a cup of
		// its class where the cup was filled.
		if q.cups != nil && d.eqCup != nil {
			return converted(q.cups, d.eqCup)
		}
		if p.Measure.By == "label" && d.canBePouredFrom && q.cups == nil && q.perCup == nil {
			return nil // its grams hold the liquid, and no table says how much
		}
		if q.inCups() != nil {
			return byTwoTables(p, q, row.factor, converted(q.in100g(), d.eq100))
		}
		return converted(q.in100g(), d.eq100)
	case "ounce":
		// Reading: a volume goes by the cup of this very food, also where a
		// label prints the weight beside it.
		if q.cups != nil && d.eqCup != nil {
			return converted(q.cups, d.eqCup)
		}
		g := q.inGrams()
		if row.cooked {
			g = scaled(g, d.cooked)
		}
		return scaled(g, div(row.factor, b.units["oz"].size))
	case "100g":
		if q.grams == nil && d.eqCup != nil {
			return converted(q.cups, d.eqCup)
		}
		return converted(q.in100g(), d.eq100)
	case "piece":
		if p.Measure.By == "piece" {
			return scaled(&p.n, row.factor)
		}
		// Reading: eggs by weight are as many as large ones have that weight.
		for _, piece := range d.pieces {
			if piece.id == "large" {
				return scaled(q.inGrams(), div(row.factor, piece.g))
			}
		}
		return nil
	}
	panic("per " + row.per)
}

// byTwoTables counts cups by their factor. Where the food was weighed and
// another table counts it by weight, that one is best, since it is made for
// weights, and the range goes as far as the cups.
func byTwoTables(p *made, q quantity, factor *big.Rat, eq *span) *span {
	s := q.inCups().by(factor)
	if p.Measure.By != "weight" || eq == nil {
		return &s
	}
	return &span{least(eq.lo, s.lo), eq.best, most(eq.hi, s.hi)}
}

// scaled is s times k, and nil when either is.
func scaled(s *span, k *big.Rat) *span {
	if s == nil || k == nil {
		return nil
	}
	t := s.by(k)
	return &t
}

// dish splits a mixed dish by its parts in 100 g (rule dish-parts), each
// counted in the edition by its class.
func (b *book) dish(edition string, d *formRow, q quantity) (list []credit, ok bool) {
	g := q.inGrams()
	if g == nil {
		return nil, false
	}
	for _, part := range d.parts {
		base := b.row(dga2020, part.class, part.group, part.sub)
		row := b.row(edition, part.class, part.group, part.sub)
		if row == nil {
			continue
		}
		s := g.by(mul(part.eq100, frac(1, 100)))
		c := credit{group: part.group, sub: part.sub, juice: part.class == "fruit-juice" || part.class == "veg-juice"}
		c.span = s.by(div(row.factor, base.factor))
		if part.sub == legumes {
			other := b.row(edition, part.class, "protein", "")
			c.alt = &credit{group: "protein", span: s.by(div(other.factor, base.factor))}
		}
		list = append(list, c)
	}
	return list, true
}

// canCount tells whether the tables say what the portion counts as, in both
// editions.
func (b *book) canCount(p *made) bool {
	if c := b.measured(p, nil).inCups(); c != nil && c.hi.Cmp(frac(100, 1)) > 0 {
		return false // nobody eats that; the program asks whether it is meant
	}
	for _, e := range []string{dga2020, "dga-2025"} {
		if _, ok := b.credits(e, p, nil); !ok {
			return false
		}
	}
	return true
}
