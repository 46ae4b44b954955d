// Package lang puts core's lines in words. Every word that a person sees is a
// row of data/LANGUAGE/*.csv (id, text); another language is another folder.
// The rows are packed into z*.go by core/tables.
//
// In a text, {0} is the first argument, printed as its kind is: amounts as
// mixed fractions, quantities with their unit, terms by their name in this
// language. {0|cup|cups} is a word that follows the number of argument 0: the
// first when it is at most 1, the second otherwise.
package lang

import (
	"slices"
	"strconv"
	"strings"

	"cupsum/core/amount"
	"cupsum/core/guide"
	"cupsum/core/portion"
	"cupsum/core/say"
)

// A message is one row of a language's table.
type message struct{ id, text string }

// Words are the messages of one language.
type Words struct {
	Tag      string // BCP 47 tag for the lang attribute: "en"
	messages []message
	decimals bool // print the decimal behind a rounded fraction, see Working
}

// English returns the words of the language that is always there.
func English() *Words { return &Words{Tag: "en", messages: english[:]} }

// All lists the languages that there are, each with its own words.
func All() []*Words { return []*Words{English()} }

// For returns the words of a language by its BCP 47 tag, or English where it is
// not there.
func For(tag string) *Words {
	for _, w := range All() {
		if strings.EqualFold(w.Tag, tag) {
			return w
		}
	}
	return English()
}

func (w *Words) find(id string) (string, bool) {
	i, ok := slices.BinarySearchFunc(w.messages, id, func(m message, id string) int { return strings.Compare(m.id, id) })
	if !ok {
		return "", false
	}
	return w.messages[i].text, true
}

// Has tells whether the language has the message.
func (w *Words) Has(id string) bool { _, ok := w.find(id); return ok }

// IDs lists every message id, sorted.
func (w *Words) IDs() []string {
	ids := make([]string, len(w.messages))
	for i, m := range w.messages {
		ids[i] = m.id
	}
	return ids
}

// Text puts a message in words. A message that is not there is shown as its
// id in brackets; a test sees to it that none is missing.
func (w *Words) Text(id string, args ...any) string {
	text, ok := w.find(id)
	if !ok {
		return "[" + id + "]"
	}
	if len(args) == 0 && !strings.Contains(text, "{") {
		return text
	}
	return w.fill(text, args)
}

// Line puts a line in words; the zero line is "".
func (w *Words) Line(l say.Line) string {
	if l.IsZero() {
		return ""
	}
	return w.Text(l.ID, l.Args...)
}

// Working puts a line of working in words. Where a fraction is rounded its
// decimal stands behind it, "about ½ (0.45)", so that the sums on the page can
// be followed.
func (w *Words) Working(l say.Line) string {
	exact := *w
	exact.decimals = true
	return exact.Line(l)
}

// Problem puts an error in words. An error of another kind than [*say.Problem]
// is a fault of ours and says so, with its text.
func (w *Words) Problem(err error) string {
	if p, ok := err.(*say.Problem); ok {
		return w.Line(p.Line)
	}
	return w.Text("problem.unknown", err.Error())
}

// fill replaces the places of a text. A brace that is no place stays.
func (w *Words) fill(text string, args []any) string {
	var b strings.Builder
	for {
		open := strings.IndexByte(text, '{')
		if open < 0 {
			b.WriteString(text)
			break
		}
		shut := strings.IndexByte(text[open:], '}')
		if shut < 0 {
			b.WriteString(text)
			break
		}
		b.WriteString(text[:open])
		b.WriteString(w.place(text[open+1:open+shut], args))
		text = text[open+shut+1:]
	}
	return sentence(b.String())
}

// sentence begins with a capital what ends like a sentence: its first word may
// have come from an argument, such as "about".
func sentence(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' || !strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func (w *Words) place(p string, args []any) string {
	number, forms, plural := strings.Cut(p, "|")
	i, err := strconv.Atoi(number)
	if err != nil || i < 0 || i >= len(args) {
		return "{" + p + "}"
	}
	if !plural {
		return w.Value(args[i])
	}
	one, many, _ := strings.Cut(forms, "|")
	if atMostOne(args[i]) {
		return one
	}
	return many
}

func atMostOne(arg any) bool {
	one := amount.Int(1)
	switch v := arg.(type) {
	case int:
		return v == 1
	case amount.Num:
		return !one.Less(v)
	case amount.Amount:
		return !one.Less(v.High)
	case amount.Quantity:
		return !one.Less(v.Amount.High)
	case guide.Counted:
		return !one.Less(v.Amount.High)
	case portion.Some:
		return !one.Less(v.N.High)
	}
	return false
}

// Value prints one argument of a message.
func (w *Words) Value(arg any) string {
	switch v := arg.(type) {
	case string:
		return v
	case int:
		return strconv.Itoa(v)
	case amount.Num:
		return w.Num(v)
	case amount.Amount:
		return w.Amount(v)
	case amount.Quantity:
		return w.Quantity(v)
	case guide.Counted:
		return w.Counted(v.Amount, v.Unit)
	case portion.Some:
		return w.Some(v)
	case say.Term:
		return w.Term(v)
	case say.Line:
		return w.Line(v)
	}
	return "?"
}

// Term names a thing: by the language's own word, else as the catalogue or the
// person does.
func (w *Words) Term(t say.Term) string {
	if text, ok := w.find(t.Kind + "." + t.ID); ok {
		return text
	}
	if t.Text != "" {
		return t.Text
	}
	return t.ID
}
