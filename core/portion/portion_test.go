package portion

import (
	"errors"
	"fmt"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/say"
)

func cup(foodID, form, text string) Portion {
	return Portion{Food: foodID, Form: form, Measure: Measure{By: ByCup, Amount: text}}
}

func labelled(foodID, form, servings, size string) Portion {
	return Portion{Food: foodID, Form: form, Measure: Measure{By: ByLabel, Servings: servings, Size: size}}
}

func byHand(foodID, form, n, hand string) Portion {
	return Portion{Food: foodID, Form: form, Measure: Measure{By: ByHand, Amount: n, Hand: hand}}
}

func piece(foodID, form, n, id string) Portion {
	return Portion{Food: foodID, Form: form, Measure: Measure{By: ByPiece, Amount: n, Piece: id}}
}

func weight(foodID, form, text string) Portion {
	return Portion{Food: foodID, Form: form, Measure: Measure{By: ByWeight, Amount: text}}
}

func protein(p Portion) Portion { p.Side = SideProtein; return p }
func vegetable(p Portion) Portion {
	p.Side = SideVegetable
	return p
}

// tradeTests are the trade's own check values and lines of the guidelines'
// tables. Amounts are "best" or "low..best..high" in the edition's unit.
var tradeTests = []struct {
	source  string
	portion Portion
	edition guide.EditionID
	group   food.Group
	want    string
}{
	// What classes teach (practice).
	{"practice", vegetable(labelled("black-beans", "canned", "3 1/2", "1/2 cup (130 g)")), guide.DGA2020, food.Vegetable, "7/4"},
	{"practice", labelled("peach", "canned-juice", "5", "1/2 cup"), guide.DGA2020, food.Fruit, "5/2"},
	{"practice", cup("apricot", "dried", "1/4"), guide.DGA2020, food.Fruit, "1/2"},
	{"practice", byHand("apple", "fresh", "1", "fist"), guide.DGA2020, food.Fruit, "2/3..1..4/3"},
	{"practice", cup("spinach", "fresh", "1"), guide.DGA2020, food.Vegetable, "1/2"},
	{"practice", protein(cup("black-beans", "cooked", "1/4")), guide.DGA2020, food.Protein, "1"},
	// DGA 2020-2025, Table A3-2 note c (2020).
	{"DGA 2020-2025 Table A3-2 note c", cup("raisins", "dried", "1/2"), guide.DGA2020, food.Fruit, "1"},
	{"DGA 2020-2025 Table A3-2 note c", cup("romaine", "fresh", "2"), guide.DGA2020, food.Vegetable, "1"},
	{"DGA 2020-2025 Table A3-2 note c", vegetable(cup("black-beans", "cooked", "1")), guide.DGA2020, food.Vegetable, "1"},
	{"DGA 2020-2025 Table A3-2 note c", cup("white-rice", "cooked", "1/2"), guide.DGA2020, food.Grain, "1"},
	{"DGA 2020-2025 Table A3-2 note c", weight("white-rice", "dry", "1 oz"), guide.DGA2020, food.Grain, "1"},
	{"DGA 2020-2025 Table A3-2 note c", weight("chicken", "cooked", "3 oz"), guide.DGA2020, food.Protein, "3"},
	{"DGA 2020-2025 Table A3-2 note c", weight("almonds", "ready", "1/2 oz"), guide.DGA2020, food.Protein, "1"},
	{"DGA 2020-2025 Table A3-2 note c", cup("peanut-butter", "ready", "1 tbsp"), guide.DGA2020, food.Protein, "1"},
	{"DGA 2020-2025 Table A3-2 note c", weight("cheddar", "ready", "1 1/2 oz"), guide.DGA2020, food.Dairy, "1"},
	{"DGA 2020-2025 Table A3-2 note c", weight("american-cheese", "ready", "2 oz"), guide.DGA2020, food.Dairy, "1"},
	{"DGA 2020-2025 Table A3-2 note c", cup("soy-milk", "ready", "1"), guide.DGA2020, food.Dairy, "1"},
	// Daily Servings by Calorie Level, DGA 2025-2030 (2026).
	{"DGA 2025-2030 daily servings", weight("chicken", "cooked", "3 oz"), guide.DGA2025, food.Protein, "1"},
	{"DGA 2025-2030 daily servings", protein(cup("black-beans", "cooked", "1/2")), guide.DGA2025, food.Protein, "1"},
	{"DGA 2025-2030 daily servings", weight("almonds", "ready", "1 oz"), guide.DGA2025, food.Protein, "1"},
	{"DGA 2025-2030 daily servings", cup("peanut-butter", "ready", "2 tbsp"), guide.DGA2025, food.Protein, "1"},
	{"DGA 2025-2030 daily servings", piece("egg", "cooked", "1", "large"), guide.DGA2025, food.Protein, "1"},
	{"DGA 2025-2030 daily servings", cup("low-fat-yogurt", "ready", "3/4"), guide.DGA2025, food.Dairy, "1"},
	{"DGA 2025-2030 daily servings", weight("cheddar", "ready", "1 oz"), guide.DGA2025, food.Dairy, "1"},
	{"DGA 2025-2030 daily servings", cup("brown-rice", "cooked", "1/2"), guide.DGA2025, food.Grain, "1"},
}

func TestTradeValues(t *testing.T) {
	for _, tt := range tradeTests {
		t.Run(fmt.Sprint(tt.portion.Food, " ", tt.portion.Measure.Amount, tt.portion.Measure.Servings, " ", tt.edition), func(t *testing.T) {
			r, err := tt.portion.Credit(tt.edition, nil)
			if err != nil {
				t.Fatalf("%s: %v", tt.source, err)
			}
			if len(r.Credits) != 1 || r.Credits[0].Group != tt.group {
				t.Fatalf("%s: credits are %v, want one in %s", tt.source, r.Credits, tt.group.ID())
			}
			if got := r.Credits[0].Amount.String(); got != tt.want {
				t.Errorf("%s: got %s, want %s", tt.source, got, tt.want)
			}
			if len(r.Steps) == 0 {
				t.Error("there is no working")
			}
		})
	}
}

// A label cup of beans holds its liquid; drained it is less, as a range around
// the published can: kidney 266 of 436 g (SR28).
func TestDrained(t *testing.T) {
	p := labelled("kidney-beans", "canned", "3 1/2", "1/2 cup (130 g)")
	p.Liquid = Drained
	p.Side = SideVegetable
	r, err := p.Credit(guide.DGA2020, nil)
	if err != nil {
		t.Fatal(err)
	}
	a := r.Credits[0].Amount
	if a.IsExact() {
		t.Errorf("drained beans are exact: %v", a)
	}
	if a.Best.Less(amount.Frac(11, 8)) || amount.Frac(13, 8).Less(a.Best) {
		t.Errorf("drained beans are %v cups, want about 1 1/2", a)
	}
	if a.High.Cmp(amount.Frac(7, 4)) > 0 {
		t.Errorf("drained beans reach %v cups, more than the label's 1 3/4 with liquid", a.High)
	}
}

func TestBothSidesOfBeans(t *testing.T) {
	r, err := cup("lentils", "cooked", "1/2").Credit(guide.DGA2020, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Credits) != 1 || r.Credits[0].Alt == nil {
		t.Fatalf("credits are %v, want one with an alternative", r.Credits)
	}
	if v, p := r.Credits[0].Amount.String(), r.Credits[0].Alt.Amount.String(); v != "1/2" || p != "2" {
		t.Errorf("got %s cups or %s oz eq, want 1/2 or 2", v, p)
	}
}

// A calcium source outside the dairy group is named as one and fills nothing.
func TestPlantDrinkIsNotDairy(t *testing.T) {
	r, err := cup("almond-milk", "ready", "1").Credit(guide.DGA2020, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Credits) != 0 {
		t.Errorf("almond drink counts as %v", r.Credits)
	}
	if !hasLine(r.Notes, "slip.plant-drink") {
		t.Errorf("notes are %v, want slip.plant-drink", r.Notes)
	}
}

func hasLine(lines []say.Line, id string) bool {
	for _, l := range lines {
		if l.ID == id {
			return true
		}
	}
	return false
}

func TestServingsSlip(t *testing.T) {
	r, err := labelled("peach", "canned-juice", "5", "1/2 cup").Credit(guide.DGA2020, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !hasLine(r.Notes, "slip.servings") {
		t.Errorf("notes are %v, want slip.servings", r.Notes)
	}
	r, err = labelled("peach", "canned-juice", "2", "1 cup").Credit(guide.DGA2020, nil)
	if err != nil {
		t.Fatal(err)
	}
	if hasLine(r.Notes, "slip.servings") {
		t.Error("two servings of a cup are two cups; there is nothing to warn of")
	}
}

func TestOwnHand(t *testing.T) {
	own, err := guide.OwnHand("fist", "3/4 cup")
	if err != nil {
		t.Fatal(err)
	}
	r, err := byHand("apple", "fresh", "2", "fist").Credit(guide.DGA2020, Hands{"fist": own})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Credits[0].Amount.Best.String(); got != "3/2" {
		t.Errorf("two fists of 3/4 cup are %s cups, want 3/2", got)
	}
}

// badTests are inputs that get a sentence, never a zero or a guess.
var badTests = []struct {
	name    string
	portion Portion
	id      string
	field   string
}{
	{"unknown food", cup("ambrosia", "fresh", "1"), "portion.food", "food"},
	{"unknown form", cup("apple", "molten", "1"), "portion.form", "form"},
	{"form it lacks", cup("apple", "raw", "1"), "portion.form", "form"},
	{"no way", Portion{Food: "apple", Form: "fresh"}, "portion.by", "by"},
	{"nothing typed", cup("apple", "fresh", ""), "amount.empty", "amount"},
	{"zero", cup("apple", "fresh", "0"), "portion.zero", "amount"},
	{"negative", cup("apple", "fresh", "-1"), "amount.negative", "amount"},
	{"over zero", cup("apple", "fresh", "1/0"), "amount.over-zero", "amount"},
	{"a thousand cups", cup("apple", "fresh", "1000"), "portion.too-big", "amount"},
	{"a weight by cup", cup("apple", "fresh", "3 oz"), "portion.not-volume", "amount"},
	{"a cup by weight", weight("apple", "fresh", "1 cup"), "portion.not-weight", "amount"},
	{"a unit that measures no food", cup("apple", "fresh", "3 miles"), "amount.unit", "amount"},
	{"emoji", cup("apple", "fresh", "🍎"), "amount.no-number", "amount"},
	{"no such hand", byHand("apple", "fresh", "1", "elbow"), "portion.hand", "hand"},
	{"no such piece", piece("apple", "fresh", "1", "slab"), "portion.piece", "piece"},
	{"too many pieces", piece("apple", "fresh", "5000", "small"), "portion.too-many", "amount"},
	{"an unknown unit", Portion{Food: "apple", Form: "fresh", Measure: Measure{By: ByCup, Amount: "1", Unit: "furlong"}}, "portion.unit", "unit"},
	{"a label without a size", labelled("peach", "canned-juice", "5", ""), "portion.no-size", "size"},
	{"a label without servings", labelled("peach", "canned-juice", "", "1/2 cup"), "portion.no-servings", "servings"},
	{"zero eaten", Portion{Food: "peach", Form: "canned-juice", Measure: Measure{By: ByLabel, Servings: "5", Size: "1/2 cup", Eaten: "0"}}, "portion.zero", "eaten"},
	{"no servings eaten", Portion{Food: "peach", Form: "canned-juice", Measure: Measure{By: ByLabel, Size: "1/2 cup", EatenBy: "servings"}}, "portion.no-eaten", "eaten"},
}

func TestBadInput(t *testing.T) {
	for _, tt := range badTests {
		t.Run(tt.name, func(t *testing.T) {
			r, err := tt.portion.Credit(guide.DGA2020, nil)
			var p *say.Problem
			if !errors.As(err, &p) {
				t.Fatalf("got %v and %v, want a problem", r.Credits, err)
			}
			if p.ID != tt.id || p.Field != tt.field {
				t.Errorf("got %s at %q, want %s at %q", p.ID, p.Field, tt.id, tt.field)
			}
			if len(r.Credits)+len(r.Steps) != 0 {
				t.Errorf("a refused portion has a result: %v", r)
			}
		})
	}
}

// Every form of every food can be measured in each way that it offers, and an
// offered way never ends in a problem.
func TestOfferedWaysWork(t *testing.T) {
	for f := range food.All() {
		for _, d := range f.Forms {
			ways := Ways(f, d)
			if len(ways) == 0 {
				t.Errorf("%s %s can't be measured", f.ID, d.Form.ID())
			}
			for _, m := range offered(f, d, ways) {
				p := Portion{Food: f.ID, Form: d.Form.ID(), Measure: m}
				for _, e := range guide.Editions() {
					r, err := p.Credit(e, nil)
					if err != nil {
						t.Errorf("%s %s by %s %s%s: %v", f.ID, d.Form.ID(), m.By, m.Piece, m.Hand, err)
						continue
					}
					for _, c := range r.Credits {
						if c.Amount.Best.Less(c.Amount.Low) || c.Amount.High.Less(c.Amount.Best) || c.Amount.Low.Sign() < 0 {
							t.Errorf("%s %s by %s: range %v is out of order", f.ID, d.Form.ID(), m.By, c.Amount)
						}
					}
				}
			}
		}
	}
}

// offered lists every measure of one that the page offers for a form; what a
// label measures depends on the label.
func offered(f food.Food, d food.Detail, ways []Way) []Measure {
	var ms []Measure
	for _, by := range ways {
		switch by {
		case ByLabel:
		case ByPiece:
			for _, p := range d.Pieces {
				ms = append(ms, Measure{By: by, Amount: "1", Piece: p.ID})
			}
		case ByHand:
			for _, id := range HandsFor(f, d) {
				ms = append(ms, Measure{By: by, Amount: "1", Hand: id})
			}
		default:
			for _, u := range Units(by)[:2] {
				ms = append(ms, Measure{By: by, Amount: "1", Unit: u.ID()})
			}
		}
	}
	return ms
}

func ExamplePortion_Credit() {
	p := Portion{Food: "apricot", Form: "dried", Measure: Measure{By: ByCup, Amount: "1/4 cup"}}
	r, err := p.Credit(guide.DGA2020, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range r.Credits {
		fmt.Println(c.Group.ID(), c.Amount, c.Unit.ID())
	}
	for _, s := range r.Steps {
		fmt.Println(s.Rule)
	}
	// Output:
	// fruit 1/2 cup-eq
	// one-dried
}

func FuzzCredit(f *testing.F) {
	for _, tt := range tradeTests {
		m := tt.portion.Measure
		f.Add(tt.portion.Food, tt.portion.Form, string(m.By), m.Amount, m.Unit, m.Hand, m.Piece, m.Servings, m.Size, m.Net, m.Eaten, m.EatenBy)
	}
	f.Fuzz(func(t *testing.T, id, form, by, text, unit, hand, pieceID, servings, size, net, eaten, eatenBy string) {
		p := Portion{Food: id, Form: form, Measure: Measure{By: Way(by), Amount: text, Unit: unit, Hand: hand, Piece: pieceID,
			Servings: servings, Size: size, Net: net, Eaten: eaten, EatenBy: eatenBy}}
		for _, e := range guide.Editions() {
			r, err := p.Credit(e, nil)
			if err != nil {
				if _, ok := err.(*say.Problem); !ok {
					t.Fatalf("%v is no problem with a sentence", err)
				}
				continue
			}
			for _, c := range r.Credits {
				if c.Amount.Best.Less(c.Amount.Low) || c.Amount.High.Less(c.Amount.Best) || c.Amount.Low.Sign() < 0 {
					t.Fatalf("%+v: range %v", p, c.Amount)
				}
			}
		}
	})
}

func BenchmarkCredit(b *testing.B) {
	for _, bb := range []struct {
		name string
		p    Portion
	}{
		{"cup", cup("apricot", "dried", "1/4")},
		{"label", labelled("black-beans", "canned", "3 1/2", "1/2 cup (130 g)")},
		{"hand", byHand("white-rice", "cooked", "1", "fist")},
		{"piece", piece("apple", "fresh", "1", "small")},
		{"weight", weight("chicken", "cooked", "3 oz")},
	} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := bb.p.Credit(guide.DGA2020, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
