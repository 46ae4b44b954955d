package amount

import (
	"errors"
	"strings"
	"testing"

	"cupsum/core/say"
)

// readTests are texts and what they say: low, best, high as fractions.
var readTests = []struct {
	text            string
	low, best, high string
	unit            Unit
	flags           string // a about, s snapped, r range
}{
	// Numbers.
	{"2", "2", "2", "2", NoUnit, ""},
	{"2 1/4", "9/4", "9/4", "9/4", NoUnit, ""},
	{"2-1/4", "9/4", "9/4", "9/4", NoUnit, ""},
	{"2 - 1/4", "9/4", "9/4", "9/4", NoUnit, ""},
	{"2¼", "9/4", "9/4", "9/4", NoUnit, ""},
	{"2 ¼", "9/4", "9/4", "9/4", NoUnit, ""},
	{"½", "1/2", "1/2", "1/2", NoUnit, ""},
	{"⅔", "2/3", "2/3", "2/3", NoUnit, ""},
	{"⅛", "1/8", "1/8", "1/8", NoUnit, ""},
	{".5", "1/2", "1/2", "1/2", NoUnit, ""},
	{"0.25", "1/4", "1/4", "1/4", NoUnit, ""},
	{"2.50", "5/2", "5/2", "5/2", NoUnit, ""},
	{"2,5", "5/2", "5/2", "5/2", NoUnit, ""},
	{",5", "1/2", "1/2", "1/2", NoUnit, ""},
	{"1,000", "1000", "1000", "1000", NoUnit, ""},
	{"0,125", "1/8", "1/8", "1/8", NoUnit, ""}, // nobody groups thousands after a zero
	{"3/2", "3/2", "3/2", "3/2", NoUnit, ""},
	{"1 / 2", "1/2", "1/2", "1/2", NoUnit, ""},
	{"1⁄2", "1/2", "1/2", "1/2", NoUnit, ""},
	{"0", "0", "0", "0", NoUnit, ""},
	{"  2\u00a01/4 ", "9/4", "9/4", "9/4", NoUnit, ""},
	{"007", "7", "7", "7", NoUnit, ""},
	// About: half a step each way.
	{"about 2.5", "9/4", "5/2", "11/4", NoUnit, "a"},
	{"About 2", "3/2", "2", "5/2", NoUnit, "a"},
	{"approx. 2", "3/2", "2", "5/2", NoUnit, "a"},
	{"approx 2", "3/2", "2", "5/2", NoUnit, "a"},
	{"approximately 2", "3/2", "2", "5/2", NoUnit, "a"},
	{"~2", "3/2", "2", "5/2", NoUnit, "a"},
	{"~ 2", "3/2", "2", "5/2", NoUnit, "a"},
	{"≈2", "3/2", "2", "5/2", NoUnit, "a"},
	{"about ¼ cup", "1/8", "1/4", "3/8", Cup, "a"},
	{"about 1 1/3 cups", "7/6", "4/3", "3/2", Cup, "a"},
	{"about 0", "0", "0", "1/2", NoUnit, "a"},
	// Ranges.
	{"2 to 3", "2", "5/2", "3", NoUnit, "r"},
	{"2–3", "2", "5/2", "3", NoUnit, "r"},
	{"2-3", "2", "5/2", "3", NoUnit, "r"},
	{"3 -4", "3", "7/2", "4", NoUnit, "r"},
	{"2 or 3 slices", "", "", "", NoUnit, "error"},
	{"½-1 cup", "1/2", "3/4", "1", Cup, "r"},
	{"1/2-3/4 cup", "1/2", "5/8", "3/4", Cup, "r"},
	{"2 cups to 3 cups", "2", "5/2", "3", Cup, "r"},
	{"1-3/4 cups", "7/4", "7/4", "7/4", Cup, ""}, // a mixed number: 1 to 3/4 would go down
	// Rounded thirds, sixths, twelfths: in cups and counts, never in grams.
	{"0.33 cup", "1/3", "1/3", "1/3", Cup, "s"},
	{".667 cup", "2/3", "2/3", "2/3", Cup, "s"},
	{"0.67", "2/3", "2/3", "2/3", NoUnit, "s"},
	{"1.333 cups", "4/3", "4/3", "4/3", Cup, "s"},
	{"0.083", "1/12", "1/12", "1/12", NoUnit, "s"},
	{"0.167", "1/6", "1/6", "1/6", NoUnit, "s"},
	{"0.33 g", "33/100", "33/100", "33/100", G, ""},
	{"0.67 ml", "67/100", "67/100", "67/100", Ml, ""},
	{"0.08", "2/25", "2/25", "2/25", NoUnit, ""}, // two digits of a twelfth would be a guess
	{"0.3 cup", "3/10", "3/10", "3/10", Cup, ""},
	// Units.
	{"1/2 cup", "1/2", "1/2", "1/2", Cup, ""},
	{"1/2cup", "1/2", "1/2", "1/2", Cup, ""},
	{"1/2 c", "1/2", "1/2", "1/2", Cup, ""},
	{"1/2 c.", "1/2", "1/2", "1/2", Cup, ""},
	{"0.25 c", "1/4", "1/4", "1/4", Cup, ""},
	{"1 C", "1", "1", "1", Cup, ""},
	{"2 CUPS", "2", "2", "2", Cup, ""},
	{"3 T", "3", "3", "3", Tbsp, ""},
	{"3 t", "3", "3", "3", Tsp, ""},
	{"3 Tbsp.", "3", "3", "3", Tbsp, ""},
	{"3 tablespoons", "3", "3", "3", Tbsp, ""},
	{"1 tsp", "1", "1", "1", Tsp, ""},
	{"2 Teaspoons", "2", "2", "2", Tsp, ""},
	{"8 fl oz", "8", "8", "8", FlOz, ""},
	{"8 FL. OZ.", "8", "8", "8", FlOz, ""},
	{"8 fluid ounces", "8", "8", "8", FlOz, ""},
	{"8 fl.oz", "8", "8", "8", FlOz, ""},
	{"1 pint", "1", "1", "1", Pint, ""},
	{"2 qt", "2", "2", "2", Quart, ""},
	{"1 gallon", "1", "1", "1", Gallon, ""},
	{"240 mL", "240", "240", "240", Ml, ""},
	{"240ML", "240", "240", "240", Ml, ""},
	{"1 L", "1", "1", "1", L, ""},
	{"1.5 litres", "3/2", "3/2", "3/2", L, ""},
	{"130 g", "130", "130", "130", G, ""},
	{"130 G", "130", "130", "130", G, ""},
	{"130 grams", "130", "130", "130", G, ""},
	{"1.2 kg", "6/5", "6/5", "6/5", Kg, ""},
	{"6 oz", "6", "6", "6", Oz, ""},
	{"6 Ounces", "6", "6", "6", Oz, ""},
	{"2 lb", "2", "2", "2", Lb, ""},
	{"2 lbs.", "2", "2", "2", Lb, ""},
	{"1 pound", "1", "1", "1", Lb, ""},
	{"2 tazas", "2", "2", "2", Cup, ""},
	{"1 cucharada", "1", "1", "1", Tbsp, ""},
	{"1 cucharadita", "1", "1", "1", Tsp, ""},
}

func TestRead(t *testing.T) {
	for _, tt := range readTests {
		r, err := Read(tt.text)
		if tt.flags == "error" {
			if err == nil {
				t.Errorf("%q: read as %s, want an error", tt.text, r.Quantity)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", tt.text, err)
			continue
		}
		a := r.Amount
		if a.Low.String() != tt.low || a.Best.String() != tt.best || a.High.String() != tt.high || r.Unit != tt.unit {
			t.Errorf("%q: %s..%s..%s %s, want %s..%s..%s %s", tt.text, a.Low, a.Best, a.High, r.Unit.ID(), tt.low, tt.best, tt.high, tt.unit.ID())
		}
		if r.About != strings.Contains(tt.flags, "a") || r.Snapped != strings.Contains(tt.flags, "s") || r.IsRange != strings.Contains(tt.flags, "r") {
			t.Errorf("%q: about %v snapped %v range %v, want %q", tt.text, r.About, r.Snapped, r.IsRange, tt.flags)
		}
	}
}

// badTests are texts that must be refused, and with which sentence.
var badTests = []struct{ text, id string }{
	{"", "amount.empty"},
	{" \t\u00a0", "amount.empty"},
	{"cup", "amount.no-number"},
	{"🍎", "amount.no-number"},
	{"about", "amount.no-number"},
	{"half", "amount.no-number"},
	{"-1", "amount.negative"},
	{"−2 cups", "amount.negative"},
	{"about -2", "amount.negative"},
	{"1/0", "amount.over-zero"},
	{"2 1/0 cups", "amount.over-zero"},
	{"1234567890", "amount.huge"},
	{"0.1234567890", "amount.digits"},
	{"1.2.3", "amount.two-points"},
	{"1.5/2", "amount.two-points"},
	{"3 meters", "amount.unit"},
	{"2 miles of rope", "amount.unit"},
	{"2 cups 🍎", "amount.rest"},
	{"2 cups 3", "amount.rest"},
	{"2 3", "amount.rest"},
	{"1/2/3", "amount.rest"},
	{"½½", "amount.rest"},
	{"2 %", "amount.rest"},
	{"3 to 2", "amount.backwards"},
	{"3 - 2 cups", "amount.backwards"},
	{"3 cups to 2 cups", "amount.backwards"},
	{"1e9", "amount.unit"},
	{"\x00\xff", "amount.no-number"},
	{strings.Repeat("1", MaxText+1), "amount.long"},
	{strings.Repeat("🍎", 3_000_000), "amount.long"}, // 12 MB
}

func TestReadRefuses(t *testing.T) {
	for _, tt := range badTests {
		r, err := Read(tt.text)
		p := new(say.Problem)
		if !errors.As(err, &p) {
			t.Errorf("%.40q: read as %s, want the problem %s", tt.text, r.Quantity, tt.id)
			continue
		}
		if p.ID != tt.id {
			t.Errorf("%.40q: %s, want %s", tt.text, p.ID, tt.id)
		}
		for _, arg := range p.Args {
			if s, ok := arg.(string); ok && len([]rune(s)) > 41 {
				t.Errorf("%.40q: the sentence would quote %d letters", tt.text, len([]rune(s)))
			}
		}
	}
}

func TestReadNumber(t *testing.T) {
	if r, err := ReadNumber("2 1/2"); err != nil || r.Amount.Best.String() != "5/2" {
		t.Errorf("%s, %v", r.Quantity, err)
	}
	_, err := ReadNumber("2 cups")
	if p, ok := err.(*say.Problem); !ok || p.ID != "amount.not-a-number" {
		t.Errorf("a unit must be refused: %v", err)
	}
}

func TestReadPrefixLeavesTheRest(t *testing.T) {
	for _, tt := range []struct {
		text, best, rest string
		unit             Unit
	}{
		{"2 halves", "2", "halves", NoUnit},
		{"2 cups, drained", "2", ", drained", Cup},
		{"1 can", "1", "can", NoUnit}, // not 1 c
		{"1 T-bone", "1", "T-bone", NoUnit},
		{"5 G21", "5", "G21", NoUnit},
		{"64 fl oz/1/2 GAL", "64", "/1/2 GAL", FlOz},
		{"3 large", "3", "large", NoUnit}, // not 3 l
		{"4 g's", "4", "g's", NoUnit},
	} {
		r, rest, err := ReadPrefix(tt.text)
		if err != nil || r.Amount.Best.String() != tt.best || rest != tt.rest || r.Unit != tt.unit {
			t.Errorf("%q: %s, rest %q, %v", tt.text, r.Quantity, rest, err)
		}
	}
	if _, _, err := ReadPrefix(strings.Repeat("1", MaxText+1)); err == nil {
		t.Error("a text over the limit must be refused")
	}
}

func TestReadUnit(t *testing.T) {
	for text, want := range map[string]Unit{"cup": Cup, "T": Tbsp, "t": Tsp, "Tbsp.": Tbsp, "Fl. Oz.": FlOz, " oz ": Oz, "c": Cup, "C": Cup, "LBS": Lb} {
		if u, ok := ReadUnit(text); !ok || u != want {
			t.Errorf("%q: %q, %v", text, u.ID(), ok)
		}
	}
	for _, text := range []string{"", "cupful of", "meter", "x", "cups and", "🥛"} {
		if u, ok := ReadUnit(text); ok {
			t.Errorf("%q: read as %q", text, u.ID())
		}
	}
}
