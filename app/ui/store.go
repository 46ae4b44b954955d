package ui

import (
	"bytes"
	"encoding/json"
	"maps"
	"slices"
	"strings"

	"cupsum/app/browser"
	"cupsum/core/day"
	"cupsum/core/guide"
	"cupsum/core/portion"
)

// The page keeps one document a portion, so that two tabs can edit the same
// day, and one for each setting. Portions' ids begin with portionKind.
const (
	portionKind = "p"

	docSet    = "set"
	docOwn    = "own-set"
	docTitle  = "title"
	docHands  = "hands"
	docOnHand = "kitchen"
	docPerson = "person"
)

// kept is what the page keeps in the browser.
type kept struct {
	sheet  day.Sheet
	person Person
}

// keeps gives what a model would have kept: the person's own day, also while a
// sample is on screen.
func (m Model) keeps() kept {
	if m.Day.Sheet.Demo {
		return kept{m.Day.Own, m.Person}
	}
	return kept{m.Day.Sheet, m.Person}
}

// is tells whether nothing that is kept has been replaced: a model's slices,
// maps and sets are never changed in place. It compares no portions, since it is
// asked at every key press.
func (k kept) is(old kept) bool {
	a, b := k.sheet, old.sheet
	return k.person == old.person && a.Set == b.Set && a.Own == b.Own && a.Title == b.Title &&
		len(a.Portions) == len(b.Portions) && (len(a.Portions) == 0 || &a.Portions[0] == &b.Portions[0]) &&
		slices.Equal(a.OnHand, b.OnHand) && maps.Equal(a.Hands, b.Hands)
}

// docs writes what is kept as documents, by id. Portions are not among them.
func (k kept) docs() map[string][]byte {
	docs := map[string][]byte{}
	set := func(id string, empty bool, x any) {
		if empty {
			return
		}
		body, err := json.Marshal(x)
		if err == nil { // texts, and maps and slices of them, always encode
			docs[id] = body
		}
	}
	set(docSet, k.sheet.Set == "" || k.sheet.Set == day.DefaultSet, k.sheet.Set)
	if k.sheet.Own != nil {
		docs[docOwn] = k.sheet.Own.JSON()
	}
	set(docTitle, k.sheet.Title == "", k.sheet.Title)
	set(docHands, len(k.sheet.Hands) == 0, k.sheet.Hands)
	set(docOnHand, len(k.sheet.OnHand) == 0, k.sheet.OnHand)
	set(docPerson, k.person == Person{}, k.person)
	return docs
}

// changes lists the documents that differ between what was kept and what is to
// be kept.
func changes(before, after kept) []browser.Entry {
	var list []browser.Entry
	if after.is(before) {
		return nil
	}
	was := make(map[string]portion.Portion, len(before.sheet.Portions))
	for _, p := range before.sheet.Portions {
		was[p.ID] = p
	}
	for _, p := range after.sheet.Portions {
		old, had := was[p.ID]
		delete(was, p.ID)
		if had && old == p {
			continue
		}
		if body, err := json.Marshal(p); err == nil {
			list = append(list, browser.Entry{ID: p.ID, Body: body})
		}
	}
	for _, id := range slices.Sorted(maps.Keys(was)) {
		list = append(list, browser.Entry{ID: id})
	}
	old, now := before.docs(), after.docs()
	for _, id := range []string{docSet, docOwn, docTitle, docHands, docOnHand, docPerson} {
		if !bytes.Equal(old[id], now[id]) {
			list = append(list, browser.Entry{ID: id, Body: now[id]})
		}
	}
	return list
}

// restore reads what was kept. A document that can't be read is given back, for
// the person to download; the rest is not touched by it.
func restore(docs []browser.Entry) (k kept, damaged []browser.Entry) {
	for _, d := range docs {
		var err error
		switch {
		case d.ID == docSet:
			err = json.Unmarshal(d.Body, &k.sheet.Set)
		case d.ID == docOwn:
			var own guide.Set
			if own, err = guide.ReadSet(d.Body); err == nil {
				k.sheet.Own = &own
			}
		case d.ID == docTitle:
			err = json.Unmarshal(d.Body, &k.sheet.Title)
		case d.ID == docHands:
			var hands map[string]string
			if err = json.Unmarshal(d.Body, &hands); err == nil {
				k.sheet.Hands = hands
			}
		case d.ID == docOnHand:
			var list []string
			if err = json.Unmarshal(d.Body, &list); err == nil {
				k.sheet.OnHand = list
			}
		case d.ID == docPerson:
			var p Person
			if err = json.Unmarshal(d.Body, &p); err == nil {
				k.person = p
			}
		case strings.HasPrefix(d.ID, portionKind+"-"):
			var p portion.Portion
			if err = json.Unmarshal(d.Body, &p); err == nil {
				p.ID = d.ID
				k.sheet.Portions = append(k.sheet.Portions, p)
			}
		}
		if err != nil {
			damaged = append(damaged, d)
		}
	}
	return k, damaged
}
