//go:build oracles

package amount

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"strconv"
	"testing"
)

// The oracles are three libraries written by others, run under Node:
//
//	cd testdata/oracles && npm ci --ignore-scripts
//	go test -tags oracles -run Oracles ./core/amount

type oracleCases struct {
	Arithmetic []oracleSum  `json:"arithmetic"`
	Texts      []string     `json:"texts"`
	Units      []oracleUnit `json:"units"`
}

type oracleSum struct {
	Op string `json:"op"`
	X  string `json:"x"`
	Y  string `json:"y"`
}

type oracleUnit struct {
	From string `json:"from"`
	To   string `json:"to"`
}

type oracleAnswers struct {
	Arithmetic []string   `json:"arithmetic"`
	Texts      []*float64 `json:"texts"`
	Units      []float64  `json:"units"`
}

// oracleNames are convert-units' names of our units, all US customary.
var oracleNames = []struct {
	unit Unit
	name string
}{
	{Cup, "cup"}, {Tbsp, "Tbs"}, {Tsp, "tsp"}, {FlOz, "fl-oz"}, {Pint, "pnt"}, {Quart, "qt"}, {Gallon, "gal"}, {Ml, "ml"}, {L, "l"},
	{G, "g"}, {Kg, "kg"}, {Oz, "oz"}, {Lb, "lb"},
}

func TestOracles(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	var cases oracleCases
	var wants []string
	ops := map[string]func(x, y Num) string{
		"add":   func(x, y Num) string { return x.Add(y).String() },
		"sub":   func(x, y Num) string { return x.Sub(y).String() },
		"mul":   func(x, y Num) string { return x.Mul(y).String() },
		"quo":   func(x, y Num) string { return x.Quo(y).String() },
		"cmp":   func(x, y Num) string { return strconv.Itoa(x.Cmp(y)) },
		"floor": func(x, y Num) string { return x.FloorRound(y).String() },
	}
	for range 3000 {
		x, y := Frac(r.Int64N(20001)-10000, r.Int64N(999)+1), Frac(r.Int64N(5000)+1, r.Int64N(96)+1)
		if r.IntN(10) == 0 { // beyond two machine words
			x = x.Mul(Frac(r.Int64()|1, 7)).Mul(Frac(r.Int64()|1, 11))
		}
		for _, op := range []string{"add", "sub", "mul", "quo", "cmp", "floor"} {
			cases.Arithmetic = append(cases.Arithmetic, oracleSum{op, x.String(), y.String()})
			wants = append(wants, ops[op](x, y))
		}
	}
	for _, tt := range readTests {
		if tt.unit == NoUnit && tt.flags == "" {
			cases.Texts = append(cases.Texts, tt.text)
		}
	}
	for range 1500 {
		cases.Texts = append(cases.Texts, writtenNumber(r))
	}
	type pair struct{ from, to Unit }
	var pairs []pair
	for _, a := range oracleNames {
		for _, b := range oracleNames {
			if a.unit.Kind() == b.unit.Kind() {
				cases.Units = append(cases.Units, oracleUnit{a.name, b.name})
				pairs = append(pairs, pair{a.unit, b.unit})
			}
		}
	}
	answers := askOracles(t, cases)
	for i, c := range cases.Arithmetic {
		if answers.Arithmetic[i] != wants[i] {
			t.Errorf("%s %s %s: fraction.js has %s, we %s", c.X, c.Op, c.Y, answers.Arithmetic[i], wants[i])
		}
	}
	compareTexts(t, cases.Texts, answers.Texts)
	for i, p := range pairs {
		q, _ := Quantity{Exactly(Int(1)), p.from}.In(p.to, Customary)
		ours, theirs := toFloat(q.Amount.Best), answers.Units[i]
		// Its factors have about seven good digits.
		if math.Abs(ours-theirs) > 1e-6*ours {
			t.Errorf("1 %s is %v %s to convert-units, %v to us", p.from.ID(), theirs, p.to.ID(), ours)
		}
	}
	t.Logf("%d sums by fraction.js, %d texts by numeric-quantity, %d factors by convert-units", len(cases.Arithmetic), len(cases.Texts), len(pairs))
}

// textExceptions are texts that we read otherwise than numeric-quantity, which
// by default takes a comma for a thousands mark and reads no rounded thirds.
var textExceptions = map[string]string{
	"2,5":     "decimal comma",
	",5":      "decimal comma",
	"0,125":   "decimal comma",
	"2-1/4":   "a hyphen in a mixed number",
	"2 - 1/4": "a hyphen in a mixed number",
}

func compareTexts(t *testing.T, texts []string, answers []*float64) {
	t.Helper()
	for i, text := range texts {
		r, err := Read(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		ours := toFloat(r.Amount.Best)
		same := answers[i] != nil && math.Abs(ours-*answers[i]) < 1e-9*math.Max(1, ours)
		if why, listed := textExceptions[text]; listed {
			if same {
				t.Errorf("%q is listed as an exception (%s) but both read %v", text, why, ours)
			}
			continue
		}
		if !same && !r.Snapped {
			t.Errorf("%q: we read %v, numeric-quantity %v", text, ours, answers[i])
		}
	}
}

// writtenNumber writes a number as people do.
func writtenNumber(r *rand.Rand) string {
	whole := strconv.Itoa(r.IntN(60))
	d := []int{2, 3, 4, 5, 6, 8, 12, 16}[r.IntN(8)]
	frac := strconv.Itoa(r.IntN(d-1)+1) + "/" + strconv.Itoa(d)
	vulgar := []string{"½", "⅓", "⅔", "¼", "¾", "⅕", "⅖", "⅗", "⅘", "⅙", "⅚", "⅛", "⅜", "⅝", "⅞"}[r.IntN(15)]
	switch r.IntN(8) {
	case 0:
		return whole
	case 1:
		return frac
	case 2:
		return whole + " " + frac
	case 3:
		return whole + vulgar
	case 4:
		return whole + " " + vulgar
	case 5:
		return vulgar
	case 6:
		return whole + "." + strconv.Itoa(r.IntN(1000))
	}
	return "." + strconv.Itoa(r.IntN(1000))
}

func toFloat(n Num) float64 {
	f, _ := n.rat().Float64()
	return f
}

func askOracles(t *testing.T, cases oracleCases) oracleAnswers {
	t.Helper()
	in, err := json.Marshal(cases)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("node", "amounts.mjs")
	cmd.Dir = "../../testdata/oracles"
	cmd.Stdin = bytes.NewReader(in)
	var errText bytes.Buffer
	cmd.Stderr = &errText
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v (run npm ci --ignore-scripts in testdata/oracles first)\n%s", err, errText.String())
	}
	var a oracleAnswers
	if err := json.Unmarshal(out, &a); err != nil {
		t.Fatal(err)
	}
	if len(a.Arithmetic) != len(cases.Arithmetic) || len(a.Texts) != len(cases.Texts) || len(a.Units) != len(cases.Units) {
		t.Fatal("the oracles did not answer every case")
	}
	return a
}
