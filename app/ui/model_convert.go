package ui

import (
	"strings"

	"cupsum/core/food"
	"cupsum/core/portion"
	"cupsum/core/say"
)

// maxHits is how many foods the list below the food field offers.
const maxHits = 8

// maxTyped bounds what the page keeps of one field, in bytes. It is far over
// what core accepts, so the sentence about a text that is too long still comes.
const maxTyped = 16 << 10

// Convert is the section that turns one thing measured into what it counts as.
type Convert struct {
	Query  string
	Hits   []food.Hit
	Open   bool // the list of foods is open
	Active int  // which of it the arrow keys are on; after the last hit comes "not in the list"

	Drafting bool        // a food that is not in the list is being entered
	Draft    food.Custom // what was entered for it
	DraftErr error       // why it can't be used yet

	Chosen  bool            // a food has been chosen: Portion, Food and Detail hold
	Portion portion.Portion // what is being measured, texts as typed
	Food    food.Food
	Detail  food.Detail
	Ways    []portion.Way
	Editing string // id of the portion on the day that is being changed
	Pasted  Pasted // a label that was pasted as text
	Sodium  string // mg in a serving, as typed
	Sugars  string // g of added sugars in a serving, as typed

	Result portion.Result
	Err    error

	Added say.Line // what was just put on the day
}

// pressConvert carries out the buttons of Convert; ok is false for others.
func (m Model) pressConvert(p Press) (Model, bool) {
	c := m.Convert
	switch p.Do {
	case "food":
		return m.chooseID(p.Arg), true
	case "own": // a food that is not in the list
		c = Convert{Drafting: true, Editing: c.Editing, Draft: food.Custom{Name: strings.TrimSpace(c.Query), Group: food.Vegetable.ID()}}
		c.Portion.Form = food.Fresh.ID()
		m.Convert = c
		return m.focus(inputID("own-name")), true
	case "own-use":
		return m.useDraft(), true
	case "cancel":
		m.Convert = Convert{}
		return m.focus("food"), true
	case "add":
		return m.add(p.NewID), true
	}
	return m, false
}

// key moves in the list of foods and chooses from it.
func (m Model) key(k Key) Model {
	c := m.Convert
	last := len(c.Hits) // one more: "not in the list"
	switch {
	case k.Name == "Escape":
		c.Open = false
	case k.Name == "ArrowDown" && c.Query != "":
		c.Active++
		if !c.Open || c.Active > last {
			c.Open, c.Active = true, 0
		}
	case k.Name == "ArrowUp" && c.Query != "":
		c.Active--
		if !c.Open || c.Active < 0 {
			c.Open, c.Active = true, last
		}
	case k.Name == "Enter" && c.Open && c.Active == last:
		next, _ := m.pressConvert(Press{Do: "own", NewID: k.NewID})
		return next
	case k.Name == "Enter" && len(c.Hits) > 0 && c.Query != "":
		return m.choose(c.Hits[min(c.Active, last-1)])
	}
	m.Convert = c
	return m
}

// typedConvert takes what was typed into the fields of Convert; ok is false
// for other fields.
func (m Model) typedConvert(t Typed) (Model, bool) {
	if len(t.Text) > maxTyped && t.Field != "paste" {
		t.Text = t.Text[:maxTyped]
	}
	c := m.Convert
	p := &c.Portion
	switch t.Field {
	case "food":
		c.Query, c.Active, c.Open = t.Text, 0, strings.TrimSpace(t.Text) != ""
		c.Hits = food.Search(t.Text, maxHits)
		if !c.Added.IsZero() {
			c.Added = say.Line{}
			m.Turn++
		}
		m.Convert = c
		return m, true
	case "form":
		return m.useForm(t.Text), true
	case "by":
		c = c.measureBy(portion.Way(t.Text))
	case "amount":
		p.Measure.Amount = t.Text
	case "unit":
		p.Measure.Unit = t.Text
	case "hand":
		p.Measure.Hand = t.Text
	case "piece":
		p.Measure.Piece = t.Text
	case "bought":
		p.Measure.Bought = t.Text == "yes"
	case "servings":
		p.Measure.Servings = t.Text
	case "size":
		p.Measure.Size = t.Text
	case "net":
		p.Measure.Net = t.Text
	case "eaten":
		p.Measure.Eaten = t.Text
	case "eatenBy":
		p.Measure.EatenBy, p.Measure.Eaten = t.Text, map[string]string{"package": "1/2", "servings": "1"}[t.Text]
	case "liquid":
		p.Liquid = portion.Liquid(t.Text)
	case "side":
		p.Side = portion.Side(t.Text)
	case "note":
		p.Note = t.Text
	case "paste":
		c = c.paste(t.Text)
	case "sodium":
		c.Sodium = t.Text
	case "sugars":
		c.Sugars = t.Text
	case "own-name":
		c.Draft.Name = t.Text
	case "own-group":
		c.Draft.Group, c.Draft.Subgroup, c.Draft.Kind = t.Text, firstSubgroup(t.Text), ""
	case "own-subgroup":
		c.Draft.Subgroup, c.Draft.Kind = t.Text, ""
	case "own-form":
		p.Form, c.Draft.Kind = t.Text, ""
	case "own-kind":
		c.Draft.Kind = food.Class(t.Text)
	case "own-hand":
		return m.ownHand(t.Text), true
	default:
		return m, false
	}
	if c.Drafting && c.DraftErr != nil {
		_, c.DraftErr = c.draft()
	}
	m.Convert = c
	return m.count(), true
}

// firstSubgroup is the part of a group that a new food is in until somebody
// says otherwise; none where core can do without.
func firstSubgroup(group string) string {
	g, _ := food.GroupByID(group)
	switch g {
	case food.Grain, food.Protein, food.Dairy:
		return g.Subgroups()[0].ID()
	}
	return ""
}

func (c Convert) draft() (food.Food, error) {
	form, _ := food.FormByID(c.Portion.Form)
	return c.Draft.Food(form)
}

// useDraft goes on with a food that the person entered.
func (m Model) useDraft() Model {
	c := m.Convert
	f, err := c.draft()
	if c.DraftErr = err; err != nil {
		m.Convert = c
		field := "name"
		if p, ok := err.(*say.Problem); ok && p.Field != "" {
			field = p.Field
		}
		return m.focus(inputID("own-" + field))
	}
	draft := c.Draft
	c.Drafting, c.Chosen, c.Food = false, true, f
	c.Portion = portion.Portion{Custom: &draft, Form: c.Portion.Form}
	m.Convert = c
	return m.useForm(c.Portion.Form).focus("chosen")
}

func (m Model) chooseID(arg string) Model {
	id, form, _ := strings.Cut(arg, "/")
	f, ok := food.ByID(id)
	if !ok {
		return m
	}
	kind, _ := food.FormByID(form)
	return m.chooseFood(f, kind)
}

func (m Model) choose(h food.Hit) Model { return m.chooseFood(h.Food, h.Form) }

// chooseFood takes a food from the list, in a form where one was meant.
func (m Model) chooseFood(f food.Food, form food.Form) Model {
	if len(f.Forms) == 0 {
		return m
	}
	if _, ok := f.In(form); !ok {
		form = f.Forms[0].Form
	}
	m.Convert = Convert{Chosen: true, Food: f, Portion: portion.Portion{Food: f.ID}}
	return m.useForm(form.ID()).focus("chosen")
}

// useForm sets the form and offers the measure that fits it. A measure that
// fits both forms stays as it is typed.
func (m Model) useForm(id string) Model {
	c := m.Convert
	form, _ := food.FormByID(id)
	d, ok := c.Food.In(form)
	if !ok {
		return m
	}
	was := c.Detail.Form
	c.Portion.Form, c.Detail = id, d
	c.Ways = portion.Ways(c.Food, d)
	if d.Form.Packed() != was.Packed() {
		c.Portion.Liquid = portion.LiquidUnsaid
	}
	if len(c.Ways) > 0 && (was == food.NoForm || !c.offers(c.Portion.Measure.By) || first(c.Ways) == portion.ByLabel && c.Portion.Measure.By != portion.ByLabel) {
		c = c.measureBy(c.Ways[0])
	} else {
		c = c.measureBy(c.Portion.Measure.By)
	}
	m.Convert = c
	return m.count()
}

func first(ways []portion.Way) portion.Way {
	if len(ways) == 0 {
		return ""
	}
	return ways[0]
}

func (c Convert) offers(by portion.Way) bool {
	for _, w := range c.Ways {
		if w == by {
			return true
		}
	}
	return false
}

// measureBy changes how it was measured. Each way begins with one of the
// smallest thing, so that there is an answer to start from; a label begins
// empty, since only the person can read it.
func (c Convert) measureBy(by portion.Way) Convert {
	old := c.Portion.Measure
	n := portion.Measure{By: by}
	switch by {
	case portion.ByLabel:
		n.Servings, n.Size, n.Net, n.Eaten, n.EatenBy = old.Servings, old.Size, old.Net, old.Eaten, old.EatenBy
	case portion.ByHand:
		hands := portion.HandsFor(c.Food, c.Detail)
		n.Amount, n.Hand = "1", hands[0]
		for _, h := range hands {
			if h == old.Hand {
				n.Hand = h
			}
		}
	case portion.ByPiece:
		n.Amount, n.Piece = "1", firstPiece(c.Detail)
		if _, ok := c.Detail.Piece(old.Piece); ok {
			n.Piece = old.Piece
		}
	default:
		n.Amount, n.Unit = "1", portion.Units(by)[0].ID()
		n.Bought = old.Bought && by == portion.ByWeight
	}
	if old.By == by {
		n.Amount = old.Amount
		if old.Unit != "" {
			n.Unit = old.Unit
		}
	}
	c.Portion.Measure = n
	return c
}

// firstPiece is the piece to begin with: medium where sizes are offered.
func firstPiece(d food.Detail) string {
	if _, ok := d.Piece("medium"); ok {
		return "medium"
	}
	if len(d.Pieces) == 0 {
		return ""
	}
	return d.Pieces[0].ID
}

// count works the answer out anew.
func (m Model) count() Model {
	c := m.Convert
	if !c.Chosen {
		return m
	}
	c.Result, c.Err = c.Portion.Credit(m.Day.Report.Set.Edition, m.hands())
	m.Convert = c
	return m
}

// add puts what was measured on the day, or back to where it was.
func (m Model) add(newID func() string) Model {
	c := m.Convert
	if !c.Chosen || c.Err != nil {
		return m
	}
	p := c.Portion
	what := "day.added"
	if c.Editing != "" {
		p.ID, what = c.Editing, "day.changed"
	} else {
		p.ID = newID()
	}
	m = m.change(say.New(what, c.Food.Term()), put(m.Day.Sheet, p))
	m.Convert = Convert{Added: say.New(what, c.Food.Term())}
	return m.focus("added")
}

// edit takes a portion of the day back into Convert.
func (m Model) edit(id string) Model {
	for _, item := range m.Day.Report.Items {
		p := item.Portion
		if p.ID != id {
			continue
		}
		f, ok := food.ByID(p.Food)
		if p.Custom != nil {
			form, _ := food.FormByID(p.Form)
			own, err := p.Custom.Food(form)
			f, ok = own, err == nil
		}
		form, _ := food.FormByID(p.Form)
		d, inForm := f.In(form)
		if !ok || !inForm {
			return m
		}
		m.Convert = Convert{Chosen: true, Portion: p, Food: f, Detail: d, Ways: portion.Ways(f, d), Editing: id}
		return m.count().focus("chosen")
	}
	return m
}
