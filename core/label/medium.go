package label

import (
	"strings"

	"cupsum/core/rule"
	"cupsum/core/say"
)

// mediumRow is one row of data/media.csv, best first.
type mediumRow struct {
	id     string
	form   string
	terms  string
	source string
	origin rule.Origin
}

// A Medium is what a canned fruit is packed in. The zero value is NoMedium; the
// others are generated from data/media.csv, a smaller one being the better
// choice, with less added sugar.
type Medium uint8

// ID is the medium's key: "water", "extra-light"; empty for NoMedium.
func (m Medium) ID() string { return mediumRows[m].id }

// Form is the catalogue's form for the medium: "canned-water"; empty for
// NoMedium.
func (m Medium) Form() string { return mediumRows[m].form }

// Term names the medium for a line.
func (m Medium) Term() say.Term { return say.Term{Kind: "medium", ID: m.ID(), Text: m.ID()} }

// Source names where the medium is defined.
func (m Medium) Source() (string, rule.Origin) { return mediumRows[m].source, mediumRows[m].origin }

// Media lists the packing media, best first.
func Media() []Medium {
	ms := make([]Medium, 0, len(mediumRows)-1)
	for i := 1; i < len(mediumRows); i++ {
		ms = append(ms, Medium(i))
	}
	return ms
}

// Advice says how the medium stands in the order of preference: that it is the
// best choice, or which ones have less added sugar.
func (m Medium) Advice() rule.Step {
	id := "label.medium.better"
	switch {
	case m == NoMedium:
		return rule.Step{}
	case m <= MediumJuice:
		id = "label.medium.good"
	}
	return rule.Step{Rule: rule.MediumOrder, Line: say.New(id, m.Term())}
}

// FindMedium finds the packing medium in a package's text: "peaches in light
// syrup". Of several it returns the one with most sugar, since that is what is
// in the can. A list of ingredients ("peaches, water, sugar") names none.
// Text over [MaxPanel] bytes is read up to there.
func FindMedium(text string) (Medium, bool) {
	return mediumIn(plain(text[:min(len(text), MaxPanel)]))
}

func mediumIn(t string) (Medium, bool) {
	best := NoMedium
	for _, f := range findTerms(t, len(mediumRows), func(i int) string { return mediumRows[i].terms }) {
		best = max(best, Medium(f.row))
	}
	for from := 0; ; {
		i := strings.Index(t[from:], " in ")
		if i < 0 {
			break
		}
		at := from + i
		from = at + 3
		best = max(best, packedIn(t[:at], t[from:]))
	}
	return best, best != NoMedium
}

// kitchenVerbs come before "in water" in directions, not on a can's front.
var kitchenVerbs = []string{"boil", "boiled", "cook", "cooked", "soak", "soaked", "heat", "simmer", "dissolve", "stir", "mix", "steam", "rinse", "wash", "blend", "place", "put", "stored", "store"}

// packedIn reads the words after "in": water, juice, or both. A syrup and a
// sweetened juice are found by their own terms.
func packedIn(before, after string) Medium {
	words := strings.Fields(before)
	for _, w := range words[max(0, len(words)-4):] {
		if oneOf(kitchenVerbs, w) {
			return NoMedium
		}
	}
	water, juice := false, false
	n := 0
	for w := range strings.FieldsSeq(after) {
		if n++; n > 6 || w == "." || strings.HasPrefix(w, "syrup") || w == "sauce" {
			break
		}
		water = water || w == "water"
		juice = juice || w == "juice" || w == "juices"
		if (water || juice) && w != "water" && w != "juice" && w != "juices" && w != "and" {
			break
		}
	}
	switch {
	case water && juice:
		return MediumJuiceWater
	case juice:
		return MediumJuice
	case water:
		return MediumWater
	}
	return NoMedium
}
