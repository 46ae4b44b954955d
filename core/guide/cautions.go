package guide

import (
	"slices"

	"cupsum/core/food"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// A Place is where a caution is shown.
type Place uint8

const (
	InFood   Place = iota // beside a food
	InHand                // beside a hand measure
	InTarget              // beside a person's target
	InPage                // on every view and print
)

// A Caution is a place where food, or counting it, can hurt someone. Its words
// are the message "caution." and the ID.
type Caution struct {
	ID     string
	Where  Place
	Source string
	Origin rule.Origin
}

// Line is the caution's sentence.
func (c Caution) Line() say.Line { return say.New("caution." + c.ID) }

// cautionRow is a row of data/cautions.csv with the place of its conditions.
type cautionRow struct {
	id     string
	where  Place
	first  uint8
	count  uint8
	source uint8
	origin rule.Origin
}

// condition is one way in which a caution comes to a food: all of it must
// hold. Listed asks that the food's own row names the caution.
type condition struct {
	listed bool
	group  food.Group // Extra: any
	form   food.Form  // NoForm: any
	class  food.Class // "": any
}

func (r *cautionRow) caution() Caution {
	return Caution{ID: r.id, Where: r.where, Source: sourceTexts[r.source], Origin: r.origin}
}

func (r *cautionRow) concerns(f *food.Food, d *food.Detail) bool {
	for _, c := range conditions[r.first : r.first+r.count] {
		if (!c.listed || slices.Contains(f.Cautions, r.id)) &&
			(c.group == food.Extra || c.group == f.Group) &&
			(c.form == food.NoForm || c.form == d.Form) &&
			(c.class == "" || c.class == d.Class) {
			return true
		}
	}
	return false
}

// CautionsFor lists what may hurt someone in a food in one of its forms: what
// the food's row names, and what comes with the form (cans, juice). The
// gravest comes first; nil when there is none.
func CautionsFor(f food.Food, d food.Detail) []Caution {
	var list []Caution
	for i := range cautionRows {
		if cautionRows[i].where == InFood && cautionRows[i].concerns(&f, &d) {
			list = append(list, cautionRows[i].caution())
		}
	}
	return list
}

// Cautions lists the cautions of a place.
func Cautions(where Place) []Caution {
	var list []Caution
	for i := range cautionRows {
		if cautionRows[i].where == where {
			list = append(list, cautionRows[i].caution())
		}
	}
	return list
}

// CautionByID finds a caution.
func CautionByID(id string) (Caution, bool) {
	for i := range cautionRows {
		if cautionRows[i].id == id {
			return cautionRows[i].caution(), true
		}
	}
	return Caution{}, false
}
