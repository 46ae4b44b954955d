package browser

import (
	"cupsum/app/browser/journal"
)

// The types that storage speaks in. See package journal for the protocol.
type (
	Entry   = journal.Entry   // one document: ID and JSON body; no body: deleted
	Outcome = journal.Outcome // how a save ended; its ID names the sentence for it
	Damage  = journal.Damage  // a stored row that can't be read, set aside
	Report  = journal.Report  // what a reading found
)

// How a save can end, and what can befall the store.
const (
	Kept     = journal.Kept
	InMemory = journal.InMemory
	Full     = journal.Full
	Cleared  = journal.Cleared
	Failed   = journal.Failed
	Lost     = journal.Lost
)

// Store keeps documents in this browser, together with the other tabs that show
// the same page. Typical use, in the root component:
//
//	store := browser.OpenStore()
//	docs, report := store.Load()
//	store.OnOtherTab(func(r browser.Report) { ctx.Dispatch(...store.Docs()...) })
//	store.Save([]browser.Entry{{ID: id, Body: body}}, func(o browser.Outcome) {
//		ctx.Dispatch(...show o...)
//	})
type Store struct {
	j      *journal.Journal
	report Report
	other  func(Report)
}

// OpenStore opens this page's store. It doesn't wait: the page's loader has
// opened the browser's database before the program starts. Where there is no
// storage (sandboxed frame, blocked cookies) the store works in memory and
// StorageIsMemory says so.
func OpenStore() *Store {
	s := NewStore(openArea())
	onAreaChange(s.reread)
	return s
}

// NewStore makes a store over any area, with a writer name of its own: tests
// give it a journal.Fake.
func NewStore(area journal.Area) *Store {
	s := &Store{j: journal.Open(area, newWriter())}
	s.report = s.j.Read()
	return s
}

// Load returns the documents that exist, sorted by ID, and what the reading
// found: damaged rows, rows of a newer program. Bodies are JSON; what is inside
// is for the caller to check.
func (s *Store) Load() ([]Entry, Report) { return s.j.Docs(), s.report }

// Docs returns the documents as this page now holds them, sorted by ID.
func (s *Store) Docs() []Entry { return s.j.Docs() }

// Save makes the entries the newest versions of their documents: at once in
// this page, and then in the browser. done (nil is fine) is called once: only
// with Kept will the edit outlive a killed browser. What could not be stored is
// held here and goes with the next save. All entries of one call are stored
// together. The error is for entries that can't be kept at all (a bad ID, a body
// that isn't JSON); then nothing was changed and done isn't called.
func (s *Store) Save(entries []Entry, done func(Outcome)) error { return s.j.Save(entries, done) }

// Unsaved counts the documents that are not known to be stored.
func (s *Store) Unsaved() int { return s.j.Unsaved() }

// NewID returns an ID for a new document that no other tab makes. IDs of one
// kind sort in the order in which they were made.
func (s *Store) NewID(kind string) string { return s.j.NewID(kind) }

// OnOtherTab sets what is called when another tab has changed documents, or
// when the store was emptied under the page (Report.Cleared: what the page holds
// is being saved again). Docs has the new state by then.
func (s *Store) OnOtherTab(f func(Report)) { s.other = f }

// DropDamaged removes the rows that were set aside.
func (s *Store) DropDamaged(done func(Outcome)) {
	s.report.Damaged = nil
	s.j.DropDamaged(done)
}

func (s *Store) reread() {
	r := s.j.Read()
	if r.Cleared {
		// What was confirmed must hold, so it is saved again at once.
		s.j.Save(nil, nil)
	}
	if s.other != nil && (len(r.Changed) > 0 || r.Cleared || len(r.Damaged) > len(s.report.Damaged)) {
		s.other(r)
	}
	s.report = r
}
