package spell

// MaxWord is the longest word that a Pattern holds; letters past it are left
// out.
const MaxWord = 32

// A Pattern is a word made ready to be compared with many others.
type Pattern struct {
	at [36]uint64 // for each letter and digit, the places where it stands
	n  int
}

// Make fills the pattern from a clean word.
func (p *Pattern) Make(word []byte) {
	*p = Pattern{n: min(len(word), MaxWord)}
	for i := range p.n {
		p.at[slot(word[i])] |= 1 << i
	}
}

func slot(c byte) int {
	if c >= 'a' && c <= 'z' {
		return int(c - 'a')
	}
	return 26 + int(c-'0')%10
}

// Distance counts the letters to insert, delete, replace or swap with their
// neighbour to get from the pattern to the word, and from the pattern to the
// nearest beginning of the word. It is the optimal string alignment distance,
// computed a column at a time in the bits of a machine word (Hyyrö, A bit-vector
// algorithm for computing Levenshtein and Damerau edit distances, 2003).
func (p *Pattern) Distance(word []byte) (whole, beginning int) {
	if p.n == 0 {
		return len(word), 0
	}
	last := uint64(1) << (p.n - 1)
	plus, minus, zero, before := ^uint64(0), uint64(0), uint64(0), uint64(0)
	whole, beginning = p.n, p.n
	for _, c := range word {
		here := p.at[slot(c)]
		swap := (^zero & here) << 1 & before
		zero = ((here & plus) + plus) ^ plus | here | minus | swap
		up := minus | ^(zero | plus)
		down := zero & plus
		if up&last != 0 {
			whole++
		}
		if down&last != 0 {
			whole--
		}
		up = up<<1 | 1
		plus = down<<1 | ^(zero | up)
		minus = up & zero
		before = here
		beginning = min(beginning, whole)
	}
	return whole, beginning
}
