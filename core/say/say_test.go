package say

import (
	"strings"
	"testing"
)

func TestQuote(t *testing.T) {
	long := strings.Repeat("é", 50)
	for _, tt := range []struct{ in, want string }{
		{"", ""},
		{"one cup", "one cup"},
		{long, strings.Repeat("é", 40) + "…"},
		{strings.Repeat("é", 40) + "…", strings.Repeat("é", 40) + "…"}, // once is enough
		{strings.Repeat("a", 10<<20), strings.Repeat("a", 40) + "…"},
	} {
		if got := Quote(tt.in); got != tt.want {
			t.Errorf("Quote of %d bytes: got %q", len(tt.in), got)
		}
	}
}

func TestClip(t *testing.T) {
	for _, tt := range []struct {
		in    string
		limit int
		want  string
	}{{"abc", 2, "ab"}, {"abc", 3, "abc"}, {"äöü", 2, "äö"}, {"äöü", 0, ""}, {"", 5, ""}} {
		if got := Clip(tt.in, tt.limit); got != tt.want {
			t.Errorf("Clip(%q, %d) = %q, want %q", tt.in, tt.limit, got, tt.want)
		}
	}
}

func TestProblem(t *testing.T) {
	p := Wrong("amount.no-number", strings.Repeat("x", 100), 3)
	if got := p.Error(); !strings.HasPrefix(got, "amount.no-number(xxx") || len(got) > 80 {
		t.Errorf("got %q", got)
	}
	if in := p.In("size"); in.Field != "size" || p.Field != "" || !strings.HasPrefix(in.Error(), "size: ") {
		t.Errorf("got %v and %v", in, p)
	}
}

func TestLine(t *testing.T) {
	if !(Line{}).IsZero() || New("a").IsZero() {
		t.Error("only the zero line says nothing")
	}
	if got := New("a.b", 1, Term{Kind: "food", ID: "x", Text: "plum"}, Term{ID: "y"}).String(); got != "a.b(1, plum, y)" {
		t.Errorf("got %q", got)
	}
}
