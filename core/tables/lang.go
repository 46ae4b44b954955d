package main

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// makeWords packs one language's messages, sorted by id. Messages are words,
// not figures, so they carry no source.
func makeWords(folder, name string) func() (string, error) {
	return func() (string, error) {
		files, err := filepath.Glob(filepath.Join(folder, "*.csv"))
		if err != nil || len(files) == 0 {
			return "", fmt.Errorf("no messages in %s", folder)
		}
		var all [][3]string // id, text, where
		for _, file := range files {
			f, err := os.Open(file)
			if err != nil {
				return "", err
			}
			recs, err := csv.NewReader(f).ReadAll()
			f.Close()
			if err != nil {
				return "", fmt.Errorf("%s: %w", file, err)
			}
			if len(recs) == 0 || strings.Join(recs[0], ",") != "id,text" {
				return "", fmt.Errorf("%s: columns are not id,text", file)
			}
			for i, rec := range recs[1:] {
				if rec[0] == "" || rec[1] == "" {
					return "", fmt.Errorf("%s: row %d has no id or no text", file, i+2)
				}
				all = append(all, [3]string{rec[0], rec[1], file})
			}
		}
		slices.SortFunc(all, func(a, b [3]string) int { return strings.Compare(a[0], b[0]) })
		var b strings.Builder
		fmt.Fprintf(&b, "package lang\n\nvar %s = [...]message{\n", name)
		for i, m := range all {
			if i > 0 && m[0] == all[i-1][0] {
				return "", fmt.Errorf("%s: the message %q is in %s already", m[2], m[0], all[i-1][2])
			}
			fmt.Fprintf(&b, "{%q, %q},\n", m[0], m[1])
		}
		b.WriteString("}\n")
		return b.String(), nil
	}
}
