// Package rule holds the one list of rules that the working lines, the
// evidence view, the documentation and the tests all read. A rule is a row of
// data/*.csv; its id is a constant here, so a working line can't name one that
// isn't there.
package rule

import (
	"slices"
	"strings"

	"cupsum/core/say"
)

// An ID is a rule's stable key and its anchor in the evidence view.
type ID string

// An Origin says how a figure came here.
type Origin uint8

const (
	Published Origin = iota // read in the document that the source names
	Practice                // common practice of the trade, without a source
	Memory                  // recalled, not read
)

// String gives the word that the tables use.
func (o Origin) String() string {
	return [...]string{"published", "practice", "memory"}[o]
}

// A Rule is one thing that the arithmetic does, and where that comes from.
type Rule struct {
	ID     ID
	Title  string // a few words, for people
	Text   string // what it says, one or two sentences
	Source string // document, section or table, year; for a practice, whose
	Origin Origin
}

// Name is the rule's title as a term that a language may translate.
func (r Rule) Name() say.Term { return say.Term{Kind: "rule", ID: string(r.ID), Text: r.Title} }

// Says is the rule's text as a term that a language may translate.
func (r Rule) Says() say.Term { return say.Term{Kind: "rule-text", ID: string(r.ID), Text: r.Text} }

// ByID finds a rule. Every ID constant has one.
func ByID(id ID) (Rule, bool) {
	i, ok := slices.BinarySearchFunc(Rules, id, func(r Rule, id ID) int { return strings.Compare(string(r.ID), string(id)) })
	if !ok {
		return Rule{}, false
	}
	return Rules[i], true
}
