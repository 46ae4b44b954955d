package rule

import (
	"strings"

	"cupsum/core/say"
)

// A Check is a test that holds rules or tables against something outside the
// program.
type Check struct {
	Test   string // package and function: "core/day.TestJuiceCap"
	What   string // what it compares
	Rules  string // the rules it holds, separated by ";", "*" at the end for all that start so
	Tables string // the tables it holds, in the same way
	Source string // what it compares with
	Origin Origin
}

// Says is what the check compares, as a term that a language may translate.
func (c Check) Says() say.Term { return say.Term{Kind: "check", ID: c.Test, Text: c.What} }

// ChecksOf lists the checks that hold a rule.
func ChecksOf(id ID) []Check { return holding(string(id), func(c Check) string { return c.Rules }) }

// ChecksOfTable lists the checks that hold a table, by its name.
func ChecksOfTable(name string) []Check {
	return holding(name, func(c Check) string { return c.Tables })
}

func holding(name string, list func(Check) string) []Check {
	var found []Check
	for _, c := range Checks {
		for pattern := range strings.SplitSeq(list(c), ";") {
			start, all := strings.CutSuffix(pattern, "*")
			if name == pattern || all && strings.HasPrefix(name, start) {
				found = append(found, c)
				break
			}
		}
	}
	return found
}
