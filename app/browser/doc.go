// Package browser is the page's only door to the browser: storage, clipboard,
// print, focus, files, the address, messages to a host page, the live region.
//
// Each function exists twice: for the page (*_js.go, through syscall/js) and for
// everywhere else (*_other.go, where it does nothing or works in memory), so
// that app/ui compiles and is tested without a browser. syscall/js is used
// rather than dom/v2: one element look-up there links the switch over all
// element types, 165 kB gzipped in a hello page.
//
// Callbacks come on the browser's event loop, outside go-app's: enter it again
// with ctx.Dispatch. No function here panics when the browser lacks a feature;
// what can fail says so.
package browser
