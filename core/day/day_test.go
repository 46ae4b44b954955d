package day

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
)

func cup(id, foodID, form, text string) portion.Portion {
	return portion.Portion{ID: id, Food: foodID, Form: form, Measure: portion.Measure{By: portion.ByCup, Amount: text}}
}

func hand(id, foodID, form, n, hand string) portion.Portion {
	return portion.Portion{ID: id, Food: foodID, Form: form, Measure: portion.Measure{By: portion.ByHand, Amount: n, Hand: hand}}
}

func weight(id, foodID, form, text string) portion.Portion {
	return portion.Portion{ID: id, Food: foodID, Form: form, Measure: portion.Measure{By: portion.ByWeight, Amount: text}}
}

// pool is what random days are made of: every group, exact and in doubt,
// beans of two exchange rates, juice, and things that count nowhere.
var pool = []portion.Portion{
	cup("", "raisins", "dried", "1/4"), cup("", "orange-juice", "juice", "1"), cup("", "strawberries", "frozen", "1 1/2"),
	cup("", "spinach", "fresh", "2"), cup("", "carrots", "cooked", "1/2"), cup("", "tomato-juice", "juice", "3/4"),
	hand("", "white-rice", "cooked", "1", "fist"), cup("", "oatmeal", "cooked", "1"), hand("", "chicken", "cooked", "1", "palm"),
	weight("", "cheddar", "ready", "1 oz"), cup("", "low-fat-milk", "ready", "1"), cup("", "soy-milk", "ready", "1/2"),
	cup("", "black-beans", "cooked", "1"), cup("", "lentils", "cooked", "1/2"), hand("", "pinto-beans", "cooked", "1", "cupped"),
	cup("", "hummus", "ready", "1/4"), cup("", "butter", "ready", "1 tbsp"), cup("", "almond-milk", "ready", "1"),
	weight("", "peanuts", "ready", "1/2 oz"),
}

func randomDay(r *rand.Rand, n int) Sheet {
	sets := guide.Sets()
	s := Sheet{Set: sets[r.IntN(len(sets))].ID}
	for i := range n {
		p := pool[r.IntN(len(pool))]
		p.ID = FreshID(i + 1)
		s.Portions = append(s.Portions, p)
	}
	return s
}

func rng(t *testing.T) *rand.Rand {
	t.Helper()
	return rand.New(rand.NewPCG(20, 25)) // fixed, so that a failure comes back
}

// sameTotals compares what two reports say of the day, not of its order.
func sameTotals(t *testing.T, a, b Report) {
	t.Helper()
	if len(a.Groups) != len(b.Groups) {
		t.Fatalf("%d and %d groups", len(a.Groups), len(b.Groups))
	}
	for i, g := range a.Groups {
		h := b.Groups[i]
		if !g.Total.Equal(h.Total) || g.Verdict != h.Verdict || !g.Gap.Equal(h.Gap) || !g.Above.Equal(h.Above) {
			t.Errorf("%s: %v %s and %v %s", g.Target.Group.ID(), g.Total, g.Verdict, h.Total, h.Verdict)
		}
	}
}

func TestPoolCounts(t *testing.T) {
	for _, it := range Check(Sheet{Set: "class", Portions: pool}).Items {
		if it.Err != nil {
			t.Errorf("%s: %v", it.Portion.Food, it.Err)
		}
	}
}

func TestOrderDoesNotMatter(t *testing.T) {
	r := rng(t)
	for range 200 {
		s := randomDay(r, 1+r.IntN(20))
		before := Check(s)
		s.Portions = slices.Clone(s.Portions)
		r.Shuffle(len(s.Portions), func(i, j int) { s.Portions[i], s.Portions[j] = s.Portions[j], s.Portions[i] })
		sameTotals(t, before, Check(s))
	}
}

// Two halves of a portion are the portion.
func TestCuttingAPortionChangesNothing(t *testing.T) {
	r := rng(t)
	half := map[string]string{"1": "1/2", "1/2": "1/4", "1/4": "1/8", "1 1/2": "3/4", "2": "1", "3/4": "3/8", "1 oz": "1/2 oz", "1/2 oz": "1/4 oz", "1 tbsp": "1/2 tbsp"}
	for range 200 {
		s := randomDay(r, 1+r.IntN(12))
		cut := s
		i := r.IntN(len(s.Portions))
		p := s.Portions[i]
		p.Measure.Amount = half[p.Measure.Amount]
		if p.Measure.Amount == "" {
			t.Fatalf("no half of %q", s.Portions[i].Measure.Amount)
		}
		q := p
		q.ID = "half"
		cut.Portions = slices.Concat(s.Portions[:i], []portion.Portion{p, q}, s.Portions[i+1:])
		sameTotals(t, Check(s), Check(cut))
	}
}

func TestRangesHoldTheBest(t *testing.T) {
	r := rng(t)
	for range 300 {
		for _, g := range Check(randomDay(r, r.IntN(30))).Groups {
			if g.Total.Best.Less(g.Total.Low) || g.Total.High.Less(g.Total.Best) {
				t.Errorf("%s: %v", g.Target.Group.ID(), g.Total)
			}
		}
	}
}

// No split of the beans does better than the chosen one: a search over every
// bean portion in twentieths finds none.
func TestNoBetterSplit(t *testing.T) {
	r := rng(t)
	beans := []portion.Portion{pool[12], pool[13], pool[14], pool[15]}
	for range 60 {
		s := randomDay(r, r.IntN(8))
		for i := range 1 + r.IntN(2) {
			p := beans[r.IntN(len(beans))]
			p.ID = "bean" + fmt.Sprint(i)
			s.Portions = append(s.Portions, p)
		}
		report := Check(s)
		chosen := rateOf(report, func(i int) amount.Num { return report.Items[i].Vegetable })
		search(report, 0, map[int]amount.Num{}, func(shares map[int]amount.Num) {
			if got := rateOf(report, func(i int) amount.Num { return shares[i] }); got.betterThan(chosen) {
				t.Fatalf("set %s: shares %v score %v, better than the chosen %v", s.Set, shares, got, chosen)
			}
		})
	}
}

// search tries every share of every bean portion in twentieths, or in fifths
// where there are more than two.
func search(r Report, i int, shares map[int]amount.Num, try func(map[int]amount.Num)) {
	if i == len(r.Items) {
		try(shares)
		return
	}
	if len(r.Items[i].Result.Credits) == 0 || r.Items[i].Result.Credits[0].Alt == nil {
		search(r, i+1, shares, try)
		return
	}
	steps := int64(20)
	if len(r.beans()) > 2 {
		steps = 5
	}
	for k := range steps + 1 {
		shares[i] = amount.Frac(k, steps)
		search(r, i+1, shares, try)
	}
	delete(shares, i)
}

// rateOf scores a day from its items alone, with given shares of the beans: an
// own addition, not the one that is tested.
func rateOf(r Report, share func(int) amount.Num) score {
	targets := groupTargets(r.Set)
	var whole, juice [food.Mixed]amount.Num
	for i, it := range r.Items {
		for _, c := range it.Result.Credits {
			switch {
			case c.Alt != nil:
				whole[c.Group] = whole[c.Group].Add(c.Amount.Best.Mul(share(i)))
				whole[c.Alt.Group] = whole[c.Alt.Group].Add(c.Alt.Amount.Best.Mul(amount.Int(1).Sub(share(i))))
			case c.Juice:
				juice[c.Group] = juice[c.Group].Add(c.Amount.Best)
			default:
				whole[c.Group] = whole[c.Group].Add(c.Amount.Best)
			}
		}
	}
	have := func(g food.Group) amount.Num {
		j := juice[g]
		if t := targets[g]; t != nil && t.Low.Sign() > 0 {
			j = j.Min(t.Low.Quo(amount.Int(2)))
		}
		return whole[g].Add(j)
	}
	return rate(side{have(food.Vegetable), targets[food.Vegetable]}, side{have(food.Protein), targets[food.Protein]})
}

// judgeTests: the verdict of a total against a target.
var judgeTests = []struct {
	low, best, high amount.Num
	target          guide.Target
	want            Verdict
	gap, above      string
}{
	// An amount without doubt.
	{amount.Int(2), amount.Int(2), amount.Int(2), guide.Target{Low: amount.Int(2)}, Met, "0", "0"},
	{amount.Frac(7, 4), amount.Frac(7, 4), amount.Frac(7, 4), guide.Target{Low: amount.Int(2)}, Short, "1/4", "0"},
	{amount.Int(3), amount.Int(3), amount.Int(3), guide.Target{Low: amount.Int(2)}, Met, "0", "1"},
	// A target inside the range is too close to call.
	{amount.Frac(3, 2), amount.Frac(7, 4), amount.Int(2), guide.Target{Low: amount.Int(2)}, Close, "1/4", "0"},
	{amount.Frac(3, 2), amount.Frac(9, 4), amount.Int(3), guide.Target{Low: amount.Int(2)}, Close, "0", "1/4"},
	// A published upper end: 3 to 4 servings.
	{amount.Int(3), amount.Int(3), amount.Int(3), guide.Target{Low: amount.Int(3), High: amount.Int(4)}, Met, "0", "0"},
	{amount.Int(5), amount.Int(5), amount.Int(5), guide.Target{Low: amount.Int(3), High: amount.Int(4)}, Over, "0", "1"},
	{amount.Int(3), amount.Int(4), amount.Int(5), guide.Target{Low: amount.Int(3), High: amount.Int(4)}, Close, "0", "0"},
	// A limit alone: refined grains.
	{amount.Num{}, amount.Num{}, amount.Num{}, guide.Target{High: amount.Int(3)}, Met, "0", "0"},
	{amount.Int(4), amount.Int(4), amount.Int(4), guide.Target{High: amount.Int(3)}, Over, "0", "1"},
}

func TestJudge(t *testing.T) {
	for i, tt := range judgeTests {
		v, gap, above := judge(amount.Amount{Low: tt.low, Best: tt.best, High: tt.high}, tt.target)
		if v != tt.want || gap.String() != tt.gap || above.String() != tt.above {
			t.Errorf("#%d: got %s, gap %s, above %s; want %s, %s, %s", i, v, gap, above, tt.want, tt.gap, tt.above)
		}
	}
}

func find(t *testing.T, r Report, g food.Group) GroupCheck {
	t.Helper()
	for _, c := range r.Groups {
		if c.Target.Group == g {
			return c
		}
	}
	t.Fatalf("no check of %s", g.ID())
	return GroupCheck{}
}

// Juice counts for at most half of the target: 7 CFR 210.10(c) note 2; DGA
// 2020-2025 chapter 1.
func TestJuiceCap(t *testing.T) {
	s := Sheet{Set: "class", Portions: []portion.Portion{cup("a", "orange-juice", "juice", "2"), cup("b", "apple", "fresh", "1/2")}}
	g := find(t, Check(s), food.Fruit)
	if got := g.Total.Best.String(); got != "3/2" || !g.Capped {
		t.Errorf("2 cups of juice and 1/2 cup of apple are %s, capped %v; want 3/2 of a target of 2", got, g.Capped)
	}
	s.Portions[0] = cup("a", "orange-juice", "juice", "1")
	if g := find(t, Check(s), food.Fruit); g.Capped {
		t.Error("a cup of juice is half of 2 cups; all of it counts")
	}
}

// A close verdict names the portion with most doubt in that group.
func TestSettle(t *testing.T) {
	s := Sheet{Set: "class", Portions: []portion.Portion{cup("a", "oatmeal", "cooked", "2"), hand("b", "white-rice", "cooked", "1", "fist")}}
	g := find(t, Check(s), food.Grain)
	if g.Verdict != Close || g.Settle != 1 {
		t.Errorf("got %s and settle %d, want close and the rice (1)", g.Verdict, g.Settle)
	}
}

// What closes a gap does close it, is three ways where there are that many
// foods, and starts with what is in the kitchen.
func TestWaysCloseTheGap(t *testing.T) {
	for _, set := range guide.Sets() {
		s := Sheet{Set: set.ID, OnHand: []string{"apple", "carrots"}}
		r := Check(s)
		for _, g := range r.Groups {
			ways := r.Ways(g)
			if len(ways) != waysAGap {
				t.Errorf("%s %s: %d ways", set.ID, g.Target.Group.ID(), len(ways))
			}
			for _, way := range ways {
				var sum amount.Num
				for _, f := range way {
					res, err := f.Portion.Credit(set.Edition, nil)
					if err != nil {
						t.Fatalf("%s: %v", f.Portion.Food, err)
					}
					sum = sum.Add(creditIn(res, g.Target.Group).Amount.Best)
				}
				if sum.Less(g.Gap) {
					t.Errorf("%s %s: a way has %v of a gap of %v", set.ID, g.Target.Group.ID(), sum, g.Gap)
				}
			}
			if g.Target.Group == food.Fruit && ways[0][0].Portion.Food != "apple" {
				t.Errorf("%s: the first way starts with %s, not with the apple on hand", set.ID, ways[0][0].Portion.Food)
			}
		}
	}
}

// A portion that can't be read leaves the others alone.
func TestBadPortionHarmsNoOther(t *testing.T) {
	good := Sheet{Set: "class", Portions: []portion.Portion{cup("a", "apple", "fresh", "1")}}
	bad := good
	bad.Portions = append(slices.Clone(good.Portions), cup("b", "ambrosia", "fresh", "1"), cup("c", "apple", "fresh", "0"))
	r := Check(bad)
	sameTotals(t, Check(good), r)
	if r.Items[0].Err != nil || r.Items[1].Err == nil || r.Items[2].Err == nil {
		t.Errorf("errors are %v, %v, %v", r.Items[0].Err, r.Items[1].Err, r.Items[2].Err)
	}
}

func ExampleCheck() {
	r := Check(Sheet{Set: "class", Portions: []portion.Portion{
		cup("p1", "apricot", "dried", "1/4"),
		cup("p2", "apple", "fresh", "1"),
	}})
	fruit := r.Groups[0]
	fmt.Println(fruit.Target.Group.ID(), fruit.Total, "of", fruit.Target.Low, fruit.Verdict, fruit.Gap)
	// Output: fruit 3/2 of 2 short 1/2
}

// BenchmarkCheck shows that the cost is linear in the portions.
func BenchmarkCheck(b *testing.B) {
	for _, n := range []int{20, 40, 100, 1_000, 10_000} {
		s := randomDay(rand.New(rand.NewPCG(20, 25)), n)
		s.Set = "class"
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Check(s)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/portion")
		})
	}
}
