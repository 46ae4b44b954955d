// Package say holds sentences that are not yet in a language. Core makes them,
// app/lang puts them in words, so another language is data and core has none.
package say

import (
	"fmt"
	"strings"
)

// A Line is one sentence for a person: the id of a message and what fills its
// places, in order. Args may be strings, ints, amount.Num, amount.Amount,
// amount.Quantity, Term or Line. The zero Line says nothing.
type Line struct {
	ID   string
	Args []any
}

// New makes a line.
func New(id string, args ...any) Line { return Line{ID: id, Args: args} }

// IsZero tells whether the line says nothing.
func (l Line) IsZero() bool { return l.ID == "" }

// String is for tests and logs, not for people: the id and its arguments.
func (l Line) String() string {
	if len(l.Args) == 0 {
		return l.ID
	}
	var b strings.Builder
	b.WriteString(l.ID)
	b.WriteByte('(')
	for i, a := range l.Args {
		if i > 0 {
			b.WriteString(", ")
		}
		fmt.Fprint(&b, a)
	}
	b.WriteByte(')')
	return b.String()
}

// A Term is a name that a language may have its own word for: a food, a form,
// a group. Text is the English of the catalogue, or what a person typed; it is
// used where the language has no entry Kind.ID.
type Term struct {
	Kind string
	ID   string
	Text string
}

func (t Term) String() string {
	if t.Text != "" {
		return t.Text
	}
	return t.ID
}

// A Problem is an error with a sentence for a person. Field names the input
// that it is about (a key of the day file or the page), or is empty.
type Problem struct {
	Line
	Field string
}

// Wrong makes a problem that concerns no particular field. Texts among the
// arguments come from outside and are quoted, see [Quote].
func Wrong(id string, args ...any) *Problem {
	for i, a := range args {
		if text, ok := a.(string); ok {
			args[i] = Quote(text)
		}
	}
	return &Problem{Line: New(id, args...)}
}

// maxQuote is how much of a text is quoted back to a person.
const maxQuote = 40

// Quote keeps a text that is quoted back to a person to a readable length: 40
// characters and an ellipsis.
func Quote(s string) string {
	if c := Clip(s, maxQuote+1); c != s {
		return Clip(s, maxQuote) + "…"
	}
	return s
}

// Clip cuts a text to a number of characters.
func Clip(s string, limit int) string {
	if len(s) <= limit {
		return s
	}
	n := 0
	for i := range s {
		if n == limit {
			return s[:i]
		}
		n++
	}
	return s
}

// In returns a copy of the problem that points at a field.
func (p *Problem) In(field string) *Problem {
	q := *p
	q.Field = field
	return &q
}

// Error is for logs and tests; people get the line through app/lang.
func (p *Problem) Error() string {
	if p.Field != "" {
		return p.Field + ": " + p.Line.String()
	}
	return p.Line.String()
}
