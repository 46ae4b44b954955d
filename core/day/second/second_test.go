package second_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"runtime"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/day"
	"cupsum/core/guide"
	"cupsum/core/portion"
)

const seed = 20260101

// dayCount is how many random days are held against package day: 10,000 as a
// native program, and fewer, the first of the same ones, where that would take
// minutes: under -short and as WebAssembly.
func dayCount() int {
	if testing.Short() || runtime.GOARCH == "wasm" {
		return 500
	}
	return 10_000
}

// A madeDay is a sheet and the numbers that its texts were made of.
type madeDay struct {
	sheet    day.Sheet
	portions []*made
	hands    map[string]span
}

func (m *maker) day(n int) madeDay {
	d := madeDay{hands: map[string]span{}}
	d.sheet.Set = m.book.sets[m.Intn(len(m.book.sets))]
	if m.Intn(50) == 0 {
		d.sheet.Set = "no-such-set" // then the class's own is meant
	}
	if m.Intn(3) == 0 {
		m.ownHands(&d)
	}
	m.sure = m.Intn(3) == 0
	for i := range 1 + m.Intn(n) {
		p := m.portion(i + 1)
		d.portions = append(d.portions, p)
		d.sheet.Portions = append(d.sheet.Portions, p.Portion)
	}
	return d
}

// ownHands measures one or two of a person's hands: a quarter either way then
// (rule hand-own).
func (m *maker) ownHands(d *madeDay) {
	d.sheet.Hands = map[string]string{}
	for range 1 + m.Intn(2) {
		id := m.book.handIDs[m.Intn(len(m.book.handIDs))]
		hand := m.book.hands[id]
		holds := frac(int64(1+m.Intn(16)), 4)
		if holds.Cmp(hand.least) < 0 || holds.Cmp(hand.most) > 0 {
			continue
		}
		text := mixed(holds)
		if m.Intn(2) == 0 {
			text += " " + hand.unit
		}
		d.sheet.Hands[id] = text
		d.hands[id] = span{mul(holds, frac(3, 4)), holds, mul(holds, frac(5, 4))}
	}
}

// mixed writes quarters as people do.
func mixed(x *big.Rat) string {
	n := new(big.Int).Div(x.Num(), x.Denom())
	rest := sub(x, new(big.Rat).SetInt(n))
	switch {
	case rest.Sign() == 0:
		return n.String()
	case n.Sign() == 0:
		return rest.RatString()
	}
	return n.String() + " " + rest.RatString()
}

func (b *book) targetsOf(set string) []targetRow {
	if t, ok := b.targets[set]; ok {
		return t
	}
	return b.targets["class"]
}

func (b *book) editionOf(set string) string {
	if e, ok := b.edition[set]; ok {
		return e
	}
	return b.edition["class"]
}

// differs holds a day against day.Check and says the first thing in which they
// differ, or nothing.
func (b *book) differs(d madeDay) string {
	got := day.Check(d.sheet)
	edition := b.editionOf(d.sheet.Set)
	counted := countedDay{targets: b.targetsOf(d.sheet.Set)}
	var shares split
	for i, p := range d.portions {
		item := got.Items[i]
		if item.Err != nil {
			return fmt.Sprintf("portion %d is refused: %v", i, item.Err)
		}
		want, _ := b.credits(edition, p, d.hands)
		if text := sameCredits(item.Result.Credits, want, p.Side); text != "" {
			return fmt.Sprintf("portion %d: %s", i, text)
		}
		share := rat(item.Vegetable)
		switch both := beans(want) != nil; {
		case both && p.Side == portion.SideVegetable:
			share = frac(1, 1)
		case both && p.Side == portion.SideProtein:
			share = nought
		case both && (share.Sign() < 0 || share.Cmp(frac(1, 1)) > 0):
			return fmt.Sprintf("portion %d: %s of its beans are vegetables", i, share.RatString())
		case !both && share.Sign() != 0:
			return fmt.Sprintf("portion %d has no beans to split and a share of %s", i, share.RatString())
		}
		counted.credits = append(counted.credits, want)
		counted.sides = append(counted.sides, string(p.Side))
		shares = append(shares, share)
	}
	groups, parts := counted.check(shares)
	if len(groups) != len(got.Groups) || len(parts) != len(got.Parts) {
		return fmt.Sprintf("%d groups and %d parts, want %d and %d", len(got.Groups), len(got.Parts), len(groups), len(parts))
	}
	for i, want := range groups {
		g := got.Groups[i]
		if text := sameTotal(want, g.Target, g.Total, g.Verdict, g.Gap, g.Above); text != "" {
			return text
		}
		if !same(g.Juice, want.juice) || g.Capped != want.capped {
			return fmt.Sprintf("%s: juice %v capped %v, want %v %v", want.target.group, g.Juice, g.Capped, want.juice, want.capped)
		}
	}
	for i, want := range parts {
		p := got.Parts[i]
		if text := sameTotal(want, p.Target, p.Total, p.Verdict, p.Gap, p.Above); text != "" {
			return text
		}
	}
	if is, best := counted.worth(shares), counted.bestWorth(shares); best.better(is) {
		return fmt.Sprintf("beans split to %v: %d met, %s missing, %s vegetables; but %d, %s and %s can be had", shares,
			is.met, is.missing.RatString(), is.vegetables.RatString(), best.met, best.missing.RatString(), best.vegetables.RatString())
	}
	return ""
}

func sameTotal(want total, t guide.Target, sum amount.Amount, v day.Verdict, gap, above amount.Num) string {
	name := want.target.group + " " + want.target.sub
	switch {
	case t.Group.ID() != want.target.group || t.Subgroup.ID() != want.target.sub:
		return fmt.Sprintf("%s: stands at the place of %s %s", t.Group.ID(), t.Subgroup.ID(), name)
	case !same(sum, want.amount):
		return fmt.Sprintf("%s: total %v, want %v", name, sum, want.amount)
	case string(v) != want.verdict:
		return fmt.Sprintf("%s: verdict %s for %v, want %s", name, v, sum, want.verdict)
	case rat(gap).Cmp(want.gap) != 0 || rat(above).Cmp(want.above) != 0:
		return fmt.Sprintf("%s: gap %v above %v, want %s %s", name, gap, above, want.gap.RatString(), want.above.RatString())
	}
	return ""
}

// sameCredits compares what a portion counts as, group by group.
func sameCredits(got []portion.Credit, want []credit, side portion.Side) string {
	have, need := map[string]amount.Amount{}, map[string]span{}
	for _, c := range got {
		key := fmt.Sprint(c.Group.ID(), " juice:", c.Juice, " beans:", c.Alt != nil)
		have[key] = have[key].Add(c.Amount)
		if c.Alt != nil {
			have["beans as protein"] = have["beans as protein"].Add(c.Alt.Amount)
		}
	}
	put := func(key string, s span) {
		if old, ok := need[key]; ok {
			s = old.plus(s)
		}
		need[key] = s
	}
	for _, c := range want {
		if c.alt != nil && side == portion.SideProtein {
			c = *c.alt
		}
		if side == portion.SideVegetable {
			c.alt = nil
		}
		put(fmt.Sprint(c.group, " juice:", c.juice, " beans:", c.alt != nil), c.span)
		if c.alt != nil {
			put("beans as protein", c.alt.span)
		}
	}
	for key, s := range need {
		if a, ok := have[key]; !ok || !same(a, s) {
			return fmt.Sprintf("%s counts as %v, want %v", key, a, s)
		}
	}
	if len(have) != len(need) {
		return fmt.Sprintf("counts as %v, want %v", have, need)
	}
	return ""
}

// rat turns a number of the program into one of ours: the only place.
func rat(n amount.Num) *big.Rat {
	x, ok := new(big.Rat).SetString(n.String())
	if !ok {
		panic("not a number: " + n.String())
	}
	return x
}

func same(a amount.Amount, s span) bool {
	return rat(a.Low).Cmp(s.lo) == 0 && rat(a.Best).Cmp(s.best) == 0 && rat(a.High).Cmp(s.hi) == 0
}

// smaller drops portions from a day for as long as it still differs.
func (b *book) smaller(d madeDay) madeDay {
	for i := 0; i < len(d.portions); {
		less := madeDay{sheet: d.sheet, hands: d.hands}
		less.sheet.Portions = append(append([]portion.Portion(nil), d.sheet.Portions[:i]...), d.sheet.Portions[i+1:]...)
		less.portions = append(append([]*made(nil), d.portions[:i]...), d.portions[i+1:]...)
		if b.differs(less) == "" {
			i++
			continue
		}
		d = less
	}
	return d
}

// TestRandomDays holds package day against the second implementation: what
// each portion counts as, totals, verdicts, gaps and what is above, exactly;
// and that no other split of the beans would be better.
func TestRandomDays(t *testing.T) {
	b := readBook()
	m := newMaker(b, seed)
	failed, seen := 0, map[string]int{}
	for i := range dayCount() {
		d := m.day(12)
		if b.differs(d) == "" {
			d.note(seen)
			continue
		}
		d = b.smaller(d)
		text, _ := json.Marshal(d.sheet)
		t.Errorf("day %d: %s\n%s", i, b.differs(d), text)
		if failed++; failed == 20 {
			t.Fatal("and maybe more")
		}
	}
	// Days that never get near a rule would prove nothing about it.
	for _, what := range []string{
		"met", "short", "over", "close", "capped", "beans both ways", "refined over",
		"cup", "weight", "bought", "hand", "own hand", "piece", "label", "drained", "with", "net", "dga-2025",
	} {
		if seen[what] < 5 {
			t.Errorf("only %d times: %s", seen[what], what)
		}
	}
}

// note counts what a day was good for.
func (d madeDay) note(seen map[string]int) {
	got := day.Check(d.sheet)
	seen[string(got.Set.Edition)]++
	for _, g := range got.Groups {
		seen[string(g.Verdict)]++
		if g.Capped {
			seen["capped"]++
		}
	}
	for _, p := range got.Parts {
		if p.Target.High.Sign() > 0 && p.Verdict == day.Over {
			seen["refined over"]++
		}
	}
	for i, p := range d.portions {
		seen[string(p.Measure.By)]++
		seen[string(p.Liquid)]++
		if p.Measure.Bought {
			seen["bought"]++
		}
		if p.net != nil && p.Liquid == portion.Drained {
			seen["net"]++
		}
		if _, own := d.hands[p.Measure.Hand]; own {
			seen["own hand"]++
		}
		if v := got.Items[i].Vegetable; v.Sign() > 0 && v.Less(amount.Int(1)) {
			seen["beans both ways"]++
		}
	}
}
