package journal

import (
	"strings"
)

const (
	format   = "1|"
	epochKey = "epoch"
	digits   = "0123456789abcdefghijklmnopqrstuvwxyz"
)

// version names one edit of one document.
type version struct {
	id     string
	clock  uint64
	writer string
}

func (v version) key() string {
	return format + v.id + "|" + clockText(v.clock) + "|" + v.writer
}

// compare is negative when v is the older edit.
func (v version) compare(w version) int {
	switch {
	case v.clock < w.clock:
		return -1
	case v.clock > w.clock:
		return 1
	}
	return strings.Compare(v.writer, w.writer)
}

// parseKey reads back what key wrote, and nothing else.
func parseKey(key string) (version, bool) {
	rest, ok := strings.CutPrefix(key, format)
	if !ok {
		return version{}, false
	}
	part := strings.Split(rest, "|")
	if len(part) != 3 || !validID(part[0]) || part[2] == "" {
		return version{}, false
	}
	clock, ok := parseClock(part[1])
	v := version{part[0], clock, part[2]}
	return v, ok && v.key() == key
}

// newer says whether a key is of a later format than this program's.
func newer(key string) bool {
	n, _, ok := strings.Cut(key, "|")
	if !ok || n == "" || len(n) > 4 || n[0] == '0' || n == "1" {
		return false
	}
	for _, c := range n {
		if c < '0' || c > '9' {
			return false
		}
	}
	return true
}

func validID(id string) bool {
	if id == "" || len(id) > 120 {
		return false
	}
	for _, c := range id {
		if c == '|' || c < ' ' || c == 0x7f || c == 0xfffd {
			return false
		}
	}
	return true
}

// clockText writes a clock in base 36, at least 6 digits wide so that keys sort
// like clocks for the first two billion edits.
func clockText(n uint64) string {
	var b [16]byte
	i := len(b)
	for n > 0 || i > len(b)-6 {
		i--
		b[i] = digits[n%36]
		n /= 36
	}
	return string(b[i:])
}

// parseClock refuses what clockText does not write, and clocks so high that
// counting on from them would overflow.
func parseClock(s string) (uint64, bool) {
	if len(s) < 6 || len(s) > 10 {
		return 0, false
	}
	var n uint64
	for i := range len(s) {
		d := strings.IndexByte(digits, s[i])
		if d < 0 {
			return 0, false
		}
		n = n*36 + uint64(d)
	}
	return n, true
}

// sealed is the value of a row: a checksum over key and body, so that neither a
// torn value nor one under a wrong key is taken for good.
func sealed(key, body string) string {
	if body == "" {
		body = "null"
	}
	return checksum(key, body) + " " + body
}

func unsealed(key, value string) (body string, ok bool) {
	sum, body, ok := strings.Cut(value, " ")
	if !ok || sum != checksum(key, body) {
		return "", false
	}
	if body == "null" {
		body = ""
	}
	return body, true
}

// checksum is FNV-1a, 64 bits, in 16 hexadecimal digits. It guards against
// accidents, not against people. (hash/fnv would do, and costs the page more.)
func checksum(key, body string) string {
	h := uint64(14695981039346656037)
	for _, s := range [...]string{key, "\n", body} {
		for i := range len(s) {
			h = (h ^ uint64(s[i])) * 1099511628211
		}
	}
	var b [16]byte
	for i := range b {
		b[15-i] = digits[h&15]
		h >>= 4
	}
	return string(b[:])
}
