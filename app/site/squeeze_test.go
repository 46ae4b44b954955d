package site

import (
	"bytes"
	"compress/gzip"
	"io"
	"math/rand/v2"
	"os"
	"testing"
)

// unzip is Go's own reader, which shares nothing with squeeze.
func unzip(t *testing.T, packed []byte) []byte {
	t.Helper()
	r, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestSqueeze(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	noise := make([]byte, 100_000)
	for i := range noise {
		noise[i] = byte(rnd.Uint32())
	}
	text, err := os.ReadFile("../lang/zenglish.go")
	if err != nil {
		t.Fatal(err)
	}
	long := bytes.Repeat(text, 1+(stretch+1000)/len(text)) // more than one stretch
	for name, data := range map[string][]byte{
		"empty": {}, "one": {7}, "two": []byte("ab"), "zeros": make([]byte, 70_000),
		"noise": noise, "text": text, "long": long, "far": append(append([]byte("needle in"), noise[:window-9]...), "needle in"...),
	} {
		packed := squeeze(data)
		if got := unzip(t, packed); !bytes.Equal(got, data) {
			t.Errorf("%s: %d bytes came back as %d others", name, len(data), len(got))
		}
		if usual := len(zip(data)); len(packed) > usual+usual/100+20 {
			t.Errorf("%s: %d bytes, gzip -9 has %d", name, len(packed), usual)
		}
	}
	if a, b := len(squeeze(text)), len(zip(text)); a > b*98/100 {
		t.Errorf("text: %d bytes, gzip -9 has %d: not worth it", a, b)
	}
}

func TestCodesOfLengthsAndDistances(t *testing.T) {
	// First and last of some rows of the tables in RFC 1951, section 3.2.5.
	for length, want := range map[int][2]int{3: {257, 0}, 10: {264, 0}, 11: {265, 1}, 12: {265, 1}, 18: {268, 1}, 19: {269, 2}, 34: {272, 2}, 35: {273, 3}, 114: {279, 4}, 115: {280, 4}, 130: {280, 4}, 131: {281, 5}, 257: {284, 5}, 258: {285, 0}} {
		if code := lengthCode(length); code != want[0] || lengthExtra(code) != want[1] {
			t.Errorf("length %d: code %d with %d bits, want %v", length, code, lengthExtra(code), want)
		}
	}
	for distance, want := range map[int][2]int{1: {0, 0}, 4: {3, 0}, 5: {4, 1}, 6: {4, 1}, 7: {5, 1}, 9: {6, 2}, 13: {7, 2}, 24: {8, 3}, 193: {15, 6}, 32768: {29, 13}} {
		if code := distanceCode(distance); code != want[0] || distanceExtra(code) != want[1] {
			t.Errorf("distance %d: code %d with %d bits, want %v", distance, code, distanceExtra(code), want)
		}
	}
}

func FuzzSqueeze(f *testing.F) {
	f.Add([]byte("abcabcabcabd"))
	f.Add(bytes.Repeat([]byte{0, 1}, 300))
	f.Fuzz(func(t *testing.T, data []byte) {
		if !bytes.Equal(unzip(t, squeeze(data)), data) {
			t.Error("not the same")
		}
	})
}
