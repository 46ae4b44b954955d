package label

import (
	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// A Nutrient is one that the label is read for.
type Nutrient uint8

// The nutrients. Sodium is in milligrams, sugars in grams.
const (
	Sodium Nutrient = iota
	TotalSugars
	AddedSugars
	Calories // named by claims only
)

// ID is the nutrient's key: "sodium", "total-sugars", "added-sugars".
func (n Nutrient) ID() string {
	return [...]string{"sodium", "total-sugars", "added-sugars", "calories"}[n]
}

// Term names the nutrient for a line.
func (n Nutrient) Term() say.Term { return say.Term{Kind: "nutrient", ID: n.ID(), Text: n.ID()} }

// Unit is "mg" or "g", the same in every language.
func (n Nutrient) Unit() string {
	if n == Sodium {
		return "mg"
	}
	return "g"
}

// A Fact is one nutrient of one serving as printed.
type Fact struct {
	Printed    amount.Num // mg of sodium, g of sugars
	LessThan   bool       // "less than 1 g": Printed is the upper end
	Percent    amount.Num // % Daily Value as printed
	HasPercent bool
}

// Range is the true amount in one serving that the label rounds to the printed
// one: 21 CFR 101.9(c)(4) for sodium, (c)(6) for sugars.
func (f Fact) Range(n Nutrient) amount.Amount {
	if f.LessThan {
		return amount.Between(amount.Num{}, f.Printed.Mul(amount.Frac(1, 2)), f.Printed)
	}
	if n == Sodium {
		return sodiumRange(f.Printed)
	}
	half := amount.Frac(1, 2)
	if f.Printed.Sign() == 0 {
		return amount.Between(amount.Num{}, amount.Num{}, half)
	}
	if !f.Printed.IsInt() { // finer than the rule asks: half of its last digit
		_, d, _ := f.Printed.Ints()
		half = amount.Frac(1, 2*max(d, 1))
	}
	return amount.Between(f.Printed.Sub(half), f.Printed, f.Printed.Add(half))
}

// sodiumRange: under 5 mg is 0; to 140 mg the nearest 5, above the nearest 10.
// A number off these steps is taken as precise to 1 mg.
func sodiumRange(mg amount.Num) amount.Amount {
	five, limit := amount.Int(5), amount.Int(140)
	step := func(n, d int64) amount.Num { return amount.Frac(n, d) }
	switch {
	case mg.Sign() == 0:
		return amount.Between(mg, mg, five)
	case mg.Equal(five): // what is under 5 is printed as 0
		return amount.Between(mg, mg, mg.Add(step(5, 2)))
	case mg.Equal(limit): // 140 to 145 is nearest to 140 too
		return amount.Between(mg.Sub(step(5, 2)), mg, mg.Add(five))
	case mg.Less(limit) && mg.Quo(five).IsInt():
		return amount.Between(mg.Sub(step(5, 2)), mg, mg.Add(step(5, 2)))
	case limit.Less(mg) && mg.Quo(amount.Int(10)).IsInt():
		return amount.Between(mg.Sub(five), mg, mg.Add(five))
	}
	half := step(1, 2)
	return amount.Between(mg.Sub(half).Max(amount.Num{}), mg, mg.Add(half))
}

// An Eater says whose Daily Value counts.
type Eater uint8

// The eaters that 21 CFR 101.9(c)(9) has values for.
const (
	FromFour Eater = iota // adults, and children from 4 years
	Toddler               // children from 1 to 3 years
)

// DailyValue is the Daily Value of a nutrient, 21 CFR 101.9(c)(9): mg or g a
// day; ok is false where there is none, as for total sugars.
func DailyValue(n Nutrient, who Eater) (amount.Num, bool) {
	switch {
	case n == Sodium && who == FromFour:
		return amount.Int(2300), true
	case n == Sodium:
		return amount.Int(1500), true
	case n == AddedSugars && who == FromFour:
		return amount.Int(50), true
	case n == AddedSugars:
		return amount.Int(25), true
	}
	return amount.Num{}, false
}

// PercentDaily turns an amount of a nutrient into percent of the Daily Value,
// unrounded.
func PercentDaily(n Nutrient, a amount.Amount, who Eater) (amount.Amount, bool) {
	dv, ok := DailyValue(n, who)
	if !ok {
		return amount.Amount{}, false
	}
	return a.Scale(amount.Int(100).Quo(dv)), true
}

// A Level is what the 5/20 rule says of a percent Daily Value.
type Level uint8

// The levels.
const (
	Low Level = iota // 5 % or less
	Between5And20
	High        // 20 % or more
	CloseToCall // the range lies on both sides of 5 or 20
)

// FiveTwenty judges the percent Daily Value of one serving: 5 % or less is
// low, 20 % or more is high. The line says so for the nutrient.
func FiveTwenty(n Nutrient, percent amount.Amount) (Level, say.Line) {
	level := func(x amount.Num) Level {
		switch {
		case !amount.Int(5).Less(x):
			return Low
		case !x.Less(amount.Int(20)):
			return High
		}
		return Between5And20
	}
	l := level(percent.Low)
	if level(percent.High) != l {
		l = CloseToCall
	}
	whole := amount.Exactly(percent.Best.Round(amount.Int(1)))
	return l, say.New([...]string{"label.five-twenty.low", "label.five-twenty.middle", "label.five-twenty.high", "label.five-twenty.close"}[l], n.Term(), whole)
}

// An Intake is a nutrient in what was eaten.
type Intake struct {
	PerServing amount.Amount // mg or g, the range that the label's rounding allows
	PerCup     amount.Amount
	HasPerCup  bool
	Eaten      amount.Amount
	Percent    amount.Amount // % Daily Value of what was eaten
	HasPercent bool
	Steps      []rule.Step
}

// Intake works out a nutrient in a number of servings, and in a cup where
// cupsPerServing is known (else give the zero Amount).
func (f Fact) Intake(n Nutrient, servings, cupsPerServing amount.Amount, who Eater) Intake {
	in := Intake{PerServing: f.Range(n)}
	by := rule.SodiumRound
	if n != Sodium {
		by = rule.AddedRound
	}
	in.step(by, "label.step.per-serving", n.Term(), n.forLine(in.PerServing), n.Unit())
	if cupsPerServing.Low.Sign() > 0 {
		in.PerCup, in.HasPerCup = in.PerServing.Quo(cupsPerServing), true
		in.step(rule.LabelSize, "label.step.per-cup", n.Term(), n.forLine(in.PerCup), n.Unit(), quantity(cupsPerServing, amount.Cup))
	}
	in.Eaten = in.PerServing.Mul(servings)
	in.step(rule.TimesServings, "label.step.eaten", servings, n.Term(), n.forLine(in.Eaten), n.Unit())
	if in.Percent, in.HasPercent = PercentDaily(n, in.Eaten, who); in.HasPercent {
		dv, _ := DailyValue(n, who)
		by = rule.DailyValue
		if who == Toddler {
			by = rule.DailyValueToddler
		}
		in.step(by, "label.step.percent", n.Term(), wholeRound(in.Percent), dv, n.Unit())
	}
	return in
}

// forLine rounds milligrams to whole ones for a sentence; grams keep their
// halves.
func (n Nutrient) forLine(a amount.Amount) amount.Amount {
	if n == Sodium {
		return wholeRound(a)
	}
	return a
}

// wholeRound rounds the ends for a sentence; the exact percent stays in Intake.
func wholeRound(a amount.Amount) amount.Amount {
	one := amount.Int(1)
	return amount.Between(a.Low.Round(one), a.Best.Round(one), a.High.Round(one))
}

func (in *Intake) step(by rule.ID, id string, args ...any) {
	in.Steps = append(in.Steps, rule.Step{Rule: by, Line: say.New(id, args...)})
}

// fitsPercent tells whether the printed % Daily Value is one that a label may print for the
// fact: from the rounded or the unrounded amount, 21 CFR 101.9(d)(7)(ii).
func (f Fact) fitsPercent(n Nutrient) bool {
	p, ok := PercentDaily(n, f.Range(n), FromFour)
	if !ok || !f.HasPercent {
		return true
	}
	// One more point each way: makers round at different steps.
	one := amount.Frac(3, 2)
	return !f.Percent.Less(p.Low.Sub(one)) && !p.High.Add(one).Less(f.Percent)
}
