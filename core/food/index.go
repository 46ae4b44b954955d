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
	names        []indexName
	list         []uint16 // the words of all names, as places in words
}

type indexName struct {
	food       uint16
	start, end uint16 // in list
	other      uint8  // 0: the food's name, else which of its other names
}

// searchIndex is made at the first search, not at the start of the page and not
// by the generator: it takes less time than its bytes would take to load.
var searchIndex = sync.OnceValue(makeIndex)

func makeIndex() *wordIndex {
	ix := &wordIndex{names: make([]indexName, 0, 3*Count()), list: make([]uint16, 0, 6*Count())}
	places := make(map[string]uint16, 3*Count())
	text := make([]byte, 0, 2*len(names))
	table := nameTable()
	for food := range foodAt {
		ix.add(food, 0, table.at(nameCount*food+1), places, &text)
		also := table.at(nameCount*food + 2)
		for k := 1; also != ""; k++ {
			var name string
			name, also, _ = strings.Cut(also, ";")
			ix.add(food, k, name, places, &text)
		}
	}
	return ix
}

// add puts one name in the index. Words that say nothing ("and", "con") are
// left out.
func (ix *wordIndex) add(food, other int, name string, places map[string]uint16, text *[]byte) {
	start := len(*text)
	*text = spell.Clean(*text, name)
	clean := (*text)[start:]
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
			ix.folds = append(ix.folds, spell.Fold(nil, w))
		}
		ix.list = append(ix.list, at)
	}
	if len(ix.list) > first {
		ix.names = append(ix.names, indexName{uint16(food), uint16(first), uint16(len(ix.list)), uint8(other)})
	}
}

// exact finds a word in singular or plural; -1 when no name has it.
func (ix *wordIndex) exact(word []byte) int {
	var buf [spell.MaxWord + 1]byte
	if len(word) > spell.MaxWord {
		return -1
	}
	fold := spell.Fold(buf[:0], word)
	for i, f := range ix.folds {
		if bytes.Equal(f, fold) {
			return i
		}
	}
	return -1
}

// isStop tells words that say nothing about a food, and words for amounts,
// which people type in front of it.
func isStop(w []byte) bool {
	switch string(w) {
	case "a", "an", "the", "of", "in", "on", "with", "without", "and", "or", "some", "my", "at", "to", "for",
		"de", "del", "la", "el", "los", "las", "con", "y", "en", "al",
		"cup", "cups", "oz", "ounce", "ounces", "tbsp", "tsp", "tablespoon", "tablespoons", "teaspoon", "teaspoons",
		"g", "gram", "grams", "lb", "lbs", "pound", "pounds", "taza", "tazas",
		"slice", "slices", "piece", "pieces", "bowl", "glass", "handful", "serving", "servings":
		return true
	}
	return false
}

func isNumber(w []byte) bool {
	return len(bytes.Trim(w, "0123456789")) == 0
}
