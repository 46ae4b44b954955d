package rule

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
