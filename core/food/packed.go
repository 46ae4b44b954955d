package food

import (
	"iter"
	"strings"

	"cupsum/core/amount"
	"cupsum/core/rule"
)

// The catalogue is packed by core/tables into zfood.go, so that it costs the
// page few bytes and its start no time: nothing is built before it is asked
// for.
//
//   - names and texts are one string each, cut up by lengths
//   - foodBytes holds one record a food, in the order of ids: whole numbers of
//     seven bits a byte, lowest first (as encoding/binary's uvarint)
//
// A record is: group, subgroup, colour, flags, source, origin, cautions, forms.
// A list is its length and its items. A decimal is its digits as a whole number
// times four, plus how many of them stand behind the point.

// nameCount is how many texts a food has in the names table: its id, its name
// (empty where it is the id with spaces for hyphens), and its other names in
// one, parted by semicolons.
const nameCount = 3

// mark is how many texts lie between two known offsets of a text table.
const mark = 16

// A textTable is many strings in one. The offset of every mark-th is kept, and
// the lengths of all.
type textTable struct {
	all   string
	marks []uint32
	sizes []uint16
}

func (t textTable) at(i int) string {
	start := int(t.marks[i/mark])
	for _, n := range t.sizes[i/mark*mark : i] {
		start += int(n)
	}
	return t.all[start : start+int(t.sizes[i])]
}

func nameTable() textTable { return textTable{names, nameMarks[:], nameSizes[:]} }

// reader reads a food's record.
type reader struct {
	at    int
	texts textTable
}

func readerOf(i int) *reader {
	return &reader{int(foodAt[i]), textTable{texts, textMarks[:], textSizes[:]}}
}

func (r *reader) number() int {
	v, shift := 0, 0
	for {
		b := foodBytes[r.at]
		r.at++
		v |= int(b&0x7f) << shift
		if b < 0x80 {
			return v
		}
		shift += 7
	}
}

func (r *reader) text() string { return r.texts.at(r.number()) }

func (r *reader) origin() rule.Origin { return rule.Origin(r.number()) }

var tens = [...]int64{1, 10, 100, 1000}

// decimal reads a decimal divided by over.
func (r *reader) decimal(over int64) amount.Num {
	v := int64(r.number())
	return amount.Frac(v>>2, tens[v&3]*over)
}

// equivalents reads a decimal of cups or ounces. Tables print thirds as 0.333
// and 0.667; here they are thirds again.
func (r *reader) equivalents() amount.Num {
	v := int64(r.number())
	if v&3 == 3 {
		switch whole, part := v>>2/1000, v>>2%1000; part {
		case 333:
			return amount.Frac(3*whole+1, 3)
		case 667:
			return amount.Frac(3*whole+2, 3)
		}
	}
	return amount.Frac(v>>2, tens[v&3])
}

// The columns that a form or a piece may have, as bits of its record's flags.
const (
	hasEqCup = 1 << iota
	hasEq100g
	hasGramCup
	hasGramRange
	hasGramAs
	hasDrained
	hasCooked
	hasEdible
	hasNote
	hasPieces
	hasParts
)

const (
	hasGrams = 1 << iota
	hasCount
	hasEq
	hasEqRange
	hasSize
)

// food reads the whole record.
func (r *reader) food() Food {
	f := Food{Group: Group(r.number()), Subgroup: Subgroup(r.number()), Colour: Colour(r.number()), Calcium: r.number() != 0}
	f.Source, f.Origin = r.text(), r.origin()
	if n := r.number(); n > 0 {
		f.Cautions = make([]string, n)
		for i := range f.Cautions {
			f.Cautions[i] = r.text()
		}
	}
	f.Forms = make([]Detail, r.number())
	for i := range f.Forms {
		r.form(&f.Forms[i])
	}
	return f
}

func (r *reader) form(d *Detail) {
	d.Form, d.Class = Form(r.number()), Class(r.text())
	d.Source, d.Origin = r.text(), r.origin()
	has := r.number()
	if has&hasEqCup != 0 {
		d.EqCup = r.equivalents()
	}
	if has&hasEq100g != 0 {
		d.Eq100g = r.decimal(1)
	}
	if has&hasGramCup != 0 {
		d.GramCup = amount.Exactly(r.decimal(1))
	}
	if has&hasGramRange != 0 {
		d.GramCup.Low, d.GramCup.High = r.decimal(1), r.decimal(1)
	}
	if has&hasGramAs != 0 {
		d.GramAs = r.decimal(1)
	}
	if has&hasDrained != 0 {
		d.Drained = amount.Amount{Low: r.decimal(100), Best: r.decimal(100), High: r.decimal(100)}
	}
	if has&hasCooked != 0 {
		d.Cooked = r.decimal(100)
	}
	if has&hasEdible != 0 {
		d.Edible = r.decimal(100)
	}
	if has&hasNote != 0 {
		d.Note = r.text()
	}
	if has&hasPieces != 0 {
		d.Pieces = make([]Piece, r.number())
		for i := range d.Pieces {
			r.piece(&d.Pieces[i])
		}
	}
	if has&hasParts != 0 {
		d.Parts = make([]Part, r.number())
		for i := range d.Parts {
			p := &d.Parts[i]
			p.Group, p.Subgroup, p.Class = Group(r.number()), Subgroup(r.number()), Class(r.text())
			p.Eq100g, p.Source, p.Origin = r.decimal(1), r.text(), r.origin()
		}
	}
}

func (r *reader) piece(p *Piece) {
	p.ID, p.Source, p.Origin = r.text(), r.text(), r.origin()
	p.Count = amount.Int(1)
	has := r.number()
	if has&hasSize != 0 {
		p.Size = r.text()
	}
	if has&hasGrams != 0 {
		p.Grams = r.decimal(1)
	}
	if has&hasCount != 0 {
		p.Count = r.decimal(1)
	}
	if has&hasEq != 0 {
		p.Eq = amount.Exactly(r.equivalents())
	}
	if has&hasEqRange != 0 {
		p.Eq.Low, p.Eq.High = r.equivalents(), r.equivalents()
	}
}

// Count is how many foods the catalogue has.
func Count() int { return len(foodAt) }

// at makes the view of the i-th food.
func at(i int) Food {
	f := readerOf(i).food()
	var also string
	f.ID, f.Name, also = namesOf(i)
	if also != "" {
		f.Also = strings.Split(also, ";")
	}
	return f
}

// namesOf gives the i-th food's id, name, and other names parted by semicolons.
func namesOf(i int) (id, name, also string) {
	n := nameTable()
	id, name, also = n.at(nameCount*i), n.at(nameCount*i+1), n.at(nameCount*i+2)
	if name == "" {
		name = strings.ReplaceAll(id, "-", " ")
	}
	return id, name, also
}

// groupOf gives the i-th food's group, with which its record begins.
func groupOf(i int) Group { return Group(foodBytes[foodAt[i]]) }

// index finds a food's place by its id.
func index(id string) (int, bool) {
	n := nameTable()
	low, high := 0, len(foodAt)
	for low < high {
		mid := (low + high) / 2
		switch strings.Compare(n.at(nameCount*mid), id) {
		case 0:
			return mid, true
		case -1:
			low = mid + 1
		default:
			high = mid
		}
	}
	return 0, false
}

// ByID finds a food of the catalogue.
func ByID(id string) (Food, bool) {
	i, ok := index(id)
	if !ok {
		return Food{}, false
	}
	return at(i), true
}

// All goes through the catalogue in the order of ids.
func All() iter.Seq[Food] {
	return func(yield func(Food) bool) {
		for i := range foodAt {
			if !yield(at(i)) {
				return
			}
		}
	}
}

// Foods lists the whole catalogue in the order of ids. It makes every view:
// use [ByID] or [All] where a part is enough.
func Foods() []Food {
	all := make([]Food, 0, Count())
	for f := range All() {
		all = append(all, f)
	}
	return all
}
