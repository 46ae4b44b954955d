package food

import (
	"cupsum/core/rule"
)

// Tables tells of each table of the catalogue how many rows it has and where
// they come from, for the evidence view. It reads the whole catalogue.
func Tables() []rule.TableInfo {
	infos := []rule.TableInfo{{Name: "foods"}, {Name: "forms"}, {Name: "pieces"}, {Name: "parts"}}
	for f := range All() {
		infos[0].Count(f.Source, f.Origin)
		for _, d := range f.Forms {
			infos[1].Count(d.Source, d.Origin)
			for _, p := range d.Pieces {
				infos[2].Count(p.Source, p.Origin)
			}
			for _, p := range d.Parts {
				infos[3].Count(p.Source, p.Origin)
			}
		}
	}
	phrases := rule.TableInfo{Name: "phrases"}
	for _, p := range formPhrases {
		phrases.Count(phraseSources[p.source], rule.Practice)
	}
	return append(infos, phrases)
}
