package food

import (
	"cmp"
	"slices"
	"strings"

	"cupsum/core/rule"
)

// Tables tells of each table of the catalogue how many rows it has and where
// they come from, for the evidence view. It reads the whole catalogue.
func Tables() []rule.TableInfo {
	infos := []rule.TableInfo{{Name: "foods"}, {Name: "forms"}, {Name: "pieces"}, {Name: "parts"}}
	for f := range All() {
		count(&infos[0], f.Source, f.Origin)
		for _, d := range f.Forms {
			count(&infos[1], d.Source, d.Origin)
			for _, p := range d.Pieces {
				count(&infos[2], p.Source, p.Origin)
			}
			for _, p := range d.Parts {
				count(&infos[3], p.Source, p.Origin)
			}
		}
	}
	phrases := rule.TableInfo{Name: "phrases"}
	for _, p := range formPhrases {
		count(&phrases, phraseSources[p.source], rule.Practice)
	}
	return append(infos, phrases)
}

// count adds a row to the table's sources, which stay in order.
func count(t *rule.TableInfo, source string, origin rule.Origin) {
	t.Rows++
	i, found := slices.BinarySearchFunc(t.Sources, rule.SourceCount{Source: source, Origin: origin}, func(a, b rule.SourceCount) int {
		return cmp.Or(strings.Compare(a.Source, b.Source), cmp.Compare(a.Origin, b.Origin))
	})
	if !found {
		t.Sources = slices.Insert(t.Sources, i, rule.SourceCount{Source: source, Origin: origin})
	}
	t.Sources[i].Rows++
}
