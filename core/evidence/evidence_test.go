package evidence

import (
	"testing"

	"cupsum/core/rule"
)

// Every table has rows, each with a source, and a check that holds it.
func TestEveryTableIsChecked(t *testing.T) {
	tables := Tables()
	names := map[string]bool{}
	for _, table := range tables {
		if names[table.Name] {
			t.Errorf("two tables are called %s", table.Name)
		}
		names[table.Name] = true
		rows := 0
		for _, s := range table.Sources {
			rows += s.Rows
			if s.Source == "" {
				t.Errorf("%s has rows without a source", table.Name)
			}
		}
		if rows == 0 || rows != table.Rows {
			t.Errorf("%s: %d rows by source, %d in all", table.Name, rows, table.Rows)
		}
		if len(rule.ChecksOfTable(table.Name)) == 0 {
			t.Errorf("no check holds the table %s", table.Name)
		}
	}
	if len(tables) < 12 {
		t.Errorf("only %d tables", len(tables))
	}
}
