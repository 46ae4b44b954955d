package label

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// plain makes text ready to look for terms in: lower case, hyphens and line
// ends as spaces, "%" as "percent", one space between words, and " . " for
// what ends a phrase, so that no term runs over it.
func plain(text string) string {
	var b strings.Builder
	b.Grow(len(text) + 2)
	space := true
	b.WriteByte(' ')
	put := func(s string) { b.WriteString(s); space = false }
	gap := func() {
		if !space {
			b.WriteByte(' ')
			space = true
		}
	}
	for _, c := range text {
		switch {
		case c == '%':
			gap()
			put("percent")
			gap()
		case c == '.' || c == ',' || c == ';' || c == ':' || c == '(' || c == ')' || c == '\n' || c == '|' || c == '*':
			gap()
			put(".")
			gap()
		case unicode.IsLetter(c) || unicode.IsDigit(c):
			c = unicode.ToLower(c)
			put(string(c))
		case c == '\'' || c == '’' || c == utf8.RuneError:
		default:
			gap()
		}
	}
	gap()
	return b.String()
}

// A find is one term found in plain text.
type find struct{ row, at, end int }

// findTerms finds the terms of all rows in plain text: at each place the
// longest one, none inside another.
func findTerms(t string, rows int, terms func(row int) string) []find {
	var all []find
	for r := range rows {
		for term := range strings.SplitSeq(terms(r), ";") {
			if term == "" {
				continue
			}
			pat := " " + term + " "
			for from := 0; ; {
				i := strings.Index(t[from:], pat)
				if i < 0 {
					break
				}
				at := from + i + 1
				all = append(all, find{r, at, at + len(term)})
				from = at + len(term) - 1
			}
		}
	}
	kept := all[:0:0]
	for _, f := range all {
		inside := false
		for _, g := range all {
			if g != f && g.at <= f.at && f.end <= g.end && g.end-g.at > f.end-f.at {
				inside = true
				break
			}
		}
		if !inside {
			kept = append(kept, f)
		}
	}
	return kept
}
