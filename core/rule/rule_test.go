package rule

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

func TestRulesAreSortedAndWhole(t *testing.T) {
	if !slices.IsSortedFunc(Rules, func(a, b Rule) int { return strings.Compare(string(a.ID), string(b.ID)) }) {
		t.Error("the rules are not sorted")
	}
	for i, r := range Rules {
		if i > 0 && r.ID == Rules[i-1].ID {
			t.Errorf("%s stands twice", r.ID)
		}
		if r.Title == "" || r.Text == "" || r.Source == "" {
			t.Errorf("%s lacks a title, a text or a source", r.ID)
		}
		if got, ok := ByID(r.ID); !ok || got != r {
			t.Errorf("ByID(%s) = %v, %v", r.ID, got, ok)
		}
	}
	if _, ok := ByID("no-such-rule"); ok {
		t.Error("a rule that isn't there was found")
	}
}

var named = regexp.MustCompile(`rule\.([A-Z][A-Za-z0-9]*)`)

// A rule that no code and no table names is a claim without a deed.
func TestEveryRuleIsUsed(t *testing.T) {
	used := map[string]bool{}
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		code := strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go")
		crediting := strings.HasSuffix(path, "crediting.csv")
		if !code && !crediting {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if crediting {
			for _, r := range Rules {
				if strings.Contains(string(text), ","+string(r.ID)+",") {
					used[string(r.ID)] = true
				}
			}
			return nil
		}
		for _, m := range named.FindAllStringSubmatch(string(text), -1) {
			used[m[1]] = true
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range Rules {
		if !used[string(r.ID)] && !used[constant(r.ID)] {
			t.Errorf("nothing names the rule %s", r.ID)
		}
	}
}

// constant is the name of a rule's constant: "label-size" is LabelSize.
func constant(id ID) string {
	var b strings.Builder
	for part := range strings.SplitSeq(string(id), "-") {
		b.WriteString(strings.ToUpper(part[:1]) + part[1:])
	}
	return b.String()
}
