package label

import (
	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// ReadNet reads a net weight: "NET WT 15 OZ (425g)", "1 LB 6 OZ (624 g)".
// Errors are [*say.Problem].
func ReadNet(text string) (Net, error) { return Net{}, say.Wrong("label.unread", text) }

// Cups tells how many measured cups one serving is. gramsPerCup is the food's
// weight in the state in which the label measures it (as packed for canned
// food unless the label says drained); the zero Amount where it is not known.
// flags are doubts: a plastic cup read for a measured one, a serving in cups
// that disagrees with its grams. The error is a [*say.Problem] when the label
// alone doesn't say it.
func (s Serving) Cups(gramsPerCup amount.Amount) (cups amount.Amount, steps []rule.Step, flags []say.Line, err error) {
	return amount.Amount{}, nil, nil, say.Wrong("label.unread", s.Text)
}

// Grams tells how many grams one serving is: as printed, by ounces, or by its
// cups and the food's weight per cup.
func (s Serving) Grams(gramsPerCup amount.Amount) (grams amount.Amount, steps []rule.Step, err error) {
	return amount.Amount{}, nil, say.Wrong("label.unread", s.Text)
}
