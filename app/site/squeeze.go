package site

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"hash/crc32"
	"io"
	"math"
)

// squeeze compresses to gzip as well as the format allows in some seconds: one
// part in twenty smaller than gzip -9 on a program. Where gzip takes the longest
// match at hand, this looks for the cheapest way through a stretch of the data,
// given what each symbol costs in bits, takes the costs from the result, and
// looks again (the way of optimal parsing, as Zopfli made it known). The format
// is RFC 1951 in RFC 1952.
func squeeze(data []byte) []byte {
	out := []byte{0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 2, 255}
	w := &bitWriter{out: out}
	finder := newFinder(data)
	for at := 0; at < len(data) || at == 0; at += stretch {
		end := min(at+stretch, len(data))
		squeezeStretch(w, finder, at, end)
		if end == len(data) {
			break
		}
	}
	// An empty last block: fixed codes, end of block.
	w.write(1|1<<1, 3)
	w.write(0, 7)
	out = w.flush()
	out = binary.LittleEndian.AppendUint32(out, crc32.ChecksumIEEE(data))
	out = binary.LittleEndian.AppendUint32(out, uint32(len(data)))
	// A packer that loses something is the worst fault a builder can have.
	r, err := gzip.NewReader(bytes.NewReader(out))
	if err == nil {
		var back []byte
		if back, err = io.ReadAll(r); err == nil && bytes.Equal(back, data) {
			return out
		}
	}
	panic("site: what squeeze packed does not unpack")
}

const (
	stretch  = 1 << 19 // bytes that are parsed together
	window   = 1 << 15
	minMatch = 3
	maxMatch = 258
	depth    = 160 // earlier places that are looked at for a match
	rounds   = 5
	endBlock = 256
)

// symbol is a literal (distance 0) or a match.
type symbol struct{ length, distance uint16 } // length: of a match, or the literal

// match is one way to go on: any length up to this, at this distance.
type match struct{ length, distance uint16 }

// finder finds matches through chains of places with the same three bytes.
type finder struct {
	data []byte
	head []int32
	prev []int32
	next int // the first place that is not in a chain yet
}

const hashBits = 16

func newFinder(data []byte) *finder {
	f := &finder{data: data, head: make([]int32, 1<<hashBits), prev: make([]int32, len(data))}
	for i := range f.head {
		f.head[i] = -1
	}
	return f
}

func (f *finder) hash(i int) uint32 {
	d := f.data
	return (uint32(d[i]) | uint32(d[i+1])<<8 | uint32(d[i+2])<<16) * 2654435761 >> (32 - hashBits)
}

// at appends the matches at place i, ever longer and ever farther. Places must
// come in order.
func (f *finder) at(i int, to []match) []match {
	longest := minMatch - 1
	most := min(maxMatch, len(f.data)-i)
	if most < minMatch {
		return to
	}
	h := f.hash(i)
	place := f.head[h]
	for range depth {
		if place < 0 || i-int(place) > window {
			break
		}
		p := int(place)
		if f.data[p+longest] == f.data[i+longest] || longest < minMatch {
			n := 0
			for n < most && f.data[p+n] == f.data[i+n] {
				n++
			}
			if n > longest {
				longest = n
				to = append(to, match{uint16(n), uint16(i - p - 1)}) // distance less one fits
				if n == most {
					break
				}
			}
		}
		place = f.prev[p]
	}
	f.prev[i] = f.head[h]
	f.head[h] = int32(i)
	return to
}

// costs are bits for each literal or length, and for each distance's code.
type costs struct {
	literal  [256]float32
	length   [maxMatch + 1]float32
	distance [30]float32
}

func squeezeStretch(w *bitWriter, f *finder, from, to int) {
	n := to - from
	var all []match
	first := make([]int32, n+1) // where a place's matches begin in all
	for i := range n {
		first[i] = int32(len(all))
		all = f.at(from+i, all)
	}
	first[n] = int32(len(all))
	matches := func(i int) []match { return all[first[i]:first[i+1]] }

	symbols := cheapest(f.data[from:to], matches, firstGuess())
	for range rounds {
		var c counts
		c.add(symbols)
		symbols = cheapest(f.data[from:to], matches, c.costs())
	}
	// Each block once more with its own costs.
	at := 0
	for _, size := range splitBlocks(symbols) {
		block, bytes := symbols[:size], 0
		symbols = symbols[size:]
		for _, s := range block {
			bytes += s.size()
		}
		begin := at
		for range 2 {
			var c counts
			c.add(block)
			block = cheapest(f.data[from+begin:from+begin+bytes], func(i int) []match { return matches(begin + i) }, c.costs())
		}
		writeBlock(w, block)
		at += bytes
	}
}

func (s symbol) size() int {
	if s.distance == 0 {
		return 1
	}
	return int(s.length)
}

// firstGuess are costs before anything is known.
func firstGuess() *costs {
	c := &costs{}
	for i := range c.literal {
		c.literal[i] = 8
	}
	for i := range c.length {
		c.length[i] = 7
	}
	for i := range c.distance {
		c.distance[i] = 5 + float32(distanceExtra(i))
	}
	return c
}

// cheapest is the way through data that costs the fewest bits.
func cheapest(data []byte, matches func(int) []match, c *costs) []symbol {
	n := len(data)
	best := make([]float32, n+1)
	came := make([]symbol, n+1)
	for i := 1; i <= n; i++ {
		best[i] = math.MaxFloat32
	}
	for i := range n {
		here := best[i]
		if cost := here + c.literal[data[i]]; cost < best[i+1] {
			best[i+1], came[i+1] = cost, symbol{uint16(data[i]), 0}
		}
		length := minMatch
		for _, m := range matches(i) {
			base := here + c.distance[distanceCode(int(m.distance)+1)]
			for ; length <= int(m.length) && i+length <= n; length++ {
				if cost := base + c.length[length]; cost < best[i+length] {
					best[i+length], came[i+length] = cost, symbol{uint16(length), m.distance + 1}
				}
			}
		}
	}
	count := 0
	for i := n; i > 0; i -= came[i].size() {
		count++
	}
	way := make([]symbol, count)
	for i := n; i > 0; i -= came[i].size() {
		count--
		way[count] = came[i]
	}
	return way
}

// splitBlocks says how many symbols each block should have: small pieces, joined
// with their neighbour as long as that saves bits.
func splitBlocks(symbols []symbol) []int {
	const piece = 2048
	type block struct {
		counts
		symbols int
		bits    float64
	}
	var blocks []*block
	for i := 0; i < len(symbols); i += piece {
		part := symbols[i:min(i+piece, len(symbols))]
		b := &block{symbols: len(part)}
		b.add(part)
		b.bits = b.counts.bits()
		blocks = append(blocks, b)
	}
	for {
		best, at := 0.0, -1
		var joined *block
		for i := range len(blocks) - 1 {
			j := &block{counts: blocks[i].counts, symbols: blocks[i].symbols + blocks[i+1].symbols}
			j.join(&blocks[i+1].counts)
			j.bits = j.counts.bits()
			if saved := blocks[i].bits + blocks[i+1].bits - j.bits; saved > best {
				best, at, joined = saved, i, j
			}
		}
		if at < 0 {
			break
		}
		blocks[at] = joined
		blocks = append(blocks[:at+1], blocks[at+2:]...)
	}
	var sizes []int
	for _, b := range blocks {
		sizes = append(sizes, b.symbols)
	}
	return sizes
}
