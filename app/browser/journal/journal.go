package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"unicode/utf8"
)

// Entry is one document: a portion, a setting, whatever the page keeps. A nil
// Body, or the JSON word null, means deleted.
type Entry struct {
	ID   string // 1 to 120 bytes, without "|" and control characters
	Body json.RawMessage
}

// Deleted says whether the entry removes its document.
func (e Entry) Deleted() bool {
	body := bytes.TrimSpace(e.Body)
	return len(body) == 0 || string(body) == "null"
}

// Damage is a stored row that can't be read: torn, altered, or not ours. It is
// left where it is until the person has it dropped.
type Damage struct{ Key, Value string }

// Report is what a reading of the area found.
type Report struct {
	Changed []string // IDs that now differ from what the journal held before, sorted
	Damaged []Damage // rows set aside, by key
	Newer   int      // rows that a later version of the program wrote; left alone
	Cleared bool     // the area was emptied under the page; what the page holds goes with the next save
}

// ErrID is returned for an ID that can't be part of a key.
var ErrID = errors.New("journal: the ID is empty, too long, or has a | or a control character in it")

// ErrBody is returned for a body that is not JSON in UTF-8.
var ErrBody = errors.New("journal: the body is not JSON in UTF-8")

// Journal holds the documents of one page and keeps them in step with an Area.
// It is not safe for use by several goroutines at once; the browser calls it
// from one.
type Journal struct {
	area    Area
	writer  string
	clock   uint64
	epoch   string
	epochIn bool // the epoch row is known to be stored
	docs    map[string]*held
	drop    map[string]bool // keys that a stored row has replaced
	damaged []Damage
	seen    map[string]bool // keys found by the last Read
}

// held is the newest known version of one document.
type held struct {
	version
	body  string // "" when deleted
	state state
}

// state tells how far a version has come on its way to the area.
type state uint8

const (
	unsaved state = iota
	flying        // given to Area.Write, not answered yet
	saved
)

const maxTombs, keepTombs = 256, 128

// Open returns a journal over area. writer must differ from that of every other
// page that is or was open, without "|": a dozen random letters. Call Read
// before anything else.
func Open(area Area, writer string) *Journal {
	return &Journal{
		area: area, writer: writer,
		docs: map[string]*held{}, drop: map[string]bool{},
	}
}

// NewID returns an ID that no other page makes. IDs sort in the order in which
// they were made, also across pages that had seen each other's edits.
func (j *Journal) NewID(kind string) string {
	j.clock++
	return kind + "-" + clockText(j.clock) + "-" + j.writer
}

// Docs returns the documents that exist, sorted by ID. Bodies are copies.
func (j *Journal) Docs() []Entry {
	docs := make([]Entry, 0, len(j.docs))
	for id, h := range j.docs {
		if h.body != "" {
			docs = append(docs, Entry{id, json.RawMessage(h.body)})
		}
	}
	slices.SortFunc(docs, func(a, b Entry) int { return strings.Compare(a.ID, b.ID) })
	return docs
}

// Unsaved counts the documents whose newest version is not known to be stored.
func (j *Journal) Unsaved() int {
	n := 0
	for _, h := range j.docs {
		if h.state != saved {
			n++
		}
	}
	return n
}

// Damaged returns the rows that the last Read set aside.
func (j *Journal) Damaged() []Damage { return slices.Clone(j.damaged) }

// DropDamaged removes the rows that were set aside, once a person has had the
// chance to keep a copy.
func (j *Journal) DropDamaged(done func(Outcome)) {
	var keys []string
	for _, d := range j.damaged {
		keys = append(keys, d.Key)
	}
	j.damaged = nil
	j.area.Write(nil, keys, done)
}

// Save makes the entries the newest versions of their documents, at once in
// this page, and stores them. done, which may be nil, is called once with the
// outcome, possibly before Save returns: only Kept means that the edit outlives
// a killed browser. On an error nothing has been changed and done isn't called.
func (j *Journal) Save(entries []Entry, done func(Outcome)) error {
	for _, e := range entries {
		if !validID(e.ID) {
			return ErrID
		}
		if !e.Deleted() && !(json.Valid(e.Body) && utf8.Valid(e.Body)) {
			return ErrBody
		}
	}
	for _, e := range entries {
		j.clock++
		h := &held{version: version{e.ID, j.clock, j.writer}}
		if !e.Deleted() {
			h.body = string(e.Body)
		}
		if old := j.docs[e.ID]; old != nil {
			j.drop[old.key()] = true
		}
		j.docs[e.ID] = h
	}
	j.flush(done)
	return nil
}

// flush writes all that the area does not have yet and removes what it has too
// much.
func (j *Journal) flush(done func(Outcome)) {
	var put []Pair
	var gone []*held
	if !j.epochIn {
		if j.epoch == "" {
			j.epoch = clockText(j.clock) + j.writer
		}
		put = append(put, Pair{epochKey, j.epoch})
	}
	for _, id := range j.ids() {
		if h := j.docs[id]; h.state == unsaved {
			h.state = flying
			gone = append(gone, h)
			put = append(put, Pair{h.key(), sealed(h.key(), h.body)})
		}
	}
	j.dropTombs()
	drop := make([]string, 0, len(j.drop))
	for key := range j.drop {
		drop = append(drop, key)
	}
	slices.Sort(drop)
	epoch := j.epoch
	j.area.Write(put, drop, func(o Outcome) {
		ok := o == Kept || o == InMemory
		for _, h := range gone {
			if h.state == flying {
				h.state = unsaved
				if ok {
					h.state = saved
				}
			}
		}
		if ok {
			j.epochIn = j.epochIn || epoch == j.epoch
			for _, key := range drop {
				delete(j.drop, key)
			}
		}
		if done != nil {
			done(o)
		}
	})
}

// dropTombs forgets the oldest deletions when there are many.
func (j *Journal) dropTombs() {
	var tombs []*held
	for _, h := range j.docs {
		if h.body == "" && h.state == saved {
			tombs = append(tombs, h)
		}
	}
	if len(tombs) <= maxTombs {
		return
	}
	slices.SortFunc(tombs, func(a, b *held) int { return a.compare(b.version) })
	for _, h := range tombs[:len(tombs)-keepTombs] {
		j.drop[h.key()] = true
		delete(j.docs, h.id)
	}
}

// Read takes in what the area holds now: at the start, and whenever another
// page has written. Edits that this page has not stored yet stay.
func (j *Journal) Read() Report {
	var r Report
	epoch := ""
	changed := map[string]bool{}
	j.damaged, j.seen = nil, map[string]bool{}
	j.area.Read(func(key, value string) {
		j.seen[key] = true
		if key == epochKey {
			epoch = value
			return
		}
		v, ok := parseKey(key)
		if !ok {
			if newer(key) {
				r.Newer++
			} else {
				j.damaged = append(j.damaged, Damage{key, value})
			}
			return
		}
		body, ok := unsealed(key, value)
		if !ok {
			j.damaged = append(j.damaged, Damage{key, value})
			return
		}
		j.clock = max(j.clock, v.clock)
		switch old := j.docs[v.id]; {
		case old == nil || v.compare(old.version) > 0:
			if old != nil {
				j.drop[old.key()] = true
			}
			if (old == nil && body != "") || (old != nil && old.body != body) {
				changed[v.id] = true
			}
			j.docs[v.id] = &held{version: v, body: body, state: saved}
		case v.compare(old.version) < 0:
			j.drop[key] = true
		default: // the row of what the page holds: stored, whatever the answer was
			old.state = saved
		}
	})
	j.missing(epoch, changed, &r)
	for id := range changed {
		r.Changed = append(r.Changed, id)
	}
	slices.Sort(r.Changed)
	slices.SortFunc(j.damaged, func(a, b Damage) int { return strings.Compare(a.Key, b.Key) })
	r.Damaged = slices.Clone(j.damaged)
	return r
}

// missing settles what to do with documents that were stored and are not there
// any more.
func (j *Journal) missing(epoch string, changed map[string]bool, r *Report) {
	emptied := j.epochIn && epoch != j.epoch
	for id, h := range j.docs {
		if h.state != saved || j.seen[h.key()] {
			continue
		}
		if emptied && h.body != "" {
			h.state = unsaved
			r.Cleared = true
			continue
		}
		// The same epoch: another page has forgotten an old deletion. A live row
		// can only vanish that way when this page slept through the deletion.
		if h.body != "" {
			changed[id] = true
		}
		delete(j.docs, id)
	}
	if epoch != "" {
		j.epoch, j.epochIn = epoch, true
	} else if emptied {
		j.epoch, j.epochIn = "", false
	}
}

func (j *Journal) ids() []string {
	ids := make([]string, 0, len(j.docs))
	for id := range j.docs {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}
