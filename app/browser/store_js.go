//go:build js

package browser

import (
	"syscall/js"

	"cupsum/app/browser/journal"
)

// area is the rows as web/store.js keeps them: in IndexedDB, or in memory where
// that is refused.
type area struct{ store js.Value }

func openArea() journal.Area { return area{page.Get("store")} }

func (a area) Read(row func(key, value string)) {
	rows := a.store.Get("rows")
	for i, n := 0, rows.Length(); i+1 < n; i += 2 {
		row(rows.Index(i).String(), rows.Index(i+1).String())
	}
}

func (a area) Write(put []journal.Pair, drop []string, done func(Outcome)) {
	pairs, keys := make([]any, 0, 2*len(put)), make([]any, 0, len(drop))
	for _, p := range put {
		pairs = append(pairs, p.Key, p.Value)
	}
	for _, k := range drop {
		keys = append(keys, k)
	}
	a.store.Call("write", pairs, keys, once(func(args []js.Value) {
		switch args[0].String() {
		case "kept":
			done(Kept)
		case "memory":
			done(InMemory)
		case "full":
			done(Full)
		default:
			done(Failed)
		}
	}))
}

func onAreaChange(f func()) {
	page.Get("store").Set("onchange", js.FuncOf(func(js.Value, []js.Value) any {
		f()
		return nil
	}))
}

func newWriter() string { return page.Get("store").Call("writer").String() }
