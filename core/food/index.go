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
	byFold       map[string]bool
	names        []indexName
	list         []uint16 // the words of all names, as places in words
	text         []byte   // all names, clean
}

type indexName struct {
	food       uint16
	start, end uint16 // in list
	other      uint8  // 0: the food's name, else which of its other names
	from, to   uint32 // in text
}

// searchIndex is made at the first search, not at the start of the page and not
// by the generator: it takes less time than its bytes would take to load.
var searchIndex = sync.OnceValue(makeIndex)

func makeIndex() *wordIndex {
	ix := &wordIndex{names: make([]indexName, 0, 3*Count()), list: make([]uint16, 0, 6*Count())}
	ix.byFold = make(map[string]bool, 2*Count())
	places := make(map[string]uint16, 3*Count())
	ix.text = make([]byte, 0, 2*len(names))
	for food := range foodAt {
		id, name, also := namesOf(food)
		ix.add(food, 0, name, places)
		ix.add(food, 0, id, places) // the name at its shortest: chicken, where the name goes on ", whole or mixed pieces"
		for k := 1; also != ""; k++ {
			var name string
			name, also, _ = strings.Cut(also, ";")
			ix.add(food, k, name, places)
		}
	}
	return ix
}

// add puts one name in the index. Words that say nothing ("and", "con") are
// left out.
func (ix *wordIndex) add(food, other int, name string, places map[string]uint16) {
	start := len(ix.text)
	ix.text = spell.Clean(ix.text, name)
	clean := ix.text[start:]
	first := len(ix.list)
	for len(clean) > 0 {
		var w []byte
		w, clean, _ = bytes.Cut(clean, []byte(" "))
		w = w[:min(len(w), spell.MaxWord)]
		if isStop(w) {
			continue
		}
		at, ok := places[string(w)]
		if !ok {
			at = uint16(len(ix.words))
			places[string(w)] = at
			ix.words = append(ix.words, w)
			fold := spell.Fold(nil, w)
			ix.folds = append(ix.folds, fold)
			ix.first = append(ix.first, w[0])
			ix.letters = append(ix.letters, letterSet(fold))
			ix.byFold[string(fold)] = true
		}
		ix.list = append(ix.list, at)
	}
	if len(ix.list) > first {
		ix.names = append(ix.names, indexName{uint16(food), uint16(first), uint16(len(ix.list)), uint8(other), uint32(start), uint32(len(ix.text))})
	}
}

// has tells whether a name has the word, in singular or plural.
func (ix *wordIndex) has(word []byte) bool {
	var buf [spell.MaxWord + 1]byte
	return len(word) <= spell.MaxWord && ix.byFold[string(spell.Fold(buf[:0], word))]
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
