package label

import (
	"strings"

	"cupsum/core/amount"
)

// describe puts a serving in one line, as testdata/strings.csv has it:
//
//	kind: about 1/2 cup (drained) | 130 g | makes 3/4 cup (cooked) | 6 servings
func describe(s Serving) string {
	parts := []string{strings.TrimSpace(s.Kind.String() + ": " + measureText(s.Measure))}
	if s.HasMetric {
		parts = append(parts, s.Metric.String())
	}
	for _, x := range s.Seconds {
		t := x.Relation.String() + " " + measureText(x.Measure)
		if x.HasMetric {
			t += " = " + x.Metric.String()
		}
		parts = append(parts, t)
	}
	if s.Servings.High.Sign() > 0 {
		parts = append(parts, s.Servings.String()+" servings")
	}
	return strings.Join(parts, " | ")
}

func measureText(m Measure) string {
	var t []string
	if m.About {
		t = append(t, "about")
	}
	if m.Amount.High.Sign() > 0 {
		t = append(t, m.Amount.String())
	}
	if m.Unit != amount.NoUnit {
		t = append(t, m.Unit.ID())
	}
	if m.Size != "" {
		t = append(t, m.Size)
	}
	if m.Noun != "" {
		t = append(t, m.Noun)
	}
	if m.State != 0 {
		t = append(t, "("+m.State.String()+")")
	}
	return strings.Join(t, " ")
}

// outcome is describe, or the problem's id for what was refused, and the ids
// of the flags.
func outcome(text string) (want, flags string) {
	s, err := ReadServing(text)
	if err != nil {
		id, _, _ := strings.Cut(err.Error(), "(")
		return "refused " + id, ""
	}
	ids := make([]string, len(s.Flags))
	for i, f := range s.Flags {
		ids[i] = f.ID
	}
	return describe(s), strings.Join(ids, ";")
}
