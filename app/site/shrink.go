package site

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
)

// Shrink makes a Go program for the browser smaller without changing what it
// does. Two things go:
//
//   - Go's linker writes its data as some ten thousand pieces, one for each run
//     of bytes without zeros. Fewer, longer pieces are larger raw and much
//     smaller gzipped, and start sooner.
//   - The tables that lead from an address to a function's name, file and line.
//     The runtime needs them for the trace that it prints after a crash, and for
//     runtime.Caller, which then answer "?" and 0. What is said of a panic stays.
//
// A module that is not laid out as we know it is an error: the caller then takes
// it as it is.
func Shrink(wasm []byte) ([]byte, error) {
	head, start, end, err := sectionAt(wasm, 11) // data
	if err != nil {
		return nil, err
	}
	memory, err := loadData(wasm[start:end])
	if err != nil {
		return nil, err
	}
	if err := dropLines(memory); err != nil {
		return nil, err
	}
	data := storeData(memory)
	out := append([]byte{}, wasm[:head+1]...)
	out = binary.AppendUvarint(out, uint64(len(data)))
	out = append(out, data...)
	return append(out, wasm[end:]...), nil
}

var errLayout = errors.New("the module is not laid out as expected")

// sectionAt finds a section: the byte that says which it is, and its content.
func sectionAt(wasm []byte, want byte) (head, start, end int, err error) {
	for at := 8; at < len(wasm); at = end {
		n, size := binary.Uvarint(wasm[at+1:])
		start, end = at+1+size, at+1+size+int(n)
		if size <= 0 || end > len(wasm) {
			break
		}
		if wasm[at] == want {
			return at, start, end, nil
		}
	}
	return 0, 0, 0, errLayout
}

// Opcodes of the expression that says where a piece of data goes.
const (
	i32Const = 0x41
	endExpr  = 0x0b
)

// loadData lays the pieces of a data section out as they lie in memory.
func loadData(section []byte) ([]byte, error) {
	r := section
	number := func() int {
		n, size := binary.Uvarint(r)
		if size <= 0 {
			r = nil
			return 0
		}
		r = r[size:]
		return int(n)
	}
	var memory []byte
	for range number() {
		if number() != 0 || len(r) < 2 || r[0] != i32Const {
			return nil, errLayout // only active pieces in memory 0
		}
		r = r[1:]
		at := number()
		// The address is a signed number, which reads as an unsigned one unless it
		// is negative; then it comes out huge.
		if len(r) == 0 || r[0] != endExpr || at > 1<<26 {
			return nil, errLayout
		}
		r = r[1:]
		n := number()
		if n > len(r) {
			return nil, errLayout
		}
		if at+n > len(memory) {
			memory = append(memory, make([]byte, at+n-len(memory))...)
		}
		copy(memory[at:], r[:n])
		r = r[n:]
	}
	if len(r) > 0 {
		return nil, errLayout
	}
	return memory, nil
}

// storeData is loadData's inverse. Zeros that fill a gap shorter than this are
// written out: shorter gaps cost more as pieces of their own. (Measured from 1
// to 4096; from 64 on it is all the same.)
const shortGap = 256

func storeData(memory []byte) []byte {
	var pieces []byte
	count := 0
	for at := 0; at < len(memory); {
		if memory[at] == 0 {
			at++
			continue
		}
		end, zeros := at, 0
		for i := at; i < len(memory) && zeros < shortGap; i++ {
			zeros++
			if memory[i] != 0 {
				zeros, end = 0, i+1
			}
		}
		pieces = append(pieces, 0, i32Const)
		pieces = appendSigned(pieces, at)
		pieces = append(pieces, endExpr)
		pieces = binary.AppendUvarint(pieces, uint64(end-at))
		pieces = append(pieces, memory[at:end]...)
		count++
		at = end
	}
	return append(binary.AppendUvarint(nil, uint64(count)), pieces...)
}

// appendSigned appends a number that is not negative in signed LEB128.
func appendSigned(b []byte, n int) []byte {
	for n >= 64 {
		b = append(b, byte(n)&0x7f|0x80)
		n >>= 7
	}
	return append(b, byte(n))
}

// The runtime's table of functions, as Go 1.20 to 1.26 lay it out: see pcHeader
// in runtime/symtab.go and _func in runtime/runtime2.go.
var pcMagic = []byte{0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8}

const (
	funcName      = 4
	funcStack     = 16
	funcFile      = 20
	funcLine      = 24
	funcTables    = 28
	funcUnit      = 32
	funcStartLine = 36
	funcSize      = 44
)

// dropLines empties the tables of names, files and lines in a program's memory.
func dropLines(memory []byte) (err error) {
	defer func() {
		if p := recover(); p != nil { // an index beyond the end
			err = fmt.Errorf("%w: %v", errLayout, p)
		}
	}()
	base := bytes.Index(memory, pcMagic)
	if base < 0 {
		return errLayout
	}
	word := func(i int) int { return int(binary.LittleEndian.Uint64(memory[base+8*i:])) }
	funcs, names, units, files, tables, list := word(1), word(4), word(5), word(6), word(7), word(8)
	if funcs <= 0 || !(72 <= names && names < units && units <= files && files < tables && tables < list && base+list < len(memory)) {
		return errLayout
	}
	table := memory[base+tables : base+list]
	kept, gone := make([]bool, len(table)), make([]bool, len(table))
	u32 := func(b []byte) int { return int(binary.LittleEndian.Uint32(b)) }
	for i := range funcs {
		f := memory[base+list+u32(memory[base+list+8*i+4:]):]
		markSequence(table, kept, u32(f[funcStack:]))
		for t := range u32(f[funcTables:]) {
			markSequence(table, kept, u32(f[funcSize+4*t:]))
		}
		markSequence(table, gone, u32(f[funcFile:]))
		markSequence(table, gone, u32(f[funcLine:]))
		for _, field := range []int{funcName, funcFile, funcLine, funcUnit, funcStartLine} {
			clear(f[field : field+4])
		}
	}
	for i := range table {
		if gone[i] && !kept[i] {
			table[i] = 0
		}
	}
	clear(memory[base+names : base+tables]) // names, compilation units, files
	return nil
}

// markSequence notes which bytes of table belong to the sequence that starts at off. It
// is pairs of numbers, and ends with a zero that is not the first.
func markSequence(table []byte, marks []bool, off int) {
	if off == 0 {
		return
	}
	at := off
	number := func() uint64 {
		n, size := binary.Uvarint(table[at:])
		if size <= 0 {
			panic("a sequence without end")
		}
		at += size
		return n
	}
	for first := true; ; first = false {
		if number() == 0 && !first {
			break
		}
		number()
	}
	for i := off; i < at; i++ {
		marks[i] = true
	}
}
