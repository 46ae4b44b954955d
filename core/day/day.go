// Package day adds portions up to a day, holds the day against a target set
// and says what is missing.
package day

import (
	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/rule"
)

// A Sheet is a day's portions and what they are held against. The json names
// are the day file's; see [Read] and [Sheet.Write].
type Sheet struct {
	Title    string            `json:"title,omitempty"`
	Demo     bool              `json:"demo,omitempty"`   // a sample, not somebody's day
	Set      string            `json:"set"`              // id of a guide.Set
	Own      *guide.Set        `json:"-"`                // a programme's own set, when Set is its id; "ownSet" in the file
	Hands    map[string]string `json:"hands,omitempty"`  // own hands as typed: "fist": "3/4 cup"
	OnHand   []string          `json:"onHand,omitempty"` // foods in the kitchen: ids, suggested first
	Portions []portion.Portion `json:"portions"`
}

// A Verdict says how a total stands to its target.
type Verdict string

const (
	Met   Verdict = "met"
	Short Verdict = "short"
	Over  Verdict = "over"
	Close Verdict = "close" // too close to call: the target lies inside the range
)

// A Report is a day checked.
type Report struct {
	Set    guide.Set
	Items  []Item // one a portion, in the sheet's order
	Groups []GroupCheck
	Parts  []PartCheck // targets for a part of a group: whole grains, refined grains
	Notes  []rule.Step // what concerns the whole day, with its rule: juice over its half, beans' split

	sheet Sheet // what was checked, for Ways
	hands portion.Hands
}

// An Item is one portion of the sheet, counted. When Err is set the portion
// could not be read and counts nowhere; the rest of the day is untouched.
type Item struct {
	Portion portion.Portion
	Result  portion.Result
	// Vegetable is the share of a bean portion that counts as vegetables, 0..1;
	// the rest counts as protein. It is 0 for other foods.
	Vegetable amount.Num
	Err       error // a *say.Problem
}

// A GroupCheck is one group's total held against its target.
type GroupCheck struct {
	Target  guide.Target
	Total   amount.Amount // what counts, after the juice cap and the split of beans
	Juice   amount.Amount // juice in it as measured, before the cap
	Capped  bool          // some juice did not count
	Verdict Verdict
	Gap     amount.Num // what is missing to the target's low end, from the best total; 0 when none
	Above   amount.Num // how far the best total is above the target's high end, or its low where it has none; 0 when none
	Settle  int        // index of the item whose better measuring would settle a close verdict; -1
}

// A PartCheck is a part's total held against its own daily target, and the
// rule that sets it.
type PartCheck struct {
	Target  guide.Target
	Rule    rule.ID
	Total   amount.Amount
	Verdict Verdict
	Gap     amount.Num
	Above   amount.Num
}

// A Filler is one way to close a gap: one portion, or a few where one would be
// too much of the same.
type Filler []Fill

// A Fill is a portion of a filler, ready to add but for its ID.
type Fill struct {
	Portion  portion.Portion
	Food     food.Food
	Credit   portion.Credit
	OnHand   bool            // from the foods that the person has
	Cautions []guide.Caution // what may hurt someone in this food
}
