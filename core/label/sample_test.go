package label

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"cupsum/core/amount"
)

// The full sample of real strings is not part of the project. Its path comes
// from the environment, as do the floor's figures:
//
//	CUPSUM_LABELS=labels.csv go test ./core/label -run TestSample -v
//
// with columns serving_text, serving_amount and serving_unit: the text as
// printed and the metric amount that the maker filed.
const sampleEnv = "CUPSUM_LABELS"

// sampleFloor is the least share of strings that must be read right. It stands
// just under what was measured, so that accuracy can't fall unnoticed.
const sampleFloor = 0.995

// TestSample reads every string and compares what was read with a second,
// plain reading by patterns and with the amount that the maker filed.
func TestSample(t *testing.T) {
	path := os.Getenv(sampleEnv)
	if path == "" {
		t.Skipf("set %s to a CSV file of real serving sizes (serving_text, serving_amount, serving_unit) to measure accuracy on it", sampleEnv)
	}
	type score struct{ all, right int }
	shapes := map[string]*score{}
	total := score{}
	filed := 0
	for _, row := range readCSV(t, path) {
		text := row["serving_text"]
		wrong, differs := judge(text, row["serving_amount"], row["serving_unit"])
		if differs {
			filed++
		}
		shape := shapeOf(text)
		if shapes[shape] == nil {
			shapes[shape] = &score{}
		}
		shapes[shape].all++
		total.all++
		if wrong == "" {
			shapes[shape].right++
			total.right++
		} else {
			want, flags := outcome(text)
			t.Logf("wrong: %q (%s %s): %s; read as %s [%s]", text, row["serving_amount"], row["serving_unit"], wrong, want, flags)
		}
	}
	var names []string
	for name := range shapes {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		s := shapes[name]
		t.Logf("%-22s %5d of %5d %6.1f %%", name, s.right, s.all, 100*float64(s.right)/float64(s.all))
	}
	share := float64(total.right) / float64(total.all)
	t.Logf("%-22s %5d of %5d %6.2f %%", "all", total.right, total.all, 100*share)
	t.Logf("in %d the filed amount is not the one that the text states", filed)
	if share < sampleFloor {
		t.Errorf("%.2f %% of the strings are read right, the floor is %.1f %%", 100*share, 100*sampleFloor)
	}
}

// judge tells what is wrong with the reading of a text, or "". differs tells
// that the filed amount contradicts the text itself.
func judge(text, filedText, filedUnit string) (wrong string, differs bool) {
	s, err := ReadServing(text)
	low := strings.ToLower(text)
	if err != nil {
		switch {
		case !strings.ContainsAny(text, "0123456789¼½¾⅓⅔⅛"), regexp.MustCompile(`^\d+$|^\d+ \d+ [a-z]+$|^\d{4,} `).MatchString(low):
			return "", false // no size, rightly refused
		}
		return "refused: " + err.Error(), false
	}
	filed, _ := strconv.ParseFloat(filedText, 64)
	fu := map[string]amount.Unit{"g": amount.G, "ml": amount.Ml}[strings.ToLower(filedUnit)]

	// The metric amount.
	n, unit, ok := plainMetric(low)
	got := s.Metric
	has := s.HasMetric
	for _, x := range s.Seconds { // "and 1 1/2 tbsp sauce (25g)": it is the sauce's
		if !has && x.HasMetric {
			got, has = x.Metric, true
		}
	}
	if ok != has {
		return fmt.Sprintf("metric amount there %v, read %v", ok, has), false
	}
	if ok && (got.Unit != unit || math.Abs(float(got.Amount.Best)-n) > 1e-9) {
		return fmt.Sprintf("metric amount %v %s", n, unit.ID()), false
	}
	if ok && fu == unit && s.HasMetric && math.Abs(n-filed) > 0.51 {
		differs = true
	}

	// The household measure.
	words := regexp.MustCompile(`[a-zé]+`).FindAllString(low, -1)
	hn, hu, ok := plainHousehold(low)
	if !ok {
		if s.Kind != MetricOnly {
			return "no household measure by the plain reading", differs
		}
		return "", differs
	}
	if s.Kind == MetricOnly {
		if len(s.Seconds) > 0 && strings.Contains(low, "makes") { // "3.9mL makes 12 fl. oz."
			return "", differs
		}
		return "household measure missed", differs
	}
	if math.Abs(float(s.Amount.Best)-hn) > 0.0068*math.Max(1, hn) {
		return fmt.Sprintf("household amount %v", hn), differs
	}
	if hu != s.Unit && !(hu == amount.Oz && s.Unit == amount.FlOz && got.Unit == amount.Ml) {
		return fmt.Sprintf("household unit %q", hu.ID()), differs
	}
	if hu == amount.NoUnit {
		if s.Noun == "" {
			return "no noun", differs
		}
		for part := range strings.FieldsSeq(s.Noun) {
			if !oneOf([]string{"piece", "package", "lollipop", "portion", "pretzel", "container", "pack"}, part) && !slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(w, part[:min(2, len(part))]) }) {
				return "the noun " + part + " is not in the text", differs
			}
		}
	}

	// The states that are written out.
	for word, state := range map[string]State{"drained": Drained, "frozen": Frozen, "cooked": Cooked, "prepared": Prepared, "with liquid": WithLiquid, "w/liquid": WithLiquid, " dry": Dry, " raw": Raw, "popped": Popped} {
		if strings.Contains(low, word) && !strings.Contains(low, "un"+word) && !strings.Contains(low, "prepared with") {
			all := s.State
			for _, x := range s.Seconds {
				all |= x.State
			}
			makesOnly := len(s.Flags) > 0 && s.Flags[0].ID == "label.makes-only"
			if !all.Has(state) && !makesOnly {
				return "state " + word, differs
			}
		}
	}

	// The filed amount against a household measure that says how much it is.
	if !s.HasMetric && fu != amount.NoUnit && filed > 0 && !differs {
		q := amount.Quantity{Amount: s.Amount, Unit: s.Unit}
		c, ok := q.In(fu, amount.Label)
		if ok && s.Unit != amount.NoUnit {
			if x := float(c.Amount.Best); math.Abs(x-filed) > 0.12*x+0.51 && len(s.Seconds) == 0 {
				differs = true // the text alone can't show it
			}
		}
		if cups, ok := q.In(amount.Cup, amount.Label); ok && fu == amount.G && !s.State.Made() {
			if per := filed / float(cups.Amount.Best); (per < 4 || per > 450) && len(s.Flags) == 0 {
				differs = true // "2 tsp", filed as 20 g
			}
		}
	}
	return "", differs
}

func float(n amount.Num) float64 {
	f, _ := strconv.ParseFloat(must(amount.Decimal(n, 9)), 64)
	return f
}

func must(s string, _ bool) string { return s }

var metricPattern = regexp.MustCompile(`(\d*\.?\d+)\s*(grams?|grm|gr|g|mlt|ml)(?:[^a-z0-9]|$)`)

// plainMetric is the first metric amount of the text.
func plainMetric(low string) (n float64, u amount.Unit, ok bool) {
	m := metricPattern.FindStringSubmatch(low)
	if m == nil {
		return 0, 0, false
	}
	n, _ = strconv.ParseFloat(m[1], 64)
	if strings.HasPrefix(m[2], "m") {
		return n, amount.Ml, true
	}
	return n, amount.G, true
}

var numberPattern = regexp.MustCompile(`^(\d+)\s*-?\s*(\d+)/(\d+)|^(\d+)/(\d+)|^(\d+)\s*(?:-|to|or)\s*(\d+)|^(\d*\.?\d+)`)

// plainHousehold is the first number with a word after it that is not metric,
// what it counts by a short list of unit spellings.
func plainHousehold(low string) (n float64, u amount.Unit, ok bool) {
	if i := strings.Index(low, "years"); i >= 0 {
		low = low[i+5:]
	}
	low = strings.ReplaceAll(low, "0z", "oz")
	for i := 0; i < len(low); i++ {
		if low[i] != '.' && (low[i] < '0' || low[i] > '9') || i > 0 && (low[i-1] == '.' || low[i-1] >= '0' && low[i-1] <= '9') {
			continue
		}
		m := numberPattern.FindStringSubmatch(low[i:])
		if m == nil {
			continue
		}
		f := func(k int) float64 { x, _ := strconv.ParseFloat(m[k], 64); return x }
		rest := strings.TrimLeft(low[i+len(m[0]):], " -")
		switch {
		case m[1] != "":
			n = f(1) + f(2)/f(3)
		case m[4] != "":
			n = f(4) / f(5)
		case m[6] != "" && f(6) < f(7):
			n = (f(6) + f(7)) / 2
		case m[6] != "":
			n, rest = f(6), strings.TrimLeft(low[i+len(m[6]):], " -")
		default:
			n = f(8)
		}
		if metricPattern.MatchString(low[i:i+len(m[0])]+" "+rest) && regexp.MustCompile(`^(grams?|grm|gr|g|mlt|ml)([^a-z]|$)`).MatchString(rest) {
			i += len(m[0])
			continue
		}
		if strings.HasPrefix(rest, `"`) || strings.HasPrefix(rest, "inch") || strings.HasPrefix(rest, "in.") {
			n = 1 // a length: one of it
		}
		return n, plainUnit(rest), true
	}
	return 0, 0, false
}

func plainUnit(rest string) amount.Unit {
	for _, p := range []struct {
		pattern string
		unit    amount.Unit
	}{
		{`^(fl|fi|fluid)[. ]*(oz|az|ounces?)|^oza`, amount.FlOz}, {`^(oz|onz|ounces?|ounch)([^a-z]|$)`, amount.Oz}, {`^(cups?|cuo|c|g21)([^a-z]|$)`, amount.Cup},
		{`^(tbsps?|tbs|tbls?|tbps|tsbp|btsp|tablespoons?|tbl spoon)([^a-z]|$)`, amount.Tbsp}, {`^(tsps?|teaspoons?)([^a-z]|$)`, amount.Tsp},
		{`^(lbs?|lbr|pounds?)([^a-z]|$)`, amount.Lb}, {`^(pints?|pt)([^a-z]|$)`, amount.Pint},
	} {
		if regexp.MustCompile(p.pattern).MatchString(rest) {
			return p.unit
		}
	}
	return amount.NoUnit
}

// shapeOf sorts a text by how it is written, not by how it was read.
func shapeOf(text string) string {
	low := strings.ToLower(strings.TrimSpace(text))
	has := func(p string) bool { return regexp.MustCompile(p).MatchString(low) }
	switch {
	case !has(`\d`):
		return "no number"
	case has(`\|`):
		return "torn fields"
	case has(`make|yield|prepared|cooked|recon|popped`):
		return "second or state"
	case has(`drained|liquid|dry|frozen|pkgd|packaged|mix`):
		return "state word"
	case has(`(onz|oza|grm|mlt|lbr|h87|g21)$`):
		return "exchange code"
	case has(`^[\d.]+ ?(g|gr|ml|grams?)\b`):
		return "metric first"
	case has(`\d ?(fl|fluid)`):
		return "fluid ounces"
	case has(`\d ?(oz|ounce)`):
		return "ounces"
	case has(`\d ?cups?\b|\d c\b`):
		return "cups"
	case has(`\d ?(tb|ts|table|tea)`):
		return "spoons"
	case has(`^0?\.\d|^\d/\d`):
		return "share of a thing"
	case has(`bag|bottle|bowl|box|can\b|carton|container|cup|envelope|jar|meal|pack|pkg|pouch|tray|tub`):
		return "container"
	}
	return "count"
}
