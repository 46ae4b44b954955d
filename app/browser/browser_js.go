//go:build js

package browser

import (
	"syscall/js"
)

// page is the object that web/boot.js makes before the program starts. All
// that may throw in a browser is caught there, since an exception out of a
// getter would end the Go program.
var page = js.Global().Get("cupsum")

// StorageIsMemory says whether this browser keeps nothing for the page.
func StorageIsMemory() bool { return page.Get("store").Get("memory").Bool() }

// StorageIsLost says whether this browser threw away what it had kept for the
// page before it was opened, with no second copy left.
func StorageIsLost() bool { return page.Get("store").Get("lost").Bool() }

// Print opens the browser's print dialogue. Call it after the frame is drawn.
func Print() { page.Call("print") }

// Download saves text as a file of that name. mime is like "application/json".
func Download(name, mime, text string) { page.Call("download", name, mime, text) }

// PickFile lets the person choose a file and reads it as text. It reads at most
// limit bytes: a longer file comes with TooLong set and no text. f is not called
// when the person chooses none.
func PickFile(accept string, limit int, f func(File)) {
	page.Call("pick", accept, limit, once(func(args []js.Value) {
		name, size, text := args[0].String(), args[1].Int(), args[2]
		out := File{Name: name, Size: size, TooLong: size > limit}
		if text.Type() == js.TypeString {
			out.Text = text.String()
		} else {
			out.Failed = !out.TooLong
		}
		f(out)
	}))
}

// AfterFrame has f called when what was drawn is on screen.
func AfterFrame(f func()) { page.Call("afterFrame", once(func([]js.Value) { f() })) }

// Focus moves the keyboard focus to the element with that id, and says whether
// it is there.
func Focus(id string) bool { return page.Call("focus", id).Bool() }

// SetValues sets what inputs show: id, text, id, text. go-app drops an empty
// value, so clearing an input needs this.
func SetValues(pairs ...string) {
	args := make([]any, len(pairs))
	for i, s := range pairs {
		args[i] = s
	}
	page.Call("setValues", args...)
}

// Listen has f called with what a person does: ("press", do, arg) for a button,
// ("type", field, text) for an input, ("key", name, "") for a key that moves in
// the list of foods, and ("leave", "", "") when the focus leaves it.
func Listen(f func(kind, a, b string)) {
	page.Call("listen", js.FuncOf(func(_ js.Value, args []js.Value) any {
		f(args[0].String(), args[1].String(), args[2].String())
		return nil
	}))
}

// Announce says text to a screen reader, once.
func Announce(text string) { page.Call("announce", text) }

// Fragment returns the address's part after #, decoded; SetFragment replaces it
// without a new entry in the history.
func Fragment() string { return page.Call("fragment").String() }

// SetFragment: see Fragment.
func SetFragment(text string) { page.Call("setFragment", text) }

// IsEmbedded says whether the page runs inside another page's frame.
func IsEmbedded() bool { return page.Get("embedded").Bool() }

// Today is the local date as YYYY-MM-DD.
func Today() string { return page.Call("today").String() }

// OnUpdateReady sets what is called when a newer version of the page has been
// fetched whole. It may have been fetched before the call.
func OnUpdateReady(f func()) {
	page.Call("onUpdate", js.FuncOf(func(js.Value, []js.Value) any {
		f()
		return nil
	}))
}

// ApplyUpdate loads the newer version. Nothing that was saved is lost.
func ApplyUpdate() { page.Call("applyUpdate") }

// once wraps a callback that frees itself after its only call.
func once(f func(args []js.Value)) js.Func {
	var fn js.Func
	fn = js.FuncOf(func(_ js.Value, args []js.Value) any {
		fn.Release()
		f(args)
		return nil
	})
	return fn
}
