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
// was typed: "1/2 cup", "2 fists", "3½ servings of 1/2 cup (130 g)".
func (w *Words) Measured(p portion.Portion) string {
	m := p.Measure
	count := m.Amount
	if count == "" {
		count = "1"
	}
	var n any = count
	if r, err := amount.Read(m.Amount); err == nil {
		n = r.Amount
		if u, ok := amount.UnitByID(m.Unit); ok && r.Unit == amount.NoUnit {
			r.Unit = u
		}
		if m.By == portion.ByCup || m.By == portion.ByWeight {
			n = r.Quantity
		}
	}
	switch m.By {
	case portion.ByHand:
		return w.Text("measured.some", n, w.some("hand", m.Hand, n))
	case portion.ByPiece:
		return w.Text("measured.some", n, w.some("piece", m.Piece, n))
	case portion.ByLabel:
		return w.labelled(m)
	}
	return w.Value(n)
}

// some names one or many of a thing that is counted: its own message, or its
// ".one" and ".many" ones.
func (w *Words) some(kind, id string, n any) string {
	many := ".many"
	if atMostOne(n) || n == "1" {
		many = ".one"
	}
	if text, ok := w.find(kind + "." + id + many); ok {
		return text
	}
	return w.Term(say.Term{Kind: kind, ID: id, Text: id})
}

func (w *Words) labelled(m portion.Measure) string {
	size := m.Size
	if size == "" {
		size = m.Net
	}
	switch {
	case m.EatenBy == "servings":
		return w.Text("measured.servings", m.Eaten, size)
	case m.Servings == "" || m.Size == "":
		return w.Text("measured.package", size)
	case m.Eaten == "" || m.Eaten == "1":
		return w.Text("measured.servings", m.Servings, size)
	}
	return w.Text("measured.share", m.Eaten, m.Servings, size)
}
