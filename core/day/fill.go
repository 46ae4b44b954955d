package day

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/rule"
)

const (
	waysAGap   = 3 // ways to offer for one gap
	fillsAtWay = 4 // portions that one way may have
)

// wayRow is one row of data/ways.csv: an everyday measure of an everyday food.
// step and most are in eighths of the measure.
type wayRow struct {
	group    food.Group
	subgroup food.Subgroup
	food     string
	form     food.Form
	by       portion.Way
	measure  string // unit, piece or hand
	step     int64
	most     int64
	source   string
	origin   rule.Origin
}

// Tables tells of the table of everyday measures where its rows come from, for
// the evidence view.
func Tables() []rule.TableInfo {
	t := rule.TableInfo{Name: "ways"}
	for _, row := range wayRows {
		t.Count(row.source, row.origin)
	}
	return []rule.TableInfo{t}
}

// A candidate is a food in one measure, and what one such measure counts as.
type candidate struct {
	wayRow
	onHand bool
	one    one
}

// one is what a single measure of a food counts as in a group.
type one struct {
	food     food.Food
	credit   portion.Credit
	cautions []guide.Caution
}

// Ways finds three ways to close a group's gap in measures that people use,
// first from the foods that the person has; none where there is no gap. They
// are found when they are asked for, since a page shows one group's at a time.
func (r Report) Ways(g GroupCheck) []Filler {
	if g.Gap.Sign() <= 0 {
		return nil
	}
	list := candidates(r.sheet, r.Set.Edition, r.hands, g.Target)
	var ways []Filler
	for start := 0; start < len(list) && len(ways) < waysAGap; start++ {
		if f := closeWith(list, start, g.Gap); f != nil {
			ways = append(ways, f)
		}
	}
	return ways
}

// closeWith closes the gap with the candidate at start, going on with the next
// ones where it would be too much of the same. nil when four portions don't.
func closeWith(list []candidate, start int, gap amount.Num) Filler {
	var f Filler
	for k := 0; k < len(list) && k < fillsAtWay && gap.Sign() > 0; k++ {
		c := list[(start+k)%len(list)]
		each := c.one.credit.Amount.Best
		step := amount.Frac(c.step, 8)
		n := gap.Quo(each)
		if up := n.FloorRound(step); up.Less(n) {
			n = up.Add(step)
		}
		if k < fillsAtWay-1 {
			n = n.Min(amount.Frac(c.most, 8))
		}
		credit := c.one.credit
		credit.Amount = credit.Amount.Scale(n)
		gap = gap.Sub(credit.Amount.Best)
		f = append(f, Fill{Portion: c.portion(n), Food: c.one.food, Credit: credit, OnHand: c.onHand, Cautions: c.one.cautions})
	}
	if gap.Sign() > 0 {
		return nil
	}
	return f
}

// candidates lists what may close a gap in the target's group, the person's
// own foods first, each food once.
func candidates(s Sheet, e guide.EditionID, hands portion.Hands, t guide.Target) []candidate {
	var list []candidate
	seen := map[string]bool{}
	add := func(row wayRow, onHand bool) {
		if seen[row.food] {
			return
		}
		if o, ok := measureOne(row, e, hands, t.Group); ok {
			seen[row.food] = true
			list = append(list, candidate{row, onHand, o})
		}
	}
	for _, id := range s.OnHand {
		if row, ok := rowFor(id, t); ok {
			add(row, true)
		}
	}
	for _, row := range wayRows {
		if row.group == t.Group && (t.Subgroup == food.NoSubgroup || row.subgroup == t.Subgroup) {
			add(row, false)
		}
	}
	return list
}

// rowFor finds an everyday measure for a food that the person has: the table's
// own, else the first way other than a label in which its first form can be
// measured.
func rowFor(id string, t guide.Target) (wayRow, bool) {
	f, ok := food.ByID(id)
	if !ok || !inGroup(f, t) {
		return wayRow{}, false
	}
	for _, row := range wayRows {
		if row.food == id {
			return row, true
		}
	}
	d := f.Forms[0]
	row := wayRow{group: t.Group, food: id, form: d.Form, step: 2, most: 16}
	for _, by := range portion.Ways(f, d) {
		row.by = by
		switch by {
		case portion.ByPiece:
			row.measure, row.step = d.Pieces[0].ID, 4
			return row, true
		case portion.ByCup:
			row.measure = amount.Cup.ID()
			return row, true
		case portion.ByWeight:
			row.measure, row.step, row.most = amount.Oz.ID(), 4, 48
			return row, true
		}
	}
	return wayRow{}, false
}

// inGroup tells whether a food can fill the target. Beans can fill two.
func inGroup(f food.Food, t guide.Target) bool {
	if f.Subgroup == food.Legume {
		return t.Group == food.Vegetable || t.Group == food.Protein
	}
	return f.Group == t.Group && (t.Subgroup == food.NoSubgroup || f.Subgroup == t.Subgroup)
}

// portion makes the portion of n measures.
func (row wayRow) portion(n amount.Num) portion.Portion {
	m := portion.Measure{By: row.by, Amount: amount.Typed(n)}
	switch row.by {
	case portion.ByPiece:
		m.Piece = row.measure
	case portion.ByHand:
		m.Hand = row.measure
	default:
		m.Unit = row.measure
	}
	return portion.Portion{Food: row.food, Form: row.form.ID(), Measure: m}
}

// measureOne tells what one measure counts as in a group; ok is false when it
// counts for nothing there.
func measureOne(row wayRow, e guide.EditionID, hands portion.Hands, g food.Group) (o one, ok bool) {
	r, err := row.portion(amount.Int(1)).Credit(e, hands)
	if err != nil {
		return one{}, false
	}
	o = one{food: r.Food, credit: creditIn(r, g), cautions: r.Cautions}
	return o, o.credit.Amount.Best.Sign() > 0
}

// creditIn finds what a result counts as in a group, on either side.
func creditIn(r portion.Result, g food.Group) portion.Credit {
	for _, c := range r.Credits {
		if c.Group == g {
			c.Alt = nil
			return c
		}
		if c.Alt != nil && c.Alt.Group == g {
			return *c.Alt
		}
	}
	return portion.Credit{}
}
