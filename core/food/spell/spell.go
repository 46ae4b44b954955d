// Package spell compares words as people type them: it cleans text down to
// plain letters, folds singular and plural together and counts how many letters
// two words differ by. It knows no foods.
package spell

import "unicode/utf8"

// MaxText is how many bytes of a text are looked at. No food has so long a
// name; what follows is left out, so that a pasted book costs nothing.
const MaxText = 160

// Clean appends the words of the text to dst, in plain lower-case letters and
// digits with one space between them. Accents go (jalapeño: jalapeno),
// apostrophes go without a gap (lamb's: lambs), and everything else, an emoji
// or a hyphen or a percent sign, parts two words.
func Clean(dst []byte, text string) []byte {
	if len(text) > MaxText {
		text = text[:MaxText]
	}
	start := len(dst)
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		i += size
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			dst = append(dst, byte(r))
		case r >= 'A' && r <= 'Z':
			dst = append(dst, byte(r)|0x20)
		case r == '\'' || r == '’' || r == 'ʼ' || r >= 0x300 && r <= 0x36f: // a combining accent
		default:
			letters := plain(r)
			if letters == "" {
				letters = " "
			}
			if letters == " " && (len(dst) == start || dst[len(dst)-1] == ' ') {
				continue
			}
			dst = append(dst, letters...)
		}
	}
	if len(dst) > start && dst[len(dst)-1] == ' ' {
		dst = dst[:len(dst)-1]
	}
	return dst
}

// bare holds the letter without its accent for each of U+00C0 to U+017F, and a
// space where there is none.
const bare = "AAAAAA CEEEEIIIIDNOOOOO OUUUUY  aaaaaa ceeeeiiiidnooooo ouuuuy y" +
	"AaAaAaCcCcCcCcDdDdEeEeEeEeEeGgGgGgGgHhHhIiIiIiIiIi  JjKkkLlLlLlLlLlNnNnNnnNnOoOoOo  RrRrRrSsSsSsSsTtTtTtUuUuUuUuUuUuWwYyYZzZzZzs"

// plain gives the plain letters for one that has an accent, and "" for what is
// not a Latin letter.
func plain(r rune) string {
	switch r {
	case 'ß':
		return "ss"
	case 'æ', 'Æ':
		return "ae"
	case 'œ', 'Œ':
		return "oe"
	}
	if r < 0xc0 || r > 0x17f {
		return ""
	}
	c := bare[r-0xc0] | 0x20
	if c == ' ' {
		return ""
	}
	return letters[c-'a' : c-'a'+1]
}

const letters = "abcdefghijklmnopqrstuvwxyz"

// Fold appends to dst what the singular and the plural of a clean word have in
// common: berry and berries, leaf and leaves, tomato and tomatoes, peach and
// peaches each fold to the same letters. The result need not be a word.
func Fold(dst, word []byte) []byte {
	n := len(word)
	if n > 3 && word[n-1] == 's' && word[n-2] != 's' && word[n-2] != 'u' && word[n-2] != 'i' {
		n--
	}
	if n > 3 && word[n-1] == 'e' {
		n--
	}
	dst = append(dst, word[:n]...)
	if n > 2 {
		switch last := &dst[len(dst)-1]; *last {
		case 'y':
			*last = 'i'
		case 'f':
			*last = 'v'
		}
	}
	return dst
}
