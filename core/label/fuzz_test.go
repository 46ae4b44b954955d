package label

import (
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/say"
)

// mustBeProblem sees to it that an error is a sentence for a person.
func mustBeProblem(t *testing.T, text string, err error) {
	t.Helper()
	if p, ok := err.(*say.Problem); !ok || p.ID == "" {
		t.Fatalf("%q: the error %v is no problem with a sentence", text, err)
	}
}

func mustBeOrdered(t *testing.T, text string, a amount.Amount) {
	t.Helper()
	if a.Low.Sign() < 0 || a.Best.Less(a.Low) || a.High.Less(a.Best) {
		t.Fatalf("%q: the range %s is out of order", text, a)
	}
}

// FuzzReadServing: any text is read to something that says how much, or gets a
// problem; what was read holds together and can be asked for its cups.
func FuzzReadServing(f *testing.F) {
	for _, row := range ownStrings(f) {
		f.Add(row["text"])
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := ReadServing(text)
		if err != nil {
			mustBeProblem(t, text, err)
			return
		}
		mustBeOrdered(t, text, s.Amount)
		mustBeOrdered(t, text, s.Metric.Amount)
		switch {
		case s.Kind == MetricOnly && (!s.HasMetric || !s.Amount.IsZero()):
			t.Fatalf("%q: metric only, without a metric amount or with another: %s", text, describe(s))
		case s.Kind != MetricOnly && s.Amount.High.Sign() == 0:
			t.Fatalf("%q: a household measure of zero: %s", text, describe(s))
		case s.HasMetric && s.Metric.Unit != amount.G && s.Metric.Unit != amount.Ml:
			t.Fatalf("%q: metric amount in %q", text, s.Metric.Unit.ID())
		case (s.Kind == ByPiece || s.Kind == ByContainer || s.Kind == ByShare) && (s.Noun == "" || s.Unit != amount.NoUnit):
			t.Fatalf("%q: counts nothing: %s", text, describe(s))
		}
		for _, x := range s.Seconds {
			mustBeOrdered(t, text, x.Amount)
		}
		for _, per := range []amount.Amount{{}, amount.Between(amount.Int(150), amount.Int(200), amount.Int(250))} {
			cups, steps, _, err := s.Cups(per)
			if err != nil {
				mustBeProblem(t, text, err)
			} else if mustBeOrdered(t, text, cups); len(steps) == 0 || cups.High.Sign() == 0 {
				t.Fatalf("%q: %s cups with %d steps", text, cups, len(steps))
			}
			if g, _, err := s.Grams(per); err == nil {
				mustBeOrdered(t, text, g)
			}
		}
	})
}

// FuzzReadServings: a number of servings is above zero, at most MaxServings
// and near the printed one.
func FuzzReadServings(f *testing.F) {
	for _, tt := range servingsTests {
		f.Add(tt.text)
	}
	for _, text := range []string{"", "0", "-1", "3 cups", "Varied", "1/0", "🥫", "about", "9999"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, m, err := ReadServings(text)
		if err != nil {
			mustBeProblem(t, text, err)
			return
		}
		mustBeOrdered(t, text, a)
		if a.Best.Sign() <= 0 || amount.Int(MaxServings+1).Less(a.High) || !m.Printed.Equal(a.Best) {
			t.Fatalf("%q: %s servings, printed %s", text, a, m.Printed)
		}
	})
}

// FuzzReadNet: a net quantity is above zero and bounded.
func FuzzReadNet(f *testing.F) {
	for _, tt := range netTests {
		f.Add(tt.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n, err := ReadNet(text)
		if err != nil {
			mustBeProblem(t, text, err)
			return
		}
		for _, a := range []amount.Amount{n.Weight, n.Volume, n.Drained} {
			mustBeOrdered(t, text, a)
		}
		if !n.HasWeight && !n.HasVolume && !n.HasDrained {
			t.Fatalf("%q: read without an amount", text)
		}
	})
}

// FuzzReadPanel: any pasted text is read or refused, and what was read can be
// checked.
func FuzzReadPanel(f *testing.F) {
	for _, tt := range panelTests {
		f.Add(tt.text)
	}
	for _, tt := range checkTests {
		f.Add(tt.text)
	}
	f.Add(strings.Repeat("sodium 1 mg ", 900))
	f.Fuzz(func(t *testing.T, text string) {
		p, err := ReadPanel(text)
		if err != nil {
			mustBeProblem(t, text, err)
			return
		}
		for _, q := range p.Problems {
			if q.ID == "" || q.Field == "" {
				t.Fatalf("%q: the problem %v names no field", text, q)
			}
		}
		for _, n := range []Nutrient{Sodium, TotalSugars, AddedSugars} {
			if fact, ok := p.Fact(n); ok {
				mustBeOrdered(t, text, fact.Range(n))
			}
		}
		for _, l := range p.Check(Context{AsPacked: grams(240, 250, 260), Drained: grams(150, 160, 180), Typed: p.Servings}) {
			if l.IsZero() {
				t.Fatalf("%q: an empty line", text)
			}
		}
	})
}
