// Package site builds Cupsum's static site and serves it on loopback.
//
// The pages are written from our own templates in web/ and not with go-app's
// generator: so the same source gives the same bytes, nothing in a page is
// inline and a strict content security policy holds, and all addresses are
// relative, so one build works at a domain's root, in any folder, and from a
// disk.
package site

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"cupsum/app/lang"
)

// Options say what to build.
type Options struct {
	Dir    string      // where the files go; made if missing. Only files of these names are replaced
	Words  *lang.Words // the language of the pages
	Static app.UI      // what the program's page shows before the program: a pure view
	Pages  []Page      // further pages, like the evidence
	Log    io.Writer   // the table of files and sizes; nil: none
	Budget int         // most bytes, gzipped, of a first visit; 0: any number

	// Origin is the address of the host, like https://example.org, where it is
	// known. Browsers built on WebKit need it to run the page in a frame that is
	// sandboxed without allow-same-origin: there "self" matches nothing to them.
	Origin string

	// Program is the package that is compiled for the browser; empty: ./app.
	// Tests of the shell give it a program of their own.
	Program string
}

// Page is a further page of the site: text without the program.
type Page struct {
	File        string // "evidence.html"
	Title       string
	Description string
	Body        app.UI // a pure view
	Offline     bool   // fetched by the first visit already, for use offline
}

// file is one finished file of the site.
type file struct {
	name    string
	data    []byte
	first   bool     // part of a first visit
	offline bool     // kept by the service worker
	also    [][]byte // other forms in which a host may hand it over
}

// build is the state that the steps share.
type build struct {
	Options
	root     string // the module's folder
	wasm     []byte
	wasmGzip []byte
	files    []*file
}

// steps in order; each needs what the ones before it made.
var steps = []struct {
	name string
	run  func(*build) error
}{
	{"program", (*build).program},
	{"icons", (*build).icons},
	{"style", (*build).style},
	{"scripts", (*build).scripts},
	{"manifest", (*build).manifest},
	{"page of the program", (*build).index},
	{"embedding pages", (*build).embedPages},
	{"further pages", (*build).furtherPages},
	{"service worker", (*build).worker},
}

// Build makes the site and writes it to o.Dir.
func Build(o Options) error {
	root, err := moduleRoot()
	if err != nil {
		return err
	}
	b := &build{Options: o, root: root}
	for _, step := range steps {
		if err := step.run(b); err != nil {
			return fmt.Errorf("building the %s: %w", step.name, err)
		}
	}
	return b.write()
}

// moduleRoot is the folder of go.mod, upwards from where we are.
func moduleRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", fmt.Errorf("no go.mod here or above: run this inside the project's folder")
		}
		dir = up
	}
}

func (b *build) add(f *file) { b.files = append(b.files, f) }

func (b *build) find(name string) *file {
	i := slices.IndexFunc(b.files, func(f *file) bool { return f.name == name })
	if i < 0 {
		panic("site: no file " + name + " yet") // a step in the wrong place
	}
	return b.files[i]
}

// versioned is a file's address with a mark of its content, so that no cache
// between host and reader mixes two versions of the site.
func (b *build) versioned(name string) string {
	return name + "?" + mark(b.find(name).data)
}

// mark marks a content, short enough for an address.
func mark(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:5])
}

// sums are the checksums that the service worker accepts for a file.
func (f *file) sums() []string {
	var sums []string
	for _, data := range append([][]byte{f.data}, f.also...) {
		sum := sha256.Sum256(data)
		sums = append(sums, base64.StdEncoding.EncodeToString(sum[:]))
	}
	return sums
}

func (b *build) write() error {
	if err := os.MkdirAll(b.Dir, 0o755); err != nil {
		return err
	}
	for _, f := range b.files {
		if err := os.WriteFile(filepath.Join(b.Dir, f.name), f.data, 0o644); err != nil {
			return err
		}
	}
	total := b.table()
	if b.Budget > 0 && total > b.Budget {
		return fmt.Errorf("a first visit takes %d bytes gzipped, more than the %d that it may", total, b.Budget)
	}
	return nil
}

// table prints each file's size as it lies and as a compressing host sends it,
// and returns what a first visit takes in all.
func (b *build) table() int {
	out := b.Log
	if out == nil {
		out = io.Discard
	}
	fmt.Fprintf(out, "%-24s %10s %10s\n", "file", "raw", "gzip -9")
	var raw, packed int
	for _, f := range b.files {
		z := len(zip(f.data))
		when := ""
		if strings.HasSuffix(f.name, ".gz") || z > len(f.data) {
			z = len(f.data)
		}
		if f.first {
			when = "  first visit"
			raw += len(f.data)
			packed += z
		}
		fmt.Fprintf(out, "%-24s %10d %10d%s\n", f.name, len(f.data), z, when)
	}
	fmt.Fprintf(out, "%-24s %10d %10d\n", "first visit, all of it", raw, packed)
	return packed
}

// zip compresses as gzip -9 does, without a time stamp.
func zip(data []byte) []byte {
	var buf bytes.Buffer
	w, err := gzip.NewWriterLevel(&buf, gzip.BestCompression)
	if err != nil {
		panic(err) // the level is a constant
	}
	w.Write(data) // a bytes.Buffer takes everything
	w.Close()
	return buf.Bytes()
}
