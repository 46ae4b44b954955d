package label

import "cupsum/core/rule"

// Tables says what the package's tables of figures hold and where their rows
// come from, for the evidence view.
func Tables() []rule.TableInfo {
	infos := []rule.TableInfo{{Name: "claims"}, {Name: "media"}, {Name: "rinsing"}}
	for i := range claimRows {
		infos[0].Count(claimRows[i].source, claimRows[i].origin)
	}
	for i := 1; i < len(mediumRows); i++ {
		infos[1].Count(mediumRows[i].source, mediumRows[i].origin)
	}
	for i := range rinseRows {
		infos[2].Count(rinseRows[i].source, rinseRows[i].origin)
	}
	return infos
}
