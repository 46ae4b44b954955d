//go:build !js

package browser

import (
	"math/rand/v2"
	"strconv"

	"cupsum/app/browser/journal"
)

func openArea() journal.Area {
	f := journal.NewFake()
	f.Answer = journal.InMemory
	return f
}

func onAreaChange(func()) {}

func newWriter() string { return strconv.FormatUint(rand.Uint64(), 36) }

// StorageIsMemory says whether this browser keeps nothing for the page.
func StorageIsMemory() bool { return true }

// StorageIsLost says whether this browser threw away what it had kept.
func StorageIsLost() bool { return false }

// Print opens the browser's print dialogue. Call it after the frame is drawn.
func Print() {}

// Download saves text as a file of that name. mime is like "application/json".
func Download(name, mime, text string) {}

// PickFile lets the person choose a file and reads it as text. It reads at most
// limit bytes: a longer file comes with TooLong set and no text. f is not called
// when the person chooses none.
func PickFile(accept string, limit int, f func(File)) {}

// AfterFrame has f called when what was drawn is on screen.
func AfterFrame(f func()) {}

// Focus moves the keyboard focus to the element with that id, and says whether
// it is there.
func Focus(id string) bool { return false }

// SetValues sets what inputs show: id, text, id, text.
func SetValues(pairs ...string) {}

// Listen has f called with what a person does.
func Listen(f func(kind, a, b string)) {}

// Announce says text to a screen reader, once.
func Announce(text string) {}

// Fragment returns the address's part after #, decoded; SetFragment replaces it
// without a new entry in the history.
func Fragment() string { return "" }

// SetFragment: see Fragment.
func SetFragment(text string) {}

// IsEmbedded says whether the page runs inside another page's frame.
func IsEmbedded() bool { return false }

// Today is the local date as YYYY-MM-DD.
func Today() string { return "" }

// OnUpdateReady sets what is called when a newer version of the page has been
// fetched whole. It may have been fetched before the call.
func OnUpdateReady(f func()) {}

// ApplyUpdate loads the newer version. Nothing that was saved is lost.
func ApplyUpdate() {}
