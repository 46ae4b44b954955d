package second_test

import (
	"encoding/csv"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strings"
)

// The tables as this package needs them, read from the CSV files themselves
// and not from what the generator packed.

type (
	// A foodRow is one food: its group, its subgroup and its forms in the
	// order of the tables.
	foodRow struct {
		id, group, sub string
		forms          []*formRow
	}

	// A formRow is one row of forms/*.csv; nil where a column is empty.
	formRow struct {
		food            *foodRow
		form, class     string
		eqCup, eq100    *big.Rat
		gCup            *span // one measured cup
		gLabelCup       *big.Rat
		drained         *span // share of the net weight
		cooked          *big.Rat
		edible          *big.Rat
		pieces          []*pieceRow
		parts           []partRow
		canBePouredFrom bool // the form comes in a liquid
	}

	pieceRow struct {
		id    string
		g     *big.Rat // nil: not known
		count *big.Rat
		eq    *span // nil: no table says
	}

	partRow struct {
		group, sub, class string
		eq100             *big.Rat
	}

	// A oneRow is one row of crediting.csv.
	oneRow struct {
		group, sub, per string
		factor          *big.Rat
		cooked          bool
	}

	targetRow struct {
		group, sub string
		low, high  *big.Rat // nil: none
		unit       string
		daily      bool
		part       string
	}

	handRow struct {
		unit  string
		holds span
		least *big.Rat
		most  *big.Rat
	}

	unitRow struct {
		kind string
		size *big.Rat // ml or g, US customary
	}

	book struct {
		foods   []*foodRow
		byID    map[string]*foodRow
		ones    map[string][]oneRow // by edition and class: "dga-2020 legume"
		sets    []string
		edition map[string]string // of a set
		targets map[string][]targetRow
		hands   map[string]handRow
		handIDs []string
		units   map[string]unitRow
	}
)

// A span is a quantity with its low end, best guess and high end.
type span struct{ lo, best, hi *big.Rat }

func exactly(x *big.Rat) span { return span{x, x, x} }

func (s span) times(t span) span {
	return span{mul(s.lo, t.lo), mul(s.best, t.best), mul(s.hi, t.hi)}
}

func (s span) over(t span) span {
	return span{div(s.lo, t.hi), div(s.best, t.best), div(s.hi, t.lo)}
}

func (s span) by(k *big.Rat) span { return s.times(exactly(k)) }

func (s span) plus(t span) span {
	return span{add(s.lo, t.lo), add(s.best, t.best), add(s.hi, t.hi)}
}

// atMost is s with no end above the limit.
func (s span) atMost(limit *big.Rat) span {
	return span{least(s.lo, limit), least(s.best, limit), least(s.hi, limit)}
}

func (s span) String() string {
	return fmt.Sprintf("%s..%s..%s", s.lo.RatString(), s.best.RatString(), s.hi.RatString())
}

func add(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
func sub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
func div(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }
func frac(n, d int64) *big.Rat   { return big.NewRat(n, d) }

func least(a, b *big.Rat) *big.Rat {
	if b.Cmp(a) < 0 {
		return b
	}
	return a
}

var nought = new(big.Rat)

// number reads a table's number: "1/2", "2 1/2", "0.75", "113"; nil is empty.
func number(text string) *big.Rat {
	if text = strings.TrimSpace(text); text == "" {
		return nil
	}
	sum := new(big.Rat)
	for _, word := range strings.Fields(text) {
		x, ok := new(big.Rat).SetString(word)
		if !ok {
			panic("not a number in a table: " + text)
		}
		sum.Add(sum, x)
	}
	return sum
}

func rows(pattern string) []map[string]string {
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		panic("no table at " + pattern)
	}
	var all []map[string]string
	for _, name := range files {
		file, err := os.Open(name)
		if err != nil {
			panic(err)
		}
		lines, err := csv.NewReader(file).ReadAll()
		file.Close()
		if err != nil {
			panic(name + ": " + err.Error())
		}
		for _, line := range lines[1:] {
			row := map[string]string{}
			for i, head := range lines[0] {
				row[head] = line[i]
			}
			all = append(all, row)
		}
	}
	return all
}

// spanOf makes a span of three columns, the best one standing in for an end
// that is empty; nil where all are.
func spanOf(low, best, high string) *span {
	b := number(best)
	if b == nil {
		return nil
	}
	s := exactly(b)
	if x := number(low); x != nil {
		s.lo = x
	}
	if x := number(high); x != nil {
		s.hi = x
	}
	return &s
}

func readBook() *book {
	b := &book{
		byID: map[string]*foodRow{}, ones: map[string][]oneRow{}, edition: map[string]string{},
		targets: map[string][]targetRow{}, hands: map[string]handRow{}, units: map[string]unitRow{},
	}
	readFoods(b)
	for _, r := range rows("../../guide/data/crediting.csv") {
		key := r["edition"] + " " + r["class"]
		b.ones[key] = append(b.ones[key], oneRow{
			group: r["group"], sub: r["subgroup"], per: r["per"],
			factor: number(r["factor"]), cooked: r["cooked"] == "yes",
		})
	}
	for _, r := range rows("../../guide/data/sets.csv") {
		b.sets = append(b.sets, r["id"])
		b.edition[r["id"]] = r["edition"]
	}
	for _, r := range rows("../../guide/data/targets.csv") {
		b.targets[r["set"]] = append(b.targets[r["set"]], targetRow{
			group: r["group"], sub: r["subgroup"], part: r["part"], unit: r["unit"],
			low: number(r["low"]), high: number(r["high"]), daily: r["period"] == "day",
		})
	}
	for _, r := range rows("../../guide/data/hands.csv") {
		b.hands[r["id"]] = handRow{
			unit: r["unit"], holds: *spanOf(r["low"], r["best"], r["high"]),
			least: number(r["least"]), most: number(r["most"]),
		}
		b.handIDs = append(b.handIDs, r["id"])
	}
	for _, r := range rows("../../amount/data/units.csv") {
		b.units[r["id"]] = unitRow{r["kind"], number(r["customary"])}
	}
	return b
}

func readFoods(b *book) {
	for _, r := range rows("../../food/data/foods/*.csv") {
		f := &foodRow{id: r["id"], group: r["group"], sub: r["subgroup"]}
		b.foods = append(b.foods, f)
		b.byID[f.id] = f
	}
	form := map[string]*formRow{}
	for _, r := range rows("../../food/data/forms/*.csv") {
		f := b.byID[r["food"]]
		d := &formRow{
			food: f, form: r["form"], class: r["class"],
			eqCup: third(number(r["eq_cup"])), eq100: number(r["eq_100g"]),
			gCup:      spanOf(r["g_cup_low"], r["g_cup"], r["g_cup_high"]),
			gLabelCup: number(r["g_label_cup"]),
			cooked:    percent(r["cooked_g"]), edible: percent(r["edible"]),
			canBePouredFrom: strings.HasPrefix(r["form"], "canned"),
		}
		if d.drained = spanOf(r["drained_low"], r["drained"], r["drained_high"]); d.drained != nil {
			*d.drained = d.drained.by(frac(1, 100))
		}
		f.forms = append(f.forms, d)
		form[r["food"]+" "+r["form"]] = d
	}
	for _, r := range rows("../../food/data/pieces/*.csv") {
		p := &pieceRow{
			id: r["piece"], g: number(r["g"]), count: number(r["count"]),
			eq: spanOf(r["eq_low"], r["eq"], r["eq_high"]),
		}
		if p.count == nil {
			p.count = frac(1, 1)
		}
		d := form[r["food"]+" "+r["form"]]
		d.pieces = append(d.pieces, p)
	}
	for _, r := range rows("../../food/data/parts/*.csv") {
		d := form[r["food"]+" "+r["form"]]
		d.parts = append(d.parts, partRow{r["group"], r["subgroup"], r["class"], number(r["eq_100g"])})
	}
}

// third reads 1.333 as what it was rounded from (rule snap-thirds).
func third(x *big.Rat) *big.Rat {
	if x == nil {
		return nil
	}
	three := mul(x, frac(3, 1))
	near := whole(three)
	if off := sub(three, near); !x.IsInt() && off.Abs(off).Cmp(frac(1, 100)) <= 0 {
		return div(near, frac(3, 1))
	}
	return x
}

func percent(text string) *big.Rat {
	x := number(text)
	if x == nil {
		return nil
	}
	return div(x, frac(100, 1))
}

func most(x, y *big.Rat) *big.Rat {
	if x.Cmp(y) > 0 {
		return x
	}
	return y
}
