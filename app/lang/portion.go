package lang

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/portion"
	"cupsum/core/say"
)

// Food names a portion's food and form: "peaches, canned in juice".
func (w *Words) Food(p portion.Portion) string {
	name := say.Term{Kind: "food", ID: p.Food, Text: p.Food}
	if p.Custom != nil {
		name = say.Term{Text: p.Custom.Name}
	} else if f, ok := food.ByID(p.Food); ok {
		name = f.Term()
	}
	form, ok := food.FormByID(p.Form)
	if !ok || form == food.Ready || form == food.NoForm {
		return w.Term(name)
	}
	return w.Text("portion.food-form", name, form.Term())
}

// Measured says how a portion was measured, in a few words and close to what
// was typed: "½ cup", "2 fists", "3 1/2 servings of 1/2 cup (130 g)". What
// can't be read is given back as typed.
func (w *Words) Measured(p portion.Portion) string {
	m := p.Measure
	if m.By == portion.ByLabel {
		return w.labelled(m)
	}
	text := m.Amount
	if text == "" {
		text = "1"
	}
	r, err := amount.Read(text)
	switch {
	case err != nil:
		return text
	case m.By == portion.ByHand:
		return w.Some(portion.Some{N: r.Amount, Kind: "hand", ID: m.Hand})
	case m.By == portion.ByPiece:
		return w.Some(portion.Some{N: r.Amount, Kind: "piece", ID: m.Piece})
	}
	if r.Unit == amount.NoUnit {
		r.Unit, _ = amount.UnitByID(m.Unit)
	}
	if units := portion.Units(m.By); r.Unit == amount.NoUnit && len(units) > 0 {
		r.Unit = units[0] // what is meant when none is picked
	}
	if m.Bought {
		return w.Text("measured.bought", r.Quantity)
	}
	return w.Quantity(r.Quantity)
}

// Some prints a number of pieces or hands: "1 slice", "2 slices".
func (w *Words) Some(s portion.Some) string {
	form := ".many"
	if atMostOne(s.N) {
		form = ".one"
	}
	name, ok := w.find(s.Kind + "." + s.ID + form)
	if !ok {
		name = w.Term(say.Term{Kind: s.Kind, ID: s.ID, Text: s.ID})
	}
	return w.Text("measured.some", s.N, name)
}

func (w *Words) labelled(m portion.Measure) string {
	size := m.Size
	if size == "" {
		size = m.Net
	}
	switch {
	case m.EatenBy == "servings":
		return w.Text("measured.servings", number(m.Eaten), size)
	case m.Servings == "" || m.Size == "":
		return w.Text("measured.package", size)
	case m.Eaten == "" || m.Eaten == "1":
		return w.Text("measured.servings", number(m.Servings), size)
	}
	return w.Text("measured.share", number(m.Eaten), number(m.Servings), size)
}

// number is the amount that a text says, or the text where it says none.
func number(text string) any {
	if r, err := amount.Read(text); err == nil && !r.About {
		return r.Amount
	}
	return text
}
