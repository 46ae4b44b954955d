package site

import (
	stdhtml "html"
	"strconv"
	"strings"
)

// repair mends what go-app 10.1.9 writes for a server-rendered view:
//   - an attribute's value is quoted as a Go string, not as HTML;
//   - the value "true" becomes a bare attribute, which for aria-... means the
//     opposite of true, and "false" is written out, which for a boolean
//     attribute means on.
//
// Text between tags is escaped properly, so "<" begins a tag and nothing else.
func repair(s string) string {
	var out strings.Builder
	for {
		open := strings.IndexByte(s, '<')
		if open < 0 {
			return out.String() + s
		}
		out.WriteString(s[:open])
		s = repairTag(&out, s[open:])
	}
}

// repairTag writes the tag at the start of s and returns what follows it.
func repairTag(out *strings.Builder, s string) string {
	end := strings.IndexAny(s, " \n\t>")
	if end < 0 {
		out.WriteString(s)
		return ""
	}
	out.WriteString(s[:end])
	s = s[end:]
	for {
		s = strings.TrimLeft(s, " \n\t")
		if s == "" {
			return ""
		}
		if rest, ok := strings.CutPrefix(s, "/>"); ok {
			out.WriteString("/>")
			return rest
		}
		if s[0] == '>' {
			out.WriteByte('>')
			return s[1:]
		}
		end := strings.IndexAny(s, " \n\t=>")
		if end < 0 {
			out.WriteString(s)
			return ""
		}
		if end == 0 { // a "=" without a name: go-app writes none
			s = s[1:]
			continue
		}
		name, value, bare := s[:end], "", true
		s = s[end:]
		if quoted, err := strconv.QuotedPrefix(strings.TrimPrefix(s, "=")); err == nil && s[0] == '=' {
			value, _ = strconv.Unquote(quoted) // QuotedPrefix has checked it
			s, bare = s[1+len(quoted):], false
		}
		writeAttribute(out, name, value, bare)
	}
}

// truthful are attributes whose "true" and "false" are values; in all others
// that go-app writes they say whether the attribute is there.
func truthful(name string) bool {
	return strings.HasPrefix(name, "aria-") || strings.HasPrefix(name, "data-") || name == "contenteditable" || name == "draggable" || name == "spellcheck"
}

func writeAttribute(out *strings.Builder, name, value string, bare bool) {
	switch {
	case bare && truthful(name):
		value, bare = "true", false
	case value == "false" && !truthful(name):
		return
	}
	out.WriteString(" " + name)
	if !bare {
		out.WriteString(`="` + stdhtml.EscapeString(value) + `"`)
	}
}
