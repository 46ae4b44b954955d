package day

import (
	"maps"

	"cupsum/core/portion"
)

// Again checks a sheet that came from the one that r is of by a change or two,
// as a page does after each press: portions that are as they were keep the
// result they had, where it was counted under the same edition and with the
// same hands. The report is the one that [Check] gives.
func (r Report) Again(s Sheet) Report {
	next := Report{Set: s.target(), sheet: s}
	next.hands = s.ownHands(&next)
	next.Items = make([]Item, len(s.Portions))
	was := map[string]int{}
	if r.Set.Edition == next.Set.Edition && maps.Equal(r.sheet.Hands, s.Hands) {
		for i, it := range r.Items {
			was[it.Portion.ID] = i
		}
	}
	for i, p := range s.Portions {
		item := &next.Items[i]
		item.Portion = p
		if at, had := was[p.ID]; had && same(r.Items[at].Portion, p) {
			item.Result, item.Err = r.Items[at].Result, r.Items[at].Err
			continue
		}
		item.Result, item.Err = p.Credit(next.Set.Edition, next.hands)
	}
	next.hold()
	return next
}

// same tells whether two portions are alike in all that counting them reads.
func same(p, q portion.Portion) bool {
	if p.Custom != q.Custom && (p.Custom == nil || q.Custom == nil || *p.Custom != *q.Custom) {
		return false
	}
	p.Custom, q.Custom = nil, nil
	return p == q
}
