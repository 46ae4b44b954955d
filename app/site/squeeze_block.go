package site

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// The second half of squeeze: what symbols cost, and how a block of them is
// written. Numbers of codes and extra bits: RFC 1951, section 3.2.5.

// lengthCode is the code of a match's length, from 257.
func lengthCode(length int) int {
	switch {
	case length < 11:
		return 254 + length
	case length == maxMatch:
		return 285
	}
	n := length - 3
	b := bits.Len(uint(n)) - 3
	return 257 + 4*(b+1) + n>>b&3
}

func lengthExtra(code int) int {
	if code < 265 || code == 285 {
		return 0
	}
	return (code - 261) / 4
}

// distanceCode is the code of a distance, from 0.
func distanceCode(distance int) int {
	n := distance - 1
	if n < 4 {
		return n
	}
	b := bits.Len(uint(n)) - 2
	return 2*(b+1) + n>>b&1
}

func distanceExtra(code int) int { return max(0, code/2-1) }

// counts are how often each code stands in a block.
type counts struct {
	literals  [286]int
	distances [30]int
}

func (c *counts) add(symbols []symbol) {
	for _, s := range symbols {
		if s.distance == 0 {
			c.literals[s.length]++
			continue
		}
		c.literals[lengthCode(int(s.length))]++
		c.distances[distanceCode(int(s.distance))]++
	}
	c.literals[endBlock] = 1
}

func (c *counts) join(d *counts) {
	for i, n := range d.literals {
		c.literals[i] += n
	}
	for i, n := range d.distances {
		c.distances[i] += n
	}
	c.literals[endBlock] = 1
}

// entropy is the cost in bits of each code by its share; one that does not occur
// costs as if it did once.
func entropy(counts []int) []float32 {
	sum := 0
	for _, n := range counts {
		sum += n
	}
	cost := make([]float32, len(counts))
	for i, n := range counts {
		cost[i] = float32(math.Log2(float64(sum+1)) - math.Log2(float64(max(n, 1))))
	}
	return cost
}

func (c *counts) costs() *costs {
	out := &costs{}
	literals, distances := entropy(c.literals[:]), entropy(c.distances[:])
	copy(out.literal[:], literals)
	for length := minMatch; length <= maxMatch; length++ {
		code := lengthCode(length)
		out.length[length] = literals[code] + float32(lengthExtra(code))
	}
	for code := range out.distance {
		out.distance[code] = distances[code] + float32(distanceExtra(code))
	}
	return out
}

// bits estimates the size of a block, its tables included.
func (c *counts) bits() float64 {
	sum := 40.0
	for _, part := range [][]int{c.literals[:], c.distances[:]} {
		total := 0
		for _, n := range part {
			total += n
		}
		for _, n := range part {
			if n > 0 {
				sum += float64(n)*(math.Log2(float64(total))-math.Log2(float64(n))) + 3.2
			}
		}
	}
	for code, n := range c.literals[257:] {
		sum += float64(n * lengthExtra(257+code))
	}
	for code, n := range c.distances {
		sum += float64(n * distanceExtra(code))
	}
	return sum
}

// codeLengths are the lengths of an optimal prefix code with none above limit
// (package-merge). A lone code gets one bit.
func codeLengths(counts []int, limit int) []int {
	type item struct {
		weight int
		codes  []int
	}
	var leaves []item
	for code, n := range counts {
		if n > 0 {
			leaves = append(leaves, item{n, []int{code}})
		}
	}
	lengths := make([]int, len(counts))
	if len(leaves) == 1 {
		lengths[leaves[0].codes[0]] = 1
		return lengths
	}
	byWeight := func(a, b item) int { return cmp.Compare(a.weight, b.weight) }
	slices.SortStableFunc(leaves, byWeight)
	level := leaves
	for range limit - 1 {
		var pairs []item
		for i := 0; i+1 < len(level); i += 2 {
			codes := append(slices.Clone(level[i].codes), level[i+1].codes...)
			pairs = append(pairs, item{level[i].weight + level[i+1].weight, codes})
		}
		level = append(slices.Clone(leaves), pairs...)
		slices.SortStableFunc(level, byWeight)
	}
	for _, it := range level[:max(0, 2*len(leaves)-2)] {
		for _, code := range it.codes {
			lengths[code]++
		}
	}
	return lengths
}

// codesOf gives each length its code, bits reversed as they are written.
func codesOf(lengths []int) []uint32 {
	codes := make([]uint32, len(lengths))
	next := uint32(0)
	for n := 1; n <= 15; n++ {
		next <<= 1
		for i, l := range lengths {
			if l == n {
				codes[i] = bits.Reverse32(next) >> (32 - n)
				next++
			}
		}
	}
	return codes
}

// The order in which the lengths of the code for code lengths are written.
var lengthOrder = [19]int{16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15}

// run is one symbol of the code for code lengths, with its extra bits.
type run struct{ code, extra, bits int }

// runs writes code lengths as symbols, repeated ones in short.
func runs(lengths []int) []run {
	var out []run
	for i := 0; i < len(lengths); {
		n := 1
		for i+n < len(lengths) && lengths[i+n] == lengths[i] {
			n++
		}
		l, rest := lengths[i], n
		i += n
		if l == 0 {
			for rest >= 11 {
				k := min(rest, 138)
				out = append(out, run{18, k - 11, 7})
				rest -= k
			}
			if rest >= 3 {
				out = append(out, run{17, rest - 3, 3})
				rest = 0
			}
		} else {
			out = append(out, run{l, 0, 0})
			for rest--; rest >= 3; {
				k := min(rest, 6)
				out = append(out, run{16, k - 3, 2})
				rest -= k
			}
		}
		for range rest {
			out = append(out, run{l, 0, 0})
		}
	}
	return out
}

// writeBlock writes a block with codes of its own, not marked as the last.
func writeBlock(w *bitWriter, symbols []symbol) {
	var c counts
	c.add(symbols)
	literals, distances := codeLengths(c.literals[:], 15), codeLengths(c.distances[:], 15)
	if !slices.ContainsFunc(distances, func(l int) bool { return l > 0 }) {
		distances[0] = 1 // one at least must be there
	}
	last := func(lengths []int, least int) int {
		n := len(lengths)
		for n > least && lengths[n-1] == 0 {
			n--
		}
		return n
	}
	nl, nd := last(literals, 257), last(distances, 1)
	tables := runs(append(slices.Clone(literals[:nl]), distances[:nd]...))
	var used [19]int
	for _, r := range tables {
		used[r.code]++
	}
	inner := codeLengths(used[:], 7)
	ni := len(lengthOrder)
	for ni > 4 && inner[lengthOrder[ni-1]] == 0 {
		ni--
	}
	w.write(0|2<<1, 3)
	w.write(uint32(nl-257), 5)
	w.write(uint32(nd-1), 5)
	w.write(uint32(ni-4), 4)
	for _, i := range lengthOrder[:ni] {
		w.write(uint32(inner[i]), 3)
	}
	innerCodes := codesOf(inner)
	for _, r := range tables {
		w.write(innerCodes[r.code], inner[r.code])
		w.write(uint32(r.extra), r.bits)
	}
	literalCodes, distanceCodes := codesOf(literals), codesOf(distances)
	for _, s := range symbols {
		if s.distance == 0 {
			w.write(literalCodes[s.length], literals[s.length])
			continue
		}
		code := lengthCode(int(s.length))
		w.write(literalCodes[code], literals[code])
		w.write(uint32(s.length-3)&(1<<lengthExtra(code)-1), lengthExtra(code))
		code = distanceCode(int(s.distance))
		w.write(distanceCodes[code], distances[code])
		w.write(uint32(s.distance-1)&(1<<distanceExtra(code)-1), distanceExtra(code))
	}
	w.write(literalCodes[endBlock], literals[endBlock])
}

// bitWriter writes numbers, lowest bit first.
type bitWriter struct {
	out  []byte
	bits uint64
	n    int
}

func (w *bitWriter) write(value uint32, n int) {
	w.bits |= uint64(value) << w.n
	for w.n += n; w.n >= 8; w.n -= 8 {
		w.out = append(w.out, byte(w.bits))
		w.bits >>= 8
	}
}

func (w *bitWriter) flush() []byte {
	if w.n > 0 {
		w.out = append(w.out, byte(w.bits))
	}
	return w.out
}
