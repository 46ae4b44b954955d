package portion

import (
	"strconv"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// Bounds of one portion. What is over them is a slip of the keyboard, not a
// meal, and is sent back with a sentence.
var (
	maxCups   = amount.Int(100)
	maxGrams  = amount.Int(25_000)
	maxPieces = amount.Int(500)
)

// work is one portion on its way from texts to credits. It holds what is known
// of the quantity so far: cups, grams or pieces, as eaten unless a step says
// otherwise.
type work struct {
	p       Portion
	edition guide.EditionID
	hands   Hands
	food    food.Food
	detail  food.Detail

	cups, grams, pieces          amount.Amount
	hasCups, hasGrams, hasPieces bool
	piece                        food.Piece
	volume                       bool // the cups were measured as such, not worked out from a weight

	steps []rule.Step
	notes []say.Line
}

func (w *work) step(id rule.ID, line string, args ...any) {
	w.steps = append(w.steps, rule.Step{Rule: id, Line: say.New(line, args...)})
}

func (w *work) note(line string, args ...any) { w.notes = append(w.notes, say.New(line, args...)) }

func (w *work) setCups(a amount.Amount)  { w.cups, w.hasCups = a, true }
func (w *work) setGrams(a amount.Amount) { w.grams, w.hasGrams = a, true }

func cups(a amount.Amount) amount.Quantity  { return amount.Quantity{Amount: a, Unit: amount.Cup} }
func grams(a amount.Amount) amount.Quantity { return amount.Quantity{Amount: a, Unit: amount.G} }

// measure reads the portion's measure. Problems name the field of the day file
// that they are about.
func (w *work) measure() error {
	switch w.p.Measure.By {
	case ByLabel:
		return w.fromLabel()
	case ByCup:
		return w.fromCup()
	case ByHand:
		return w.fromHand()
	case ByPiece:
		return w.fromPiece()
	case ByWeight:
		return w.fromWeight()
	}
	return say.Wrong("portion.by", string(w.p.Measure.By)).In("by")
}

// typed reads the amount field with the unit picked beside it.
func (w *work) typed() (amount.Reading, error) {
	r, err := amount.Read(w.p.Measure.Amount)
	if err != nil {
		return r, inField(err, "amount")
	}
	if r.Amount.High.Sign() <= 0 {
		return r, say.Wrong("portion.zero", w.p.Measure.Amount).In("amount")
	}
	if r.Unit == amount.NoUnit && w.p.Measure.Unit != "" {
		u, ok := amount.UnitByID(w.p.Measure.Unit)
		if !ok {
			return r, say.Wrong("portion.unit", w.p.Measure.Unit).In("unit")
		}
		r.Unit = u
	}
	if r.About {
		w.step(rule.About, "step.about", w.p.Measure.Amount, r.Amount)
	}
	if r.Snapped {
		w.step(rule.SnapThirds, "step.snapped", w.p.Measure.Amount, r.Quantity)
	}
	return r, nil
}

// counted reads the amount field as a number of things.
func (w *work) counted() (amount.Amount, error) {
	text := w.p.Measure.Amount
	if text == "" {
		text = "1"
	}
	r, err := amount.ReadNumber(text)
	switch {
	case err != nil:
		return r.Amount, inField(err, "amount")
	case r.Amount.High.Sign() <= 0:
		return r.Amount, say.Wrong("portion.zero", text).In("amount")
	case maxPieces.Less(r.Amount.High):
		return r.Amount, say.Wrong("portion.too-many", text, strconv.Itoa(500)).In("amount")
	}
	return r.Amount, nil
}

// inField points a problem at a field; other errors pass unchanged.
func inField(err error, field string) error {
	if p, ok := err.(*say.Problem); ok {
		return p.In(field)
	}
	return err
}

func (w *work) fromCup() error {
	r, err := w.typed()
	if err != nil {
		return err
	}
	if r.Unit == amount.NoUnit {
		r.Unit = amount.Cup
	}
	q, ok := r.Quantity.In(amount.Cup, amount.Customary)
	if !ok {
		return say.Wrong("portion.not-volume", r.Quantity).In("amount")
	}
	if r.Unit != amount.Cup {
		w.step(rule.UnitCustomary, "step.to-cups", r.Quantity, q)
	}
	w.setCups(q.Amount)
	w.volume = true
	return nil
}

func (w *work) fromHand() error {
	id := w.p.Measure.Hand
	hand, own := w.hands[id]
	if !own {
		var ok bool
		if hand, ok = guide.HandByID(id); !ok {
			return say.Wrong("portion.hand", id).In("hand")
		}
	}
	n, err := w.counted()
	if err != nil {
		return err
	}
	some := Some{n, "hand", id}
	total := amount.Quantity{Amount: hand.Holds.Amount.Mul(n), Unit: hand.Holds.Unit}
	if own {
		w.step(rule.HandOwn, "step.hand-own", some, hand.Holds, total)
	} else {
		w.step(rule.HandCommon, "step.hand", some, hand.Holds, total)
	}
	if q, ok := total.In(amount.Cup, amount.Customary); ok {
		w.setCups(q.Amount)
		w.volume = true
	} else if q, ok := total.In(amount.G, amount.Customary); ok {
		w.setGrams(q.Amount)
	}
	return nil
}

func (w *work) fromPiece() error {
	piece, ok := w.detail.Piece(w.p.Measure.Piece)
	if !ok {
		return say.Wrong("portion.piece", w.food.Term(), say.Term{Kind: "piece", ID: w.p.Measure.Piece, Text: w.p.Measure.Piece}).In("piece")
	}
	n, err := w.counted()
	if err != nil {
		return err
	}
	w.pieces, w.hasPieces, w.piece = n, true, piece
	if piece.Eq.High.Sign() == 0 && piece.Grams.Sign() > 0 {
		total := n.Scale(piece.Grams)
		w.step(rule.PieceWeight, "step.piece-weight", w.some(n), grams(amount.Exactly(piece.Grams)), grams(total))
		w.setGrams(total)
	} else if piece.Grams.Sign() > 0 {
		w.setGrams(n.Scale(piece.Grams))
	}
	return nil
}

// some is a number of the portion's pieces.
func (w *work) some(n amount.Amount) Some { return Some{n, "piece", w.piece.ID} }

func (w *work) fromWeight() error {
	r, err := w.typed()
	if err != nil {
		return err
	}
	if r.Unit == amount.NoUnit {
		r.Unit = amount.Oz
	}
	q, ok := r.Quantity.In(amount.G, amount.Customary)
	if !ok {
		return say.Wrong("portion.not-weight", r.Quantity).In("amount")
	}
	if r.Unit != amount.G {
		w.step(rule.UnitCustomary, "step.to-grams", r.Quantity, q)
	}
	w.setGrams(q.Amount)
	if w.p.Measure.Bought {
		share := w.detail.Edible
		if share.Sign() <= 0 {
			return say.Wrong("portion.no-edible", w.food.Term()).In("bought")
		}
		eaten := w.grams.Scale(share)
		if !share.Equal(amount.Int(1)) {
			w.step(rule.EdibleShare, "step.edible", grams(w.grams), percent(share), grams(eaten))
		}
		w.setGrams(eaten)
	}
	return nil
}

// percent prints a share of 1 as a whole percentage. It rounds for reading
// only.
func percent(share amount.Num) string {
	text, _ := amount.Decimal(share.Mul(amount.Int(100)), 0)
	return text
}

// bounds refuses what no portion can be.
func (w *work) bounds() error {
	if w.hasCups && maxCups.Less(w.cups.High) {
		return say.Wrong("portion.too-big", cups(w.cups), cups(amount.Exactly(maxCups))).In("amount")
	}
	if w.hasGrams && maxGrams.Less(w.grams.High) {
		return say.Wrong("portion.too-big", grams(w.grams), grams(amount.Exactly(maxGrams))).In("amount")
	}
	return nil
}
