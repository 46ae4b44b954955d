//go:build e2e

package e2e

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// A visit is one person with the page open, on a phone or at a desk. Its methods
// are what people do and see; each fails the test that it belongs to.
type visit struct {
	*testing.T
	p   Page
	url string
}

// screens are the sizes that the flows run at.
var screens = []struct {
	name          string
	width, height int
}{{"phone", 390, 844}, {"desk", 1280, 800}}

// visits runs a flow in each engine at both sizes, each time with a day of its
// own, and sees to it that the page has not complained.
func visits(t *testing.T, flow func(v visit)) {
	eachEngine(t, func(t *testing.T, b Browser) {
		s := serve(t, realSite)
		for _, screen := range screens {
			t.Run(screen.name, func(t *testing.T) {
				p := page(t, b, "about:blank")
				defer p.Close()
				must(t, p.Resize(screen.width, screen.height))
				v := visit{t, p, s.at(screen.name, realSite)} // what is stored is stored by folder
				open(t, p, v.url)
				ready(t, p)
				flow(v)
				noProblems(t, p)
			})
		}
	})
}

// lookJS is what the tests use in the page: "all" finds what can be seen, "words"
// is the text in an element, in one line, "says" that of all that are found.
// Not innerText nor checkVisibility: they leave out what is below the screen and
// was never painted yet.
const lookJS = `const seen = (e) => {
		for (let n = e; n?.parentElement; n = n.parentElement) {
			if (getComputedStyle(n).display === "none") return false;
			if (n.parentElement.tagName === "DETAILS" && !n.parentElement.open && n.tagName !== "SUMMARY") return false;
		}
		return true;
	};
	const all = (css) => [...document.querySelectorAll(css)].filter(seen);
	const words = (e) => {
		const parts = [], walk = document.createTreeWalker(e, NodeFilter.SHOW_TEXT);
		while (walk.nextNode()) if (seen(walk.currentNode.parentElement)) parts.push(walk.currentNode.data);
		return parts.join(" ").replace(/\s+/g, " ").trim();
	};
	const says = (css) => all(css).map(words).join(" ");`

// until waits for an expression over all and says, at most 10 s.
func (v visit) until(expression string) {
	v.Helper()
	if !v.comes(expression) {
		v.Fatalf("never true: %s\nproblems: %q\nconvert says: %.600s", expression, v.p.Problems(), v.says("#convert"))
	}
}

func (v visit) comes(expression string) (ok bool) {
	v.Helper()
	for end := time.Now().Add(10 * time.Second); time.Now().Before(end); time.Sleep(30 * time.Millisecond) {
		if err := v.p.Eval(`(() => { `+lookJS+` return Boolean(`+expression+`); })()`, &ok); ok && err == nil {
			return true
		}
	}
	return false
}

// sees waits until an element shows all of the words.
func (v visit) sees(css string, words ...string) {
	v.Helper()
	for _, w := range words {
		if !v.comes(fmt.Sprintf(`says(%q).includes(%q)`, css, w)) {
			v.Fatalf("%s never shows %q; it says: %.900s", css, w, v.says(css))
		}
	}
}

// gone waits until none of the elements is to be seen.
func (v visit) gone(css string) {
	v.Helper()
	v.until(fmt.Sprintf(`all(%q).length === 0`, css))
}

// says is what an element shows now, in one line.
func (v visit) says(css string) string {
	v.Helper()
	return eval[string](v.T, v.p, fmt.Sprintf(`(() => { `+lookJS+` return says(%q); })()`, css))
}

// count is how many of the elements are to be seen.
func (v visit) count(css string) int {
	v.Helper()
	return eval[int](v.T, v.p, fmt.Sprintf(`(() => { `+lookJS+` return all(%q).length; })()`, css))
}

// settled waits until the page has drawn what was typed: nothing in it has
// changed for a moment.
func (v visit) settled() {
	v.Helper()
	must(v.T, v.p.Eval(`new Promise((done) => {
		let timer;
		const watch = new MutationObserver(() => again()), again = () => { clearTimeout(timer); timer = setTimeout(() => { watch.disconnect(); done(); }, 70); };
		watch.observe(document.getElementById("page"), {subtree: true, childList: true, attributes: true, characterData: true});
		again();
	})`, nil))
}

// tap presses the one element that is to be seen, once it is there.
func (v visit) tap(css string) {
	v.Helper()
	v.until(fmt.Sprintf(`all(%q).length > 0`, css))
	v.settled()
	// The first that is to be seen gets a name, since a driver takes the first that there is.
	must(v.T, v.p.Eval(fmt.Sprintf(`(() => {
		`+lookJS+`
		document.querySelector("[data-tap]")?.removeAttribute("data-tap");
		const e = all(%q)[0];
		e.setAttribute("data-tap", "");
		e.scrollIntoView({block: "center", behavior: "instant"}); // from under the answer at the bottom
	})()`, css), nil))
	must(v.T, v.p.Click("[data-tap]"))
}

// pick chooses a radio button by its group and value.
func (v visit) pick(group, value string) {
	v.Helper()
	v.tap(fmt.Sprintf(`label:has(input[name="%s"][value="%s"])`, group, value))
	v.until(fmt.Sprintf(`document.querySelector('input[name="%s"][value="%s"]')?.checked`, group, value))
}

// choose picks from a menu, as the keyboard would: drivers differ in opening one.
func (v visit) choose(field, value string) {
	v.Helper()
	v.until(fmt.Sprintf(`all("#in-%s").length`, field))
	must(v.T, v.p.Eval(fmt.Sprintf(`(() => { const e = document.getElementById("in-%s"); e.focus(); e.value = %q; e.dispatchEvent(new Event("input", {bubbles: true})); e.dispatchEvent(new Event("change", {bubbles: true})); })()`, field, value), nil))
	if got := eval[string](v.T, v.p, fmt.Sprintf(`document.getElementById("in-%s").value`, field)); got != value {
		v.Fatalf("the menu %s has no %q", field, value)
	}
}

// write puts a text in a field in place of what is there.
func (v visit) write(field, text string) {
	v.Helper()
	css := "#in-" + field
	v.until(fmt.Sprintf(`all(%q).length`, css))
	v.settled()
	must(v.T, v.p.Eval(fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.focus(); e.select(); })()`, css), nil))
	if text == "" {
		must(v.T, v.p.Press("Backspace"))
	} else {
		must(v.T, v.p.Type(css, text))
	}
	v.until(fmt.Sprintf(`document.querySelector(%q).value === %q`, css, text))
}

// find types into the food field and takes the first food of the list.
func (v visit) find(text, name string) {
	v.Helper()
	must(v.T, v.p.Eval(`(() => { const e = document.getElementById("food"); e.focus(); e.select(); })()`, nil))
	must(v.T, v.p.Type("#food", text))
	v.until(fmt.Sprintf(`document.getElementById("food").value === %q && says("#food-0").toLowerCase().startsWith(%q)`, text, name))
	must(v.T, v.p.Press("Enter"))
	v.until(fmt.Sprintf(`says("#chosen").toLowerCase() === %q`, name))
	v.focused()
}

// focused fails when the focus is nowhere.
func (v visit) focused() {
	v.Helper()
	v.until(`document.activeElement && document.activeElement !== document.body && document.activeElement.getClientRects().length > 0`)
}

// add puts what was measured on the day.
func (v visit) add() {
	v.Helper()
	v.tap(`[data-do="add"]`)
	v.until(`document.activeElement.id === "added"`)
}

// seesGroup waits until a food group's words have all of these.
func (v visit) seesGroup(name string, words ...string) {
	v.Helper()
	for _, w := range words {
		if !v.comes(fmt.Sprintf(`all(".group").map(words).some((s) => s.startsWith(%q) && s.includes(%q))`, name, w)) {
			v.Fatalf("%s never shows %q; the groups say: %s", name, w, v.says(".group"))
		}
	}
}

// unfold opens the part of the day with this class.
func (v visit) unfold(class string) {
	v.Helper()
	if !eval[bool](v.T, v.p, fmt.Sprintf(`document.querySelector("details.%s").open`, class)) {
		v.tap("details." + class + " > summary")
	}
	v.until(fmt.Sprintf(`document.querySelector("details.%s").open`, class))
}

// openFile gives the page a file, as a person who picks one does. text is an
// expression.
func (v visit) openFile(text string) {
	v.Helper()
	must(v.T, v.p.Eval(`void (HTMLInputElement.prototype.click = () => {})`, nil)) // the browser's own dialogue stays away
	v.unfold("files")
	v.tap(`.files [data-do="open"]`)
	v.until(`document.getElementById("picked-file")`)
	must(v.T, v.p.Eval(`(() => {
		const files = new DataTransfer(), input = document.getElementById("picked-file");
		files.items.add(new File([`+text+`], "day.json", {type: "application/json"}));
		input.files = files.files;
		input.dispatchEvent(new Event("change"));
	})()`, nil))
}

// saved presses a button that saves a file and returns its name and text.
func (v visit) saved(button string) (name, text string) {
	v.Helper()
	v.unfold("files")
	must(v.T, v.p.Eval(`(() => {
		if (window.savedName === undefined) {
			const make = URL.createObjectURL.bind(URL), click = HTMLAnchorElement.prototype.click;
			URL.createObjectURL = (blob) => { window.savedFile = blob; return make(blob); };
			HTMLAnchorElement.prototype.click = function () { this.download ? window.savedName = this.download : click.call(this); };
		}
		window.savedName = "";
	})()`, nil))
	v.tap(button)
	v.until(`window.savedName`)
	return eval[string](v.T, v.p, `window.savedName`), eval[string](v.T, v.p, `window.savedFile.text()`)
}

// quote makes an expression of a text.
func quote(text string) string {
	b, err := json.Marshal(text)
	if err != nil {
		panic(err) // texts always encode
	}
	return string(b)
}

// lines are the lines of the day: what each counts as.
const dayLines = ".item .item-counts"

func has(s string, words ...string) bool {
	for _, w := range words {
		if !strings.Contains(s, w) {
			return false
		}
	}
	return true
}

// scripts turns the page's scripts off or on. What the driver evaluates still runs.
func (p *chromiumPage) scripts(on bool) error {
	return p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: !on})
		return err
	}))
}
