package site

import (
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Sizes compiles the page's program with its names kept and prints how many
// bytes of code each package has in it. What it costs gzipped is roughly 0.27
// of that.
func Sizes(out io.Writer) error {
	root, err := moduleRoot()
	if err != nil {
		return err
	}
	temp, err := os.MkdirTemp("", "cupsum-size-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	name := filepath.Join(temp, "app.wasm")
	if err := Wasm(root, "./app", name); err != nil {
		return err
	}
	wasm, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	sizes, code, data, err := packageSizes(wasm)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%9d code\n%9d data\n\n", code, data)
	for _, s := range sizes {
		if s.bytes >= 2000 {
			fmt.Fprintf(out, "%9d %s\n", s.bytes, s.name)
		}
	}
	return nil
}

type packageSize struct {
	name  string
	bytes int
}

// packageSizes reads a WebAssembly module with a name section: bytes of code by
// Go package, largest first, and of all code and data. The format is that of
// the WebAssembly core specification, section 5.5.
func packageSizes(wasm []byte) (sizes []packageSize, code, data int, err error) {
	defer func() {
		if recover() != nil { // an index beyond the end
			err = errors.New("this is no WebAssembly module, or a broken one")
		}
	}()
	const customSection, importSection, codeSection, dataSection = 0, 2, 10, 11
	var imports int
	var bodies []int
	var names map[int]string
	r := reader{wasm[8:]}
	for len(r.b) > 0 {
		id := r.byte()
		section := reader{r.take(r.number())}
		switch id {
		case customSection:
			if section.text() == "name" {
				names = section.functionNames()
			}
		case importSection:
			imports = section.importedFunctions()
		case codeSection:
			for range section.number() {
				n := section.number()
				section.take(n)
				bodies = append(bodies, n)
				code += n
			}
		case dataSection:
			data = len(section.b)
		}
	}
	if names == nil {
		return nil, 0, 0, errors.New("the module has no names")
	}
	sum := map[string]int{}
	for i, n := range bodies {
		sum[packageOf(names[i+imports])] += n
	}
	for name, n := range sum {
		sizes = append(sizes, packageSize{name, n})
	}
	slices.SortFunc(sizes, func(a, b packageSize) int {
		return cmp.Or(cmp.Compare(b.bytes, a.bytes), strings.Compare(a.name, b.name))
	})
	return sizes, code, data, nil
}

// packageOf is the import path in a symbol's name, in which Go's linker has put
// an underscore for each slash: all up to the first dot that is not a host's.
func packageOf(symbol string) string {
	host := ""
	if rest, ok := strings.CutPrefix(symbol, "github.com_"); ok {
		host, symbol = "github.com_", rest
	}
	name, _, ok := strings.Cut(symbol, ".")
	if !ok {
		return "(made by the compiler)"
	}
	return strings.ReplaceAll(host+name, "_", "/")
}

// reader takes a module apart. It panics at its end.
type reader struct{ b []byte }

func (r *reader) take(n int) []byte {
	part := r.b[:n]
	r.b = r.b[n:]
	return part
}

func (r *reader) byte() byte { return r.take(1)[0] }

func (r *reader) number() int {
	n, size := binary.Uvarint(r.b)
	r.take(size)
	return int(n)
}

func (r *reader) text() string { return string(r.take(r.number())) }

func (r *reader) functionNames() map[int]string {
	const functions = 1
	names := map[int]string{}
	for len(r.b) > 0 {
		kind := r.byte()
		part := reader{r.take(r.number())}
		if kind != functions {
			continue
		}
		for range part.number() {
			i := part.number()
			names[i] = part.text()
		}
	}
	return names
}

func (r *reader) importedFunctions() int {
	functions := 0
	for range r.number() {
		r.text()
		r.text()
		switch r.byte() {
		case 0: // function
			functions++
			r.number()
		case 1: // table
			r.byte()
			r.limits()
		case 2: // memory
			r.limits()
		case 3: // global
			r.take(2)
		}
	}
	return functions
}

func (r *reader) limits() {
	if r.byte()&1 == 1 {
		r.number()
	}
	r.number()
}
