// Package e2e drives the finished page in real browsers: Chromium through the
// DevTools protocol, Firefox through WebDriver BiDi, WebKit through WebDriver.
// One small interface, Page, hides which; so the same flows run in all three.
// Everything is behind the build tag e2e: `make e2e` runs it.
//
// The site is served on loopback in a sub-path, as a project page is. Flight
// mode is the server gone. Tests of the shell use a program of their own
// (folder probe), so that they don't hang on what the page looks like.
package e2e
