package guide

import (
	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// handRow is a row of data/hands.csv. The five amounts are in 24ths of the
// unit: what nobody's hand is below, the range's low, best and high, and what
// nobody's hand is above.
type handRow struct {
	id                           string
	unit                         amount.Unit
	least, low, best, high, most int16
	source                       uint8
	origin                       rule.Origin
}

func of24(n int16) amount.Num { return amount.Frac(int64(n), 24) }

func (r *handRow) hand() Hand {
	return Hand{
		ID: r.id, Holds: amount.Quantity{Amount: amount.Between(of24(r.low), of24(r.best), of24(r.high)), Unit: r.unit},
		Rule: rule.HandCommon, Source: sourceTexts[r.source], Origin: r.origin,
	}
}

// Hands lists the hand measures, the largest first.
func Hands() []Hand {
	hands := make([]Hand, len(handRows))
	for i := range handRows {
		hands[i] = handRows[i].hand()
	}
	return hands
}

// HandByID finds a hand measure.
func HandByID(id string) (Hand, bool) {
	for i := range handRows {
		if handRows[i].id == id {
			return handRows[i].hand(), true
		}
	}
	return Hand{}, false
}

// ownStudy is what the range of a measured hand rests on. The study gives the
// figure for finger widths; that it holds for a fist is taken over, so the
// origin is practice.
const ownStudy = "J Nutr Sci 2016;5:e29, doi 10.1017/jns.2016.22: 80 % of estimates by own finger width were within 25 %; taken over for other hand measures"

// OwnHand reads what a person measured that their own hand holds: "3/4 cup",
// "¾". Without a unit it is the measure's usual one. The range of the hand is
// then a quarter either way, or as wide as the text says where that is wider.
// Errors are [*say.Problem] of field "hand": no such measure, a text that is
// no amount, a unit of another kind, and what nobody's hand can hold.
func OwnHand(id, text string) (Hand, error) {
	h, ok := HandByID(id)
	if !ok {
		return Hand{}, wrong("hand", "guide.hand-unknown", id)
	}
	r, err := amount.Read(text)
	if err != nil {
		if p, ok := err.(*say.Problem); ok {
			err = p.In("hand")
		}
		return Hand{}, err
	}
	q := r.Quantity
	if q.Unit == amount.NoUnit {
		q.Unit = h.Holds.Unit
	}
	usual, ok := q.In(h.Holds.Unit, amount.Customary)
	if !ok {
		return Hand{}, wrong("hand", "guide.hand-unit", h.Term(), h.Holds)
	}
	row := handRowOf(id)
	switch best := usual.Amount.Best; {
	case best.Sign() <= 0:
		return Hand{}, wrong("hand", "guide.hand-zero", h.Term(), h.Holds)
	case best.Less(of24(row.least)):
		return Hand{}, wrong("hand", "guide.hand-small", h.Term(), q, h.Holds)
	case of24(row.most).Less(best):
		return Hand{}, wrong("hand", "guide.hand-big", h.Term(), q, h.Holds)
	}
	a := q.Amount
	low, high := a.Best.Mul(amount.Frac(3, 4)).Min(a.Low), a.Best.Mul(amount.Frac(5, 4)).Max(a.High)
	h.Holds = amount.Quantity{Amount: amount.Between(low, a.Best, high), Unit: q.Unit}
	h.Own, h.Rule, h.Source, h.Origin = true, rule.HandOwn, ownStudy, rule.Practice
	return h, nil
}

func handRowOf(id string) *handRow {
	for i := range handRows {
		if handRows[i].id == id {
			return &handRows[i]
		}
	}
	return nil
}

// wrong makes a problem of a field; texts that it quotes are cut to a readable
// length. It is kept out of line: written out at each of its fifty calls it
// would cost the page 20 kB.
//
//go:noinline
func wrong(field, id string, args ...any) error {
	return say.Wrong(id, args...).In(field)
}
