package journal

// Outcome says how a save ended, or what befell the store. The zero value is
// the good one.
type Outcome int

const (
	Kept     Outcome = iota // stored; outlives a killed browser
	InMemory                // this browser keeps nothing here: gone when the page is closed
	Full                    // no room; held in the page and tried again with the next save
	Cleared                 // the store was emptied under the page; held in the page, saved again
	Failed                  // the store answered with an error; held in the page and tried again
	Lost                    // the browser had thrown the store away before the page was opened
)

// outcomeIDs are the messages of app/lang, in the order of the constants.
var outcomeIDs = [...]string{"store.kept", "store.memory", "store.full", "store.cleared", "store.failed", "store.lost"}

// ID names the message that tells a person about the outcome.
func (o Outcome) ID() string {
	if o < 0 || int(o) >= len(outcomeIDs) {
		return outcomeIDs[Failed]
	}
	return outcomeIDs[o]
}

// Pair is one row: a key that is written once, and its value.
type Pair struct{ Key, Value string }

// Area is the raw store of rows that a browser keeps for one site.
type Area interface {
	// Read calls row for each stored row, in any order, as of the last change
	// that this page has been told of.
	Read(row func(key, value string))

	// Write stores each pair in order and then removes each key in drop. A key
	// in drop that is not there is no error. It calls done exactly once, later
	// or at once: with Kept or InMemory when all of it is stored, else with what
	// went wrong; some of the pairs may then be stored, and no key has been
	// removed before all pairs were stored. Calls are carried out in order.
	Write(put []Pair, drop []string, done func(Outcome))
}
