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

// Every rule has a check, and every check is a test that is there.
func TestEveryRuleIsChecked(t *testing.T) {
	for _, r := range Rules {
		if len(ChecksOf(r.ID)) == 0 {
			t.Errorf("no check holds the rule %s", r.ID)
		}
	}
	for _, c := range Checks {
		folder, test, ok := strings.Cut(c.Test, ".")
		if !ok {
			t.Errorf("%q is not a package and a test", c.Test)
			continue
		}
		if !hasTest(t, "../../"+folder, test) {
			t.Errorf("there is no test %s", c.Test)
		}
		for pattern := range strings.SplitSeq(c.Rules, ";") {
			if pattern != "" && !slices.ContainsFunc(Rules, func(r Rule) bool { return matches(pattern, string(r.ID)) }) {
				t.Errorf("%s holds the rule %q, which isn't there", c.Test, pattern)
			}
		}
	}
}

func matches(pattern, name string) bool {
	start, all := strings.CutSuffix(pattern, "*")
	return name == pattern || all && strings.HasPrefix(name, start)
}

func hasTest(t *testing.T, folder, name string) bool {
	t.Helper()
	files, err := filepath.Glob(folder + "/*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(text), "func "+name+"(t *testing.T)") {
			return true
		}
	}
	return false
}
