package label

import (
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/say"
)

var netTests = []struct{ text, want, flags string }{
	{"NET WT 15 OZ (425g)", "425 g", ""},
	{"Net Wt. 15 oz. (425 g)", "425 g", ""},
	{"425 g", "425 g", ""},
	{"15 oz", "425.243 g", ""}, // no nutrition label: 28.349523125 g an ounce
	{"1 LB 6 OZ (624 g)", "624 g", ""},
	{"1 LB/6 OZ/624 g", "624 g", ""},
	{"1 LB 6 OZ", "623.69 g", ""},
	{"1 lbs/16 oz/454 g", "454 g", ""},
	{"16 oz/1 lbs/454 g", "454 g", ""},
	{"1 lb (16 oz)", "453.592 g", ""},
	{"2.25 lbs", "1020.583 g", ""},
	{"9 5/8 oz (272 g)", "272 g", ""},
	{"1.19 KGM", "1190 g", ""},
	{"10 LBR", "4535.924 g", ""},
	{"848 GRM", "848 g", ""},
	{"64 fl oz/1/2 GAL/1.89 L", "1890 ml", ""},
	{"12 FL OZ (355 mL)", "355 ml", ""},
	{"46 OZA", "1360.382 ml", ""},
	{"32 OZ/946 ML", "946 ml", ""},
	{"3.785 LTR", "3785 ml", ""},
	{"1 GAL/3.78 L", "3780 ml", ""},
	{"52 fl oz/1.63 Quart/1.54 ", "1537.824 ml", ""},
	{"NET WT 6 OZ (170 g) DRAINED WT 4 OZ (113 g)", "170 g drained 113 g", ""},
	{"6 x 4 oz (680 g)", "680 g of 6", ""},
	{"6 x 4 oz (113 g)", "678 g of 6", ""},
	{"6 x 4 oz", "680.389 g of 6", ""},
	{"4 ct / 15 oz", "425.243 g of 4", "label.net-count"},
	{"8 ct / 15 oz", "425.243 g of 8", "label.net-count"},
	{"722 OZ/205 g", "205 g", "label.net-point"},
	{"4.93 kg/411 g", "4930 g", "label.net-differs"},
	{"10 oz (400 g)", "400 g", "label.net-differs"},
	{"1 0Z/28.35 g", "28.35 g", ""},
}

func netText(n Net) string {
	var t []string
	add := func(a amount.Amount, unit string) {
		s, _ := amount.Decimal(a.Best, 3)
		t = append(t, s+" "+unit)
	}
	if n.HasWeight {
		add(n.Weight, "g")
	}
	if n.HasVolume {
		add(n.Volume, "ml")
	}
	if n.HasDrained {
		t = append(t, "drained")
		add(n.Drained, "g")
	}
	if n.Count.Sign() > 0 {
		t = append(t, "of "+n.Count.String())
	}
	return strings.Join(t, " ")
}

func TestReadNet(t *testing.T) {
	for _, tt := range netTests {
		n, err := ReadNet(tt.text)
		var ids []string
		for _, f := range n.Flags {
			ids = append(ids, f.ID)
		}
		if got := netText(n); err != nil || got != tt.want || strings.Join(ids, ";") != strings.TrimSuffix(tt.flags, "") {
			t.Errorf("%q: %s %v, %v; want %s %s", tt.text, got, ids, err, tt.want, tt.flags)
		}
	}
}

func TestReadNetRefuses(t *testing.T) {
	for _, tt := range []struct{ text, id string }{
		{"", "label.net-empty"},
		{"net weight", "label.net-none"},
		{"12 cans", "label.net-none"},
		{"🥫", "label.net-none"},
		{"0 oz", "label.net-zero"},
		{"-5 g", "amount.negative"},
		{"1/0 lb", "amount.over-zero"},
		{"60 kg", "label.net-huge"},
		{strings.Repeat("15 oz ", 1_000_000), "label.net-long"},
	} {
		_, err := ReadNet(tt.text)
		if p, ok := err.(*say.Problem); !ok || p.ID != tt.id {
			t.Errorf("%.30q: %v, want %s", tt.text, err, tt.id)
		}
	}
}
