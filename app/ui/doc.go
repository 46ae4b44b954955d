// Package ui is the page: what a person sees of Cupsum and can press.
//
// # How it works
//
// [Model] is the page's whole state, a value that can be copied. What a person
// does arrives as a message, and one function, update, turns a model and a
// message into the next model. It knows no browser and is tested without one.
//
// Views (view_*.go) are pure functions of a model. They bind no handlers: what
// can be pressed carries data-do and data-arg, what can be typed into carries
// data-in. The page's script (web/page.js) listens once for each kind of event
// and tells the root component those. So no handler can go stale, an element that
// is replaced takes no handler with it, forty portions cost no listeners, and
// what does not concern the program never wakes it.
//
// The root (root.go) alone touches the browser: it loads and saves documents,
// moves the focus and speaks to screen readers, by comparing the model before
// and after. Parts that change seldom (the day, the tables) are components of
// their own, drawn anew only when their version number moves, so that typing
// in Convert draws nothing but Convert.
//
// No arithmetic on food is done here; core has done it. Pictures scale what
// core gives them.
package ui
