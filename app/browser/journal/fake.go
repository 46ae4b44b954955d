package journal

// Fake is an Area in memory, for tests and for a page without storage. Several
// journals may share one, as tabs share a browser's store.
type Fake struct {
	Rows map[string]string // what is stored; tests may damage it

	Answer Outcome // what a Write that goes through is answered with
	Room   int     // bytes of keys and values that fit; 0 means any number
	Late   bool    // keep answers back until Settle

	// Steps counts down single stores and removals. At 0 the page that writes
	// is killed: nothing more happens and nobody is told. Negative: never.
	Steps int

	answers []func()
}

// NewFake returns an empty store that never fails.
func NewFake() *Fake { return &Fake{Rows: map[string]string{}, Steps: -1} }

// Read is Area.Read.
func (f *Fake) Read(row func(key, value string)) {
	for k, v := range f.Rows {
		row(k, v)
	}
}

// Write is Area.Write.
func (f *Fake) Write(put []Pair, drop []string, done func(Outcome)) {
	if f.Answer != Kept && f.Answer != InMemory {
		f.answer(done, f.Answer)
		return
	}
	for _, p := range put {
		if f.killed() {
			return
		}
		if f.Room > 0 && f.size()+len(p.Key)+len(p.Value) > f.Room {
			f.answer(done, Full)
			return
		}
		f.Rows[p.Key] = p.Value
	}
	for _, key := range drop {
		if f.killed() {
			return
		}
		delete(f.Rows, key)
	}
	if !f.killed() {
		f.answer(done, f.Answer)
	}
}

// Settle gives the answers that Late kept back, in order.
func (f *Fake) Settle() {
	answers := f.answers
	f.answers = nil
	for _, a := range answers {
		a()
	}
}

func (f *Fake) answer(done func(Outcome), o Outcome) {
	if f.Late {
		f.answers = append(f.answers, func() { done(o) })
		return
	}
	done(o)
}

func (f *Fake) killed() bool {
	if f.Steps == 0 {
		return true
	}
	if f.Steps > 0 {
		f.Steps--
	}
	return false
}

func (f *Fake) size() int {
	n := 0
	for k, v := range f.Rows {
		n += len(k) + len(v)
	}
	return n
}
