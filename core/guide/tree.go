package guide

import (
	"bytes"
	"encoding/json"
	"io"
	"strconv"
	"unicode/utf8"

	"cupsum/core/say"
)

// A node is one value of a JSON text with its path, so that an error can say
// where it is. encoding/json alone keeps the last of two equal names and tells
// errors in words of its own.
type node struct {
	path  string
	kind  nodeKind
	text  string // of a string, or a number as written
	names []string
	items []*node // of an object, beside names; of a list
}

type nodeKind uint8

const (
	otherNode nodeKind = iota // true, false, null
	textNode
	numberNode
	listNode
	objectNode
)

// maxDepth is deeper than any document of ours.
const maxDepth = 6

// readTree reads a JSON text whole. Errors are "program." problems.
func readTree(data []byte) (*node, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // some editors put it there
	if !utf8.Valid(data) {
		at := 0
		for at < len(data) {
			c, size := utf8.DecodeRune(data[at:])
			if c == utf8.RuneError && size <= 1 {
				break
			}
			at += size
		}
		return nil, say.Wrong("program.not-json", at+1)
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	n, err := readNode(d, "", 0)
	if err != nil {
		return nil, err
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, notJSON(d)
	}
	return n, nil
}

func notJSON(d *json.Decoder) error { return say.Wrong("program.not-json", int(d.InputOffset())+1) }

func readNode(d *json.Decoder, path string, depth int) (*node, error) {
	tok, err := d.Token()
	if err != nil || depth > maxDepth {
		return nil, notJSON(d)
	}
	n := &node{path: path}
	switch v := tok.(type) {
	case string:
		n.kind, n.text = textNode, v
	case json.Number:
		n.kind, n.text = numberNode, v.String()
	case json.Delim:
		if v == '{' {
			return readObject(d, n, depth)
		}
		return readList(d, n, depth)
	}
	return n, nil
}

func readObject(d *json.Decoder, n *node, depth int) (*node, error) {
	n.kind = objectNode
	for d.More() {
		tok, err := d.Token()
		name, ok := tok.(string)
		if err != nil || !ok {
			return nil, notJSON(d)
		}
		at := say.Quote(name)
		if n.path != "" {
			at = n.path + "." + at
		}
		if n.get(name) != nil {
			return nil, wrong(at, "program.twice", name)
		}
		item, err := readNode(d, at, depth+1)
		if err != nil {
			return nil, err
		}
		n.names, n.items = append(n.names, name), append(n.items, item)
		if len(n.items) > maxTargets {
			return nil, wrong(at, "program.unknown-key", name)
		}
	}
	_, err := d.Token()
	if err != nil {
		return nil, notJSON(d)
	}
	return n, nil
}

func readList(d *json.Decoder, n *node, depth int) (*node, error) {
	n.kind = listNode
	for d.More() {
		item, err := readNode(d, n.path+"["+strconv.Itoa(len(n.items))+"]", depth+1)
		if err != nil {
			return nil, err
		}
		n.items = append(n.items, item)
	}
	_, err := d.Token()
	if err != nil {
		return nil, notJSON(d)
	}
	return n, nil
}

// get finds a value of an object by its name; nil when there is none. Out of
// line for size, as wrong is.
//
//go:noinline
func (n *node) get(name string) *node {
	for i, have := range n.names {
		if have == name {
			return n.items[i]
		}
	}
	return nil
}

// is tells whether the value is there and this very text. Out of line for size.
//
//go:noinline
func (n *node) is(text string) bool { return n != nil && n.kind == textNode && n.text == text }

// at is the path of a value of an object.
func (n *node) at(name string) string {
	if n.path == "" {
		return name
	}
	return n.path + "." + name
}
