package portion

import "cupsum/core/food"

// ByGroup adds up what a mixed dish counts as in one group, so that it can be
// said at a glance: "¾ cup of vegetables", not three parts of it. The sum has no
// subgroup where its parts have different ones. Juice and beans stay apart,
// since they count by rules of their own.
func (r Result) ByGroup() []Credit {
	var sums []Credit
next:
	for _, c := range r.Credits {
		for i := range sums {
			s := &sums[i]
			if s.Group != c.Group || s.Unit != c.Unit || s.Juice != c.Juice || s.Alt != nil || c.Alt != nil {
				continue
			}
			s.Amount = s.Amount.Add(c.Amount)
			if s.Subgroup != c.Subgroup {
				s.Subgroup = food.NoSubgroup
			}
			continue next
		}
		sums = append(sums, c)
	}
	return sums
}
