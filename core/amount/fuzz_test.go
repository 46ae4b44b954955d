package amount

import (
	"testing"
	"unicode/utf8"

	"cupsum/core/say"
)

// FuzzRead: whatever is typed, Read answers with an ordered range that is not
// negative, or with a problem; and what it answers can be printed and read.
func FuzzRead(f *testing.F) {
	for _, tt := range readTests {
		f.Add(tt.text)
	}
	for _, tt := range badTests {
		if len(tt.text) <= 2*MaxText {
			f.Add(tt.text)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := Read(text)
		if err != nil {
			p, ok := err.(*say.Problem)
			if !ok || p.ID == "" {
				t.Fatalf("%q: the error %v is no problem with a sentence", text, err)
			}
			for _, arg := range p.Args {
				if s, ok := arg.(string); ok && utf8.RuneCountInString(s) > 41 {
					t.Fatalf("%q: quotes %d letters", text, utf8.RuneCountInString(s))
				}
			}
			return
		}
		a := r.Amount
		if a.Low.Sign() < 0 || a.Best.Less(a.Low) || a.High.Less(a.Best) {
			t.Fatalf("%q: the range %s is out of order", text, a)
		}
		if !r.About && !r.IsRange && !a.IsExact() {
			t.Fatalf("%q: a range %s from nowhere", text, a)
		}
		n, d, ok := a.Best.Ints()
		if !ok {
			t.Fatalf("%q: %s is too big for what a kitchen writes", text, a)
		}
		if n <= 999_999_999 && d <= 999_999_999 {
			again, err := Read(a.Best.String())
			if err != nil || !again.Amount.Equal(Exactly(a.Best)) {
				t.Fatalf("%q: %s is read back as %s, %v", text, a.Best, again.Amount, err)
			}
		}
		if p := Mixed(a.Best); !p.Rounded && n <= 999_999_999 {
			again, err := Read(p.Text)
			if err != nil || !again.Amount.Equal(Exactly(a.Best)) {
				t.Fatalf("%q: printed %q is read back as %s, %v", text, p.Text, again.Amount, err)
			}
		}
	})
}
