// Package evidence gathers what every part of core says of its own tables, for
// the view that shows where the figures come from. The rules and the checks
// that hold them are package rule's.
package evidence

import (
	"slices"

	"cupsum/core/amount"
	"cupsum/core/day"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/label"
	"cupsum/core/rule"
)

// Tables lists every table of figures that the program uses.
func Tables() []rule.TableInfo {
	return slices.Concat(guide.Tables(), food.Tables(), label.Tables(), amount.Tables(), day.Tables())
}
