package label

import (
	"cmp"
	"slices"
	"strings"

	"cupsum/core/rule"
)

// Tables says what the package's tables of figures hold and where their rows
// come from, for the evidence view.
func Tables() []rule.TableInfo {
	infos := []rule.TableInfo{{Name: "claims"}, {Name: "media"}, {Name: "rinsing"}}
	for i := range claimRows {
		tally(&infos[0], claimRows[i].source, claimRows[i].origin)
	}
	for i := 1; i < len(mediumRows); i++ {
		tally(&infos[1], mediumRows[i].source, mediumRows[i].origin)
	}
	for i := range rinseRows {
		tally(&infos[2], rinseRows[i].source, rinseRows[i].origin)
	}
	for _, t := range infos {
		slices.SortFunc(t.Sources, func(a, b rule.SourceCount) int {
			return cmp.Or(strings.Compare(a.Source, b.Source), cmp.Compare(a.Origin, b.Origin))
		})
	}
	return infos
}

func tally(t *rule.TableInfo, source string, origin rule.Origin) {
	t.Rows++
	for i := range t.Sources {
		if s := &t.Sources[i]; s.Source == source && s.Origin == origin {
			s.Rows++
			return
		}
	}
	t.Sources = append(t.Sources, rule.SourceCount{Source: source, Origin: origin, Rows: 1})
}
