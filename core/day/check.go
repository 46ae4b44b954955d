package day

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// DefaultSet is the set that a sheet without a known one is held against: the
// round numbers that classes teach.
const DefaultSet = "class"

// Check counts the portions of a sheet under its set's edition, splits the
// beans, caps the juice and holds the totals against the targets. A portion
// that can't be read keeps its error in its item; the rest is counted. The
// cost is linear in the portions.
func Check(s Sheet) Report { return Report{}.Again(s) }

// target finds the set that the sheet names.
func (s Sheet) target() guide.Set {
	if s.Own != nil && s.Own.ID == s.Set {
		return *s.Own
	}
	if set, ok := guide.SetByID(s.Set); ok {
		return set
	}
	set, _ := guide.SetByID(DefaultSet)
	return set
}

// ownHands reads the person's measured hands; what can't be read is noted, and
// the common measure stands.
func (s Sheet) ownHands(r *Report) portion.Hands {
	if len(s.Hands) == 0 {
		return nil
	}
	hands := portion.Hands{}
	for _, h := range guide.Hands() { // in the table's order, so that notes keep one
		text, ok := s.Hands[h.ID]
		if !ok || text == "" {
			continue
		}
		own, err := guide.OwnHand(h.ID, text)
		if err != nil {
			r.note(rule.HandCommon, "note.hand-unread", say.Term{Kind: "hand", ID: h.ID}, text)
			continue
		}
		hands[h.ID] = own
	}
	return hands
}

func (r *Report) note(id rule.ID, line string, args ...any) {
	r.Notes = append(r.Notes, rule.Step{Rule: id, Line: say.New(line, args...)})
}

// sums are a group's totals while they are added up.
type sums struct {
	whole, juice amount.Amount
}

// hold adds the credits up and checks every daily target.
func (r *Report) hold() {
	targets := groupTargets(r.Set)
	var totals [food.Mixed]sums
	beans := r.beans()
	for _, it := range r.Items {
		for _, c := range it.Result.Credits {
			switch {
			case c.Alt != nil: // split below
			case c.Juice:
				totals[c.Group].juice = totals[c.Group].juice.Add(c.Amount)
			default:
				totals[c.Group].whole = totals[c.Group].whole.Add(c.Amount)
			}
		}
	}
	counted := func(g food.Group) amount.Amount { return capped(totals[g], targets[g]) }
	r.split(beans, side{counted(food.Vegetable).Best, targets[food.Vegetable]}, side{counted(food.Protein).Best, targets[food.Protein]})
	vegetable, protein := r.beanTotals(beans)
	totals[food.Vegetable].whole = totals[food.Vegetable].whole.Add(vegetable)
	totals[food.Protein].whole = totals[food.Protein].whole.Add(protein)
	for _, g := range food.Groups() {
		t := targets[g]
		if t == nil {
			continue
		}
		r.Groups = append(r.Groups, r.group(g, *t, totals[g], beans))
	}
	r.noteSplit(vegetable, protein, targets)
	r.parts()
}

// groupTargets finds each group's daily target. Where an edition sets one only
// for a part of a group (whole grains), that stands for the group.
func groupTargets(s guide.Set) (found [food.Mixed]*guide.Target) {
	for i := range s.Targets {
		t := &s.Targets[i]
		if t.Weekly || t.Part != "" || t.Group >= food.Mixed {
			continue
		}
		old := found[t.Group]
		if old == nil || old.Subgroup != food.NoSubgroup && t.Subgroup == food.NoSubgroup {
			found[t.Group] = t
		}
	}
	return found
}

// capped lets juice count for at most half of the target.
func capped(s sums, t *guide.Target) amount.Amount {
	if t == nil || s.juice.High.Sign() == 0 || t.Low.Sign() == 0 {
		return s.whole.Add(s.juice)
	}
	return s.whole.Add(s.juice.AtMost(t.Low.Mul(amount.Frac(1, 2))))
}

// group checks one group's target.
func (r *Report) group(g food.Group, t guide.Target, s sums, beans []bean) GroupCheck {
	if t.Subgroup != food.NoSubgroup {
		s = sums{whole: r.subtotal(t.Group, t.Subgroup)}
	}
	total := capped(s, &t)
	c := GroupCheck{Target: t, Total: total, Juice: s.juice, Settle: -1}
	c.Capped = total.Best.Less(s.whole.Add(s.juice).Best)
	if c.Capped {
		r.note(rule.JuiceHalf, "note.juice-cap", g.Term(),
			guide.Counted{Amount: s.juice, Unit: t.Unit}, guide.Counted{Amount: amount.Exactly(t.Low.Mul(amount.Frac(1, 2))), Unit: t.Unit})
	}
	c.Verdict, c.Gap, c.Above = judge(total, t)
	if c.Verdict == Close {
		c.Settle = r.widest(g, t, beans)
	}
	return c
}

// judge holds a total against a target.
func judge(total amount.Amount, t guide.Target) (v Verdict, gap, above amount.Num) {
	limit := t.High.Sign() > 0
	switch {
	case limit && t.High.Less(total.Low):
		v = Over
	case total.High.Less(t.Low):
		v = Short
	case !total.Low.Less(t.Low) && !(limit && t.High.Less(total.High)):
		v = Met
	default:
		v = Close
	}
	gap = t.Low.Sub(total.Best).Max(amount.Num{})
	upper := t.Low
	if limit {
		upper = t.High
	}
	return v, gap, total.Best.Sub(upper).Max(amount.Num{})
}

// subtotal adds up the credits of one subgroup, without beans to be split.
func (r *Report) subtotal(g food.Group, s food.Subgroup) amount.Amount {
	var total amount.Amount
	for _, it := range r.Items {
		for _, c := range it.Result.Credits {
			if c.Group == g && c.Subgroup == s && c.Alt == nil {
				total = total.Add(c.Amount)
			}
		}
	}
	return total
}

// parts checks the daily targets for a part of a group.
func (r *Report) parts() {
	for _, t := range r.Set.Targets {
		if t.Weekly || t.Part != "" || t.Subgroup == food.NoSubgroup || r.standsForGroup(t) {
			continue
		}
		c := PartCheck{Target: t, Rule: rule.HalfWhole, Total: r.subtotal(t.Group, t.Subgroup)}
		if t.Low.Sign() == 0 {
			c.Rule = rule.RefinedLimit
		}
		c.Verdict, c.Gap, c.Above = judge(c.Total, t)
		r.Parts = append(r.Parts, c)
	}
}

func (r *Report) standsForGroup(t guide.Target) bool {
	for _, g := range r.Groups {
		if g.Target.Group == t.Group {
			return g.Target.Subgroup == t.Subgroup
		}
	}
	return false
}

// widest finds the item whose own doubt is the largest part of a group's
// range: measured better, it goes furthest to settle the verdict.
func (r *Report) widest(g food.Group, t guide.Target, beans []bean) int {
	best, at := amount.Num{}, -1
	consider := func(i int, a amount.Amount) {
		if best.Less(a.Width()) {
			best, at = a.Width(), i
		}
	}
	for i, it := range r.Items {
		for _, c := range it.Result.Credits {
			if c.Group == g && c.Alt == nil && (t.Subgroup == food.NoSubgroup || c.Subgroup == t.Subgroup) {
				consider(i, c.Amount)
			}
		}
	}
	for _, b := range beans {
		switch g {
		case food.Vegetable:
			consider(b.item, b.vegetable.Scale(b.share))
		case food.Protein:
			consider(b.item, b.protein.Scale(amount.Int(1).Sub(b.share)))
		}
	}
	return at
}
