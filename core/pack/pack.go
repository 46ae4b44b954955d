// Package pack reads and writes class packs: what an educator prepares for a
// class, small enough to travel in the part of an address behind "#", which
// browsers do not send. A pack comes from anybody. It can show text and https
// links, name foods of the catalogue and a target set, and nothing else.
package pack

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"errors"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/say"
)

// A pack's format, and what it may hold.
const (
	Format  = "cupsum-pack"
	Version = 1

	MaxBytes = 8 << 10 // of the JSON
	maxTitle = 80      // characters
	maxNote  = 600
	maxFoods = 60
	maxLinks = 10
	maxURL   = 500 // bytes
)

// A Pack is what an educator prepares. The json names are the pack's.
type Pack struct {
	Title string   `json:"title"`
	Note  string   `json:"note,omitempty"`  // a few sentences to the class
	Set   string   `json:"set,omitempty"`   // id of a guide.Set
	Lang  string   `json:"lang,omitempty"`  // BCP 47 tag of the language to show, where the page has it
	Foods []string `json:"foods,omitempty"` // what is on the table: catalogue ids
	Links []Link   `json:"links,omitempty"`
}

// A Link is an https link with its words.
type Link struct {
	Text string `json:"text"`
	URL  string `json:"url"`
}

type file struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	Pack
}

// Text writes the pack for an address: base64url of its JSON.
func (p Pack) Text() string {
	data, err := json.Marshal(file{Format, Version, p})
	if err != nil {
		panic(err) // strings and slices of them always encode
	}
	return base64.RawURLEncoding.EncodeToString(data)
}

// Read reads a pack from an address, or from its plain JSON. A pack that is
// broken or of another kind is refused as a whole with a [*say.Problem]; foods
// and sets that this catalogue does not have, and links that are not https, are
// left out and noted.
func Read(text string) (p Pack, notes []say.Line, err error) {
	if len(text) > 2*MaxBytes {
		return Pack{}, nil, say.Wrong("pack.too-large")
	}
	data := []byte(strings.TrimSpace(text))
	if len(data) > 0 && data[0] != '{' {
		if data, err = base64.RawURLEncoding.DecodeString(strings.TrimRight(string(data), "=")); err != nil {
			return Pack{}, nil, say.Wrong("pack.unreadable")
		}
	}
	if len(data) > MaxBytes {
		return Pack{}, nil, say.Wrong("pack.too-large")
	}
	f, err := decode(data)
	if err != nil {
		return Pack{}, nil, err
	}
	notes = f.Pack.clean()
	if f.Title == "" {
		return Pack{}, nil, say.Wrong("pack.no-title")
	}
	return f.Pack, notes, nil
}

// decode reads the JSON, which must be one object of this format and version
// and hold no other names: a misspelt one must not pass unseen.
func decode(data []byte) (file, error) {
	var head struct {
		Format  string `json:"format"`
		Version int    `json:"version"`
	}
	if !utf8.Valid(data) || json.Unmarshal(data, &head) != nil || head.Format != Format {
		return file{}, say.Wrong("pack.unreadable")
	}
	if head.Version != Version {
		return file{}, say.Wrong("pack.version", head.Version, Version)
	}
	var f file
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&f); err != nil {
		return file{}, say.Wrong("pack.unreadable")
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return file{}, say.Wrong("pack.unreadable")
	}
	return f, nil
}

// clean keeps of a pack what the page can show, and says what it left out.
func (p *Pack) clean() (notes []say.Line) {
	p.Title, p.Note = line(p.Title, maxTitle), lines(p.Note, maxNote)
	if _, ok := guide.SetByID(p.Set); !ok && p.Set != "" {
		notes = append(notes, say.New("pack.set", say.Quote(line(p.Set, maxTitle))))
		p.Set = ""
	}
	if p.Lang = line(p.Lang, 20); !isTag(p.Lang) {
		p.Lang = ""
	}
	p.Foods, notes = p.knownFoods(notes)
	var links []Link
	for _, l := range p.Links {
		l.Text, l.URL = line(l.Text, maxTitle), strings.TrimSpace(l.URL)
		if len(links) == maxLinks || l.Text == "" || !isHTTPS(l.URL) {
			notes = append(notes, say.New("pack.link", say.Quote(line(l.URL, maxTitle))))
			continue
		}
		links = append(links, l)
	}
	p.Links = links
	return notes
}

// knownFoods keeps the foods that the catalogue has, each once.
func (p *Pack) knownFoods(notes []say.Line) ([]string, []say.Line) {
	var known []string
	seen := map[string]bool{}
	missing := 0
	for _, id := range p.Foods {
		if seen[id] {
			continue
		}
		seen[id] = true
		if _, ok := food.ByID(id); !ok || len(known) == maxFoods {
			missing++
			continue
		}
		known = append(known, id)
	}
	if missing > 0 {
		notes = append(notes, say.New("pack.foods", missing))
	}
	return known, notes
}

// line makes one line of plain text: no control or formatting characters, which
// could turn the words around them.
func line(s string, limit int) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case unicode.IsControl(r) || unicode.Is(unicode.Cf, r) && r != '\u200d' && r != '\u200c':
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	return say.Clip(strings.Join(strings.Fields(s), " "), limit)
}

// lines makes plain text that keeps its line breaks.
func lines(s string, limit int) string {
	var kept []string
	for l := range strings.Lines(s) {
		if l = line(l, limit); l != "" {
			kept = append(kept, l)
		}
	}
	return say.Clip(strings.Join(kept, "\n"), limit)
}

// isHTTPS tells whether a text is an https address with a plain host name: no
// user, no port tricks, no spaces or control characters.
func isHTTPS(url string) bool {
	rest, ok := strings.CutPrefix(url, "https://")
	if !ok || len(url) > maxURL {
		return false
	}
	for _, r := range url {
		if r <= ' ' || r > '~' || strings.ContainsRune("\"'<>\\^`{|}", r) {
			return false
		}
	}
	host := rest
	if i := strings.IndexAny(rest, "/?#"); i >= 0 {
		host = rest[:i]
	}
	if host == "" || !strings.Contains(host, ".") || host[0] == '.' || host[0] == '-' {
		return false
	}
	return strings.IndexFunc(host, func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '.' || r == '-')
	}) < 0
}

// isTag tells whether a text has the shape of a BCP 47 language tag.
func isTag(s string) bool {
	return s != "" && strings.IndexFunc(s, func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-')
	}) < 0
}
