package food

import (
	"bytes"
	"strings"
	"sync"

	"cupsum/core/food/spell"
)

// A wordIndex holds every name of the catalogue as places in one list of words,
// so that a search compares each word once, however many names have it.
type wordIndex struct {
	words, folds [][]byte // clean words, and without singular and plural
	first        []byte   // the first letter of each
	letters      []uint32 // which letters each fold has, see letterSet
	byWord       hashes   // places in words
	byFold       hashes   // places in folds
	names        []indexName
	list         []uint16 // the words of all names, as places in words
	text         []byte   // all names, clean; words are parts of it
	foldText     []byte   // folds are parts of it
}

type indexName struct {
	food       uint16
	start, end uint16 // in list
	other      uint8  // 0: the food's name, else which of its other names
	from, to   uint32 // in text
}

// searchIndex is made by the first [Search], and not by the generator: its bytes
// would take a phone longer to load.
var searchIndex = sync.OnceValue(makeIndex)

func makeIndex() *wordIndex {
	size := 64
	for size < len(names)/4 { // far more than there are different words, none shorter than a letter
		size *= 2
	}
	ix := &wordIndex{
		words: make([][]byte, 0, 2*Count()), folds: make([][]byte, 0, 2*Count()),
		first: make([]byte, 0, 2*Count()), letters: make([]uint32, 0, 2*Count()),
		byWord: make(hashes, size), byFold: make(hashes, size),
		names: make([]indexName, 0, 3*Count()), list: make([]uint16, 0, 6*Count()),
		text: make([]byte, 0, 2*len(names)), foldText: make([]byte, 0, len(names)),
	}
	for food := range foodAt {
		id, name, also := namesOf(food)
		ix.add(food, 0, name)
		if !sameWords(id, name) {
			ix.add(food, 0, id) // the name at its shortest: chicken, where the name goes on ", whole or mixed pieces"
		}
		for k := 1; also != ""; k++ {
			var other string
			other, also, _ = strings.Cut(also, ";")
			ix.add(food, k, other)
		}
	}
	return ix
}

// sameWords tells whether the id is the name with hyphens for spaces.
func sameWords(id, name string) bool {
	if len(id) != len(name) {
		return false
	}
	for i := range id {
		if id[i] != name[i] && (id[i] != '-' || name[i] != ' ') {
			return false
		}
	}
	return true
}

// add puts one name in the index. Words that say nothing ("and", "con") are
// left out.
func (ix *wordIndex) add(food, other int, name string) {
	start := len(ix.text)
	ix.text = spell.Clean(ix.text, name)
	first := len(ix.list)
	for from := start; from < len(ix.text); {
		to := from
		for to < len(ix.text) && ix.text[to] != ' ' {
			to++
		}
		if w := ix.text[from:min(to, from+spell.MaxWord)]; !isStop(w) {
			ix.list = append(ix.list, ix.place(w))
		}
		from = to + 1
	}
	if len(ix.list) > first {
		ix.names = append(ix.names, indexName{uint16(food), uint16(first), uint16(len(ix.list)), uint8(other), uint32(start), uint32(len(ix.text))})
	}
}

// place finds a word's place and gives it one where it has none.
func (ix *wordIndex) place(w []byte) uint16 {
	slot, found := ix.byWord.find(ix.words, w)
	if found {
		return ix.byWord[slot] - 1
	}
	ix.words = append(ix.words, w)
	n := uint16(len(ix.words))
	ix.byWord[slot] = n
	at := len(ix.foldText)
	ix.foldText = spell.Fold(ix.foldText, w)
	fold := ix.foldText[at:]
	ix.folds = append(ix.folds, fold)
	ix.first = append(ix.first, w[0])
	ix.letters = append(ix.letters, letterSet(fold))
	if slot, found := ix.byFold.find(ix.folds, fold); !found {
		ix.byFold[slot] = n
	}
	return n - 1
}

// hashes is an open hash table of places in a list of words, plus one; 0 is
// free. It is never full.
type hashes []uint16

// find gives the slot of a word, or the free one where it would be.
func (h hashes) find(words [][]byte, w []byte) (slot int, found bool) {
	sum := uint32(2166136261) // FNV-1a
	for _, c := range w {
		sum = (sum ^ uint32(c)) * 16777619
	}
	for i := int(sum) & (len(h) - 1); ; i = (i + 1) & (len(h) - 1) {
		if h[i] == 0 {
			return i, false
		}
		if bytes.Equal(words[h[i]-1], w) {
			return i, true
		}
	}
}

// has tells whether a name has the word, in singular or plural.
func (ix *wordIndex) has(word []byte) bool {
	var buf [spell.MaxWord + 1]byte
	if len(word) > spell.MaxWord {
		return false
	}
	_, found := ix.byFold.find(ix.folds, spell.Fold(buf[:0], word))
	return found
}

// hasPair tells whether a name has the two words side by side, in singular or
// plural.
func (ix *wordIndex) hasPair(a, b []byte) bool {
	var buf [2 * (spell.MaxWord + 1)]byte
	foldA := spell.Fold(buf[:0], a)
	foldB := spell.Fold(buf[len(foldA):len(foldA)], b)
	for i := range ix.names {
		n := &ix.names[i]
		for k := int(n.start); k+1 < int(n.end); k++ {
			if bytes.Equal(ix.folds[ix.list[k]], foldA) && bytes.Equal(ix.folds[ix.list[k+1]], foldB) {
				return true
			}
		}
	}
	return false
}

// letterSet has a bit for each letter of the word. A letter that one word has
// and another has not costs at least one change, so most words need no closer
// look.
func letterSet(word []byte) uint32 {
	set := uint32(0)
	for _, c := range word {
		set |= 1 << (c & 31)
	}
	return set
}

// isStop tells words that say nothing about a food.
func isStop(w []byte) bool {
	switch string(w) {
	case "a", "an", "the", "of", "n", "in", "on", "with", "without", "and", "or", "some", "my", "at", "to", "for",
		"de", "del", "la", "el", "los", "las", "con", "y", "en", "al":
		return true
	}
	return false
}

// amountWords are what people type in front of a food.
const amountWords = " cup cups oz ounce ounces tbsp tsp tablespoon tablespoons teaspoon teaspoons g gram grams lb lbs pound pounds" +
	" taza tazas about half slice slices piece pieces bowl glass handful serving servings "

// isAmount tells numbers and words for amounts. A name may have them too: 2%
// milk, green gram.
func isAmount(w []byte) bool {
	number := true
	for _, c := range w {
		number = number && c <= '9'
	}
	for list := amountWords; !number && len(list) > 1; {
		next := strings.IndexByte(list[1:], ' ') + 1
		if list[1:next] == string(w) {
			return true
		}
		list = list[next:]
	}
	return number
}
