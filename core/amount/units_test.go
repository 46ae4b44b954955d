package amount

import "testing"

// unitOracle is written from the definitions, not from data/units.csv: the
// inch is 2.54 cm, the gallon 231 cubic inches, the pound 453.59237 g (NIST
// Handbook 44 Appendix C); label measures by 21 CFR 101.9(b)(5)(viii).
func unitOracle() map[Unit][2]Num {
	inch := Frac(254, 100)
	gallon := inch.Mul(inch).Mul(inch).Mul(Int(231))
	pound := Frac(45359237, 100000)
	part := func(x Num, n int64) Num { return x.Quo(Int(n)) }
	return map[Unit][2]Num{
		Gallon: {gallon, gallon},
		Quart:  {part(gallon, 4), part(gallon, 4)},
		Pint:   {part(gallon, 8), part(gallon, 8)},
		Cup:    {part(gallon, 16), Int(240)},
		FlOz:   {part(gallon, 128), Int(30)},
		Tbsp:   {part(gallon, 256), Int(15)},
		Tsp:    {part(gallon, 768), Int(5)},
		Ml:     {Int(1), Int(1)},
		L:      {Int(1000), Int(1000)},
		G:      {Int(1), Int(1)},
		Kg:     {Int(1000), Int(1000)},
		Lb:     {pound, pound},
		Oz:     {part(pound, 16), Int(28)},
		NoUnit: {Int(1), Int(1)},
	}
}

func TestUnitSizes(t *testing.T) {
	oracle := unitOracle()
	if len(oracle) != len(Units())+1 {
		t.Errorf("the oracle has %d units, the table %d", len(oracle)-1, len(Units()))
	}
	for u, want := range oracle {
		if got := u.Size(Customary); !got.Equal(want[0]) {
			t.Errorf("%s: %s mL or g customary, want %s", u.ID(), got, want[0])
		}
		if got := u.Size(Label); !got.Equal(want[1]) {
			t.Errorf("%s: %s mL or g on a label, want %s", u.ID(), got, want[1])
		}
	}
}

func TestUnitsAreComplete(t *testing.T) {
	for _, u := range Units() {
		if u.Source() == "" || u.ID() == "" || u.Kind() == Count {
			t.Errorf("unit %d has no source, id or kind", u)
		}
		if v, ok := UnitByID(u.ID()); !ok || v != u {
			t.Errorf("UnitByID(%q) = %v", u.ID(), v)
		}
		if v, ok := ReadUnit(u.ID()); !ok || v != u {
			t.Errorf("the id %q is read as %q", u.ID(), v.ID())
		}
	}
	if u, ok := UnitByID(""); !ok || u != NoUnit {
		t.Error(`"" is NoUnit`)
	}
	if _, ok := UnitByID("furlong"); ok {
		t.Error("a furlong is no unit of food")
	}
}

func TestIn(t *testing.T) {
	q := Quantity{Exactly(Frac(1, 2)), Cup}
	for _, tt := range []struct {
		to   Unit
		s    System
		want string
	}{
		{Tbsp, Label, "8 tbsp"},
		{Tbsp, Customary, "8 tbsp"},
		{Ml, Label, "120 ml"},
		{Ml, Customary, "473176473/4000000 ml"}, // 118.29411825
		{FlOz, Label, "4 fl-oz"},
		{Gallon, Customary, "1/32 gallon"},
	} {
		if got, ok := q.In(tt.to, tt.s); !ok || got.String() != tt.want {
			t.Errorf("½ cup in %s: %s %v, want %s", tt.to.ID(), got, ok, tt.want)
		}
	}
	for _, to := range []Unit{G, Oz, NoUnit} {
		if got, ok := q.In(to, Label); ok {
			t.Errorf("½ cup in %q: %s; a volume is no weight and no count", to.ID(), got)
		}
	}
}

// TestInAndBack: converting there and back changes nothing, in either system.
func TestInAndBack(t *testing.T) {
	a := Between(Frac(1, 3), Frac(7, 5), Int(9))
	for _, s := range []System{Customary, Label} {
		for _, u := range Units() {
			for _, v := range Units() {
				there, ok := Quantity{a, u}.In(v, s)
				if ok != (u.Kind() == v.Kind()) {
					t.Fatalf("%s in %s: %v", u.ID(), v.ID(), ok)
				}
				if !ok {
					continue
				}
				if back, _ := there.In(u, s); !back.Amount.Equal(a) {
					t.Errorf("%s to %s and back: %s", u.ID(), v.ID(), back)
				}
			}
		}
	}
}
