package rule

import (
	"cmp"
	"slices"
	"strings"
)

// A TableInfo says what one table of figures holds and where its rows come
// from, for the evidence view.
type TableInfo struct {
	Name    string // the file, without its ending: "crediting"
	Rows    int
	Sources []SourceCount // by source, then origin
}

// A SourceCount counts the rows of a table that one source stands behind.
type SourceCount struct {
	Source string
	Origin Origin
	Rows   int
}

// Count adds a row to the table's sources, which stay in order.
func (t *TableInfo) Count(source string, origin Origin) {
	t.Rows++
	i, found := slices.BinarySearchFunc(t.Sources, SourceCount{Source: source, Origin: origin}, func(a, b SourceCount) int {
		return cmp.Or(strings.Compare(a.Source, b.Source), cmp.Compare(a.Origin, b.Origin))
	})
	if !found {
		t.Sources = slices.Insert(t.Sources, i, SourceCount{Source: source, Origin: origin})
	}
	t.Sources[i].Rows++
}

// ByOrigin counts the table's rows that came here in the given way.
func (t TableInfo) ByOrigin(o Origin) int {
	n := 0
	for _, s := range t.Sources {
		if s.Origin == o {
			n += s.Rows
		}
	}
	return n
}
