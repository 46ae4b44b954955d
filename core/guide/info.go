package guide

import (
	"slices"

	"cupsum/core/rule"
)

// Tables tells of each of the guide's tables how many rows it has and where
// they come from, for the evidence view.
func Tables() []rule.TableInfo { return slices.Clone(tableInfos[:]) }
