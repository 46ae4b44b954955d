package lang

import (
	"cupsum/core/amount"
	"cupsum/core/guide"
)

// Num prints a number as cooks write it, with "about" where that rounds it.
func (w *Words) Num(x amount.Num) string {
	p := amount.Mixed(x)
	if decimal, _ := amount.Decimal(x, 2); w.decimals && p.Rounded {
		return w.Text("number.decimal", w.printed(p), decimal)
	}
	return w.printed(p)
}

func (w *Words) printed(p amount.Printed) string {
	switch {
	case p.Less:
		return w.Text("number.less", p.Text)
	case p.Rounded:
		return w.Text("number.about", p.Text)
	}
	return p.Text
}

// Amount prints an amount: "1¾", "about 1½", or "1¼ to 1¾" for a range whose
// ends print differently.
func (w *Words) Amount(a amount.Amount) string {
	if a.IsExact() {
		return w.Num(a.Best)
	}
	low, high := amount.Mixed(a.Low), amount.Mixed(a.High)
	if low.Text == high.Text {
		high.Rounded = true
		return w.printed(high)
	}
	if low.Less {
		low.Text = "0"
	}
	return w.Text("number.range", low.Text, high.Text)
}

// Best prints the best guess alone, with "about" when the amount is a range.
func (w *Words) Best(a amount.Amount) string {
	p := amount.Mixed(a.Best)
	p.Rounded = p.Rounded || !a.IsExact()
	return w.printed(p)
}

// Quantity prints an amount with its unit: "1½ cups". Metric units are printed
// as decimals: "1.5 kg", grams and millilitres as whole numbers from 10 up.
func (w *Words) Quantity(q amount.Quantity) string {
	switch q.Unit {
	case amount.NoUnit:
		return w.Amount(q.Amount)
	case amount.G, amount.Ml, amount.Kg, amount.L:
		return w.Text("unit."+q.Unit.ID(), w.metric(q.Amount, q.Unit))
	}
	return w.Text("unit."+q.Unit.ID(), q.Amount)
}

func (w *Words) metric(a amount.Amount, u amount.Unit) string {
	places := 2
	if u == amount.G || u == amount.Ml {
		places = 1
		if !a.High.Less(amount.Int(10)) {
			places = 0
		}
	}
	low, r1 := amount.Decimal(a.Low, places)
	high, r2 := amount.Decimal(a.High, places)
	if low != high {
		return w.Text("number.range", low, high)
	}
	if r1 || r2 {
		return w.Text("number.about", low)
	}
	return low
}

// Counted prints equivalents with their unit: "1¾ cups", "2 ounces", "3
// servings", "14 g".
func (w *Words) Counted(a amount.Amount, u guide.Unit) string {
	if u == guide.GramOil {
		return w.Quantity(amount.Quantity{Amount: a, Unit: amount.G})
	}
	return w.Text("counted."+u.ID(), a)
}
