//go:build e2e

package e2e

import (
	"fmt"
	"testing"
)

// tabTo presses Tab until an element has the focus, and sees to it that the
// focus can be seen on the way there.
func (v visit) tabTo(css string) {
	v.Helper()
	for range 60 {
		must(v.T, v.p.Press("Tab"))
		if !v.comes(`(() => {
			const e = document.activeElement, style = getComputedStyle(e.closest("label.chip")?.lastElementChild ?? e);
			if (!document.hasFocus()) return true; // a window that the screen has given none to draws none: WebKit's first
			return e === document.body || style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2; // the body stands for the browser's own bars
		})()`) {
			v.Fatalf("nobody sees where the focus is: %s", eval[string](v.T, v.p, `document.activeElement.outerHTML.slice(0, 200)`))
		}
		if eval[bool](v.T, v.p, fmt.Sprintf(`document.activeElement.matches(%q)`, css)) {
			return
		}
	}
	v.Fatalf("Tab never comes to %s; the focus is on %s", css, eval[string](v.T, v.p, `document.activeElement.outerHTML.slice(0, 200)`))
}

// press presses keys, one after the other, and waits until the focus is where
// it belongs.
func (v visit) press(focus string, keys ...string) {
	v.Helper()
	must(v.T, v.p.Press(keys...))
	v.until(fmt.Sprintf(`document.activeElement.matches(%q)`, focus))
}

// The whole way by keyboard alone, with the focus always somewhere that can be
// seen: find, pick a form, type a label, add, read the day, change, remove,
// bring back.
func TestKeyboardAlone(t *testing.T) {
	visits(t, func(v visit) {
		v.tabTo("#food")
		must(t, v.p.Type("#food", "canned peach"))
		v.sees("#foods", "peach")
		v.until(`document.getElementById("food").getAttribute("aria-activedescendant") === "food-0"`)
		v.press("#food", "ArrowDown")
		v.until(`document.getElementById("food").getAttribute("aria-activedescendant") === "food-1" && document.getElementById("food-1").getAttribute("aria-selected") === "true"`)
		v.press("#food", "ArrowUp")
		v.until(`document.getElementById("food").getAttribute("aria-activedescendant") === "food-0"`)
		v.press("#food", "Escape")
		v.gone("#foods")
		v.press("#food", "ArrowDown")
		v.sees("#foods", "peach")
		v.press("#chosen", "Enter")
		v.gone("#foods")

		v.tabTo(`[name="form"]`)
		v.press(`[name="form"]`, "ArrowRight")
		v.until(`document.activeElement.checked`)
		v.tabTo(`[name="by"]`)
		v.until(`document.activeElement.value === "label" && document.activeElement.checked`)
		v.tabTo("#in-servings")
		must(t, v.p.Type("#in-servings", "5"))
		v.tabTo("#in-size")
		must(t, v.p.Type("#in-size", "1/2 cup (124 g)"))
		v.sees("#answer", "2½ cups of fruit", "5 servings are not 5 cups.")
		v.tabTo(`[name="eatenBy"]`)
		v.press(`[name="eatenBy"][value="package"]`, "ArrowRight")
		v.sees("#answer", "1¼ cups of fruit")
		v.tabTo("#in-eaten")
		must(t, v.p.Press("Backspace", "Backspace", "Backspace"))
		must(t, v.p.Type("#in-eaten", "1"))
		v.sees("#answer", "2½ cups of fruit")
		v.tabTo(`[name="liquid"]`)
		v.press(`[name="liquid"]`, "ArrowRight")
		v.sees("#answer", "It can be")
		v.sees("#answer .working", "with its liquid. Drained") // it comes one frame later
		v.tabTo("#answer .rule .opener")
		v.press("#answer .rule .opener", "Enter")
		v.until(`all("#answer .rule .source").length`)
		v.tabTo(`[data-do="add"]`)
		v.press("#added", "Enter")
		v.tabTo("#added a")
		v.press("#day-title", "Enter")
		v.sees(".items h2", "On my day: 1 food")

		v.tabTo(`.ways [data-do="ways"]`)
		v.press(`.ways [aria-expanded="true"]`, "Enter")
		v.tabTo(`[data-do="fill"]`)
		v.press("#undo", "Space")
		v.sees(".items h2", "On my day: 2 foods")
		v.press("#day-title", "Enter")
		v.sees(".items h2", "On my day: 1 food")

		v.tabTo(`.item [data-do="edit"]`)
		v.press("#chosen", "Enter")
		v.tabTo("#in-servings")
		must(t, v.p.Press("Backspace"))
		must(t, v.p.Type("#in-servings", "3"))
		v.tabTo(`[data-do="add"]`)
		v.press("#added", "Space")
		v.sees("#added", "Changed: peach.")

		v.tabTo(`.item [data-do="remove"]`)
		v.press("#undo", "Enter")
		v.seesGroup("Fruit", "0 of 2 cups")
		v.press(`.item [data-do="edit"]`, "Enter")
		v.tabTo(`.item [data-do="remove"]`)
		v.press("#undo", "Space")
		v.press("#undo-ok", "Tab")
		v.press("#day-title", "Enter")
		v.sees(".items", "Nothing here yet.")

		v.tabTo(`[data-do="sample"]`)
		v.press("#day-title", "Enter")
		v.sees(".sample", "made-up class")
		v.tabTo(`[data-do="own-day"]`)
		v.press("#day-title", "Space")
		v.sees(".items", "Nothing here yet.")
		v.tabTo(".targets summary")
		must(t, v.p.Press("Enter"))
		v.tabTo("#in-set")
	})
}
