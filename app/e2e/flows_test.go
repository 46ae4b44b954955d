//go:build e2e

package e2e

import (
	"testing"
)

// A can's label, typed: cups, the slip, drained as a range; onto the day; still
// there after a reload; changed, removed, brought back.
func TestCanToDay(t *testing.T) {
	visits(t, func(v visit) {
		v.find("peaches canned in juice", "peach")
		v.sees("#answer", "Your answer shows here as you type.")
		v.write("servings", "3 1/2")
		v.write("size", "1/2 cup (124 g)")
		v.sees("#answer", "1¾ cups of fruit", "3½ servings are not 3½ cups.", "3½ servings × ½ cup = 1¾ cups.", "Counted by: Dietary Guidelines 2020–2025.")
		if wide := eval[float64](t, v.p, `(() => { const r = document.querySelector("#answer .cups").getBoundingClientRect(); return r.width / r.height; })()`); wide < 2.3 || wide > 2.5 {
			t.Errorf("1¾ cups are drawn %.2f times as wide as high, want two cups beside each other, 2.4", wide)
		}
		v.pick("liquid", "drained")
		v.sees("#answer", "about", "It can be 1¼ to 1⅝.")
		v.pick("liquid", "-")
		v.sees("#answer", "1¾ cups of fruit", "This counts its liquid too.")
		v.gone("#answer .range")
		v.pick("eatenBy", "servings")
		v.sees("#answer", "½ cup of fruit")
		v.pick("eatenBy", "-")
		v.sees("#answer", "1¾ cups of fruit")

		v.seesGroup("Fruit", "0 of 2 cups", "2 cups to go.")
		before := v.says(".group .strip")
		v.add()
		v.sees("#added", "Added: peach.")
		v.seesGroup("Fruit", "1¾ of 2 cups", "¼ cup to go.")
		if v.count(".group:first-child .strip .sure") != 1 {
			t.Errorf("the strip is not filled: %s", before)
		}
		v.sees(dayLines, "1¾ cups of fruit")

		open(t, v.p, v.url)
		ready(t, v.p)
		v.seesGroup("Fruit", "1¾ of 2 cups", "¼ cup to go.")
		v.sees(".items h2", "On my day: 1 food")

		v.tap(`[data-do="edit"]`)
		v.until(`document.activeElement.id === "chosen"`)
		v.write("servings", "4")
		v.sees("#answer", "2 cups of fruit")
		v.tap(`[data-do="add"]`)
		v.sees("#added", "Changed: peach.")
		v.seesGroup("Fruit", "2 of 2 cups", "Met.")

		v.tap(`[data-do="remove"]`)
		v.until(`document.activeElement.id === "undo"`)
		v.seesGroup("Fruit", "0 of 2 cups")
		v.sees(".item", "Removed: peach.")
		v.tap("#undo")
		v.seesGroup("Fruit", "2 of 2 cups")
		v.focused()
		v.tap(`[data-do="remove"]`)
		v.tap("#undo-ok")
		v.gone("#undo")
		v.focused()
		open(t, v.p, v.url)
		ready(t, v.p)
		v.seesGroup("Fruit", "0 of 2 cups")
		v.sees(".items", "Nothing here yet.")
	})
}

// Dried, leafy, by hand, by one's own hand, by piece, by weight as bought, beans
// on a chosen side: each measure on its way to the day.
func TestMeasures(t *testing.T) {
	visits(t, func(v visit) {
		v.find("raisins", "raisins")
		v.sees("#answer", "2 cups of fruit") // offered first: a cup of a dried fruit
		v.write("amount", "1/4")
		v.sees("#answer", "½ cup of fruit")
		v.add()

		v.find("raw spinach", "spinach")
		v.pick("by", "cup")
		v.write("amount", "2")
		v.sees("#answer", "1 cup of vegetables")
		v.add()

		v.find("cooked rice", "white rice")
		v.pick("by", "hand")
		v.pick("hand", "fist")
		v.sees("#answer", "about", "2 oz eq of grains", "It can be")
		rough := v.says("#answer .range")
		v.tap(".measure details.more > summary")
		v.write("own-hand", "3/4 cup")
		v.sees("#answer", "1½ oz eq of grains")
		if now := v.says("#answer .range"); now == rough {
			t.Errorf("one's own hand is as rough as anybody's: %s", now)
		}
		v.write("own-hand", "a lot")
		v.sees("#in-own-hand-about", "“a lot”")
		v.write("own-hand", "3/4 cup")
		v.add()

		v.find("banana", "banana")
		v.pick("by", "piece")
		v.pick("piece", "large")
		v.sees("#answer", "cup", "of fruit")
		one := v.says("#answer .number")
		v.write("amount", "2")
		v.until(`says("#answer .number") !== ` + quote(one))
		v.pick("by", "weight")
		v.choose("unit", "g")
		v.write("amount", "200")
		v.pick("bought", "no")
		ready := v.says("#answer .big")
		v.pick("bought", "yes")
		v.until(`says("#answer .big") !== ` + quote(ready)) // the peel is no food
		v.add()

		v.find("black beans canned", "black beans")
		v.write("servings", "about 3.5")
		v.write("size", "1/2 cup (130 g)")
		v.sees("#answer", "of vegetables", "or", "of protein foods", "It can be")
		v.pick("side", "protein")
		v.gone("#answer .or")
		v.sees("#answer .big", "of protein foods")
		v.add()
		v.sees(dayLines, "½ cup of fruit", "1 cup of vegetables", "of grains", "of protein foods")
		v.sees(".items h2", "On my day: 5 foods")
	})
}

// A food of one's own, a label's text pasted.
func TestOwnFoodAndPastedLabel(t *testing.T) {
	visits(t, func(v visit) {
		must(t, v.p.Type("#food", "zorbix stew"))
		v.sees("#foods", "Not in the list? Add it")
		v.tap(`[data-do="own"]`)
		v.until(`document.activeElement.id === "in-own-name"`)
		v.write("own-name", "")
		v.tap(`[data-do="own-use"]`)
		v.until(`document.activeElement.id === "in-own-name" && document.activeElement.getAttribute("aria-invalid") === "true" && says("#in-own-name-about")`)
		v.write("own-name", "zorbix greens")
		v.choose("own-group", "vegetable")
		v.choose("own-form", "fresh")
		v.tap(`[data-do="own-use"]`)
		v.sees("#chosen", "orbix greens")
		v.pick("by", "cup")
		v.write("amount", "2")
		v.sees("#answer", "2 cups of vegetables")
		v.add()
		v.sees(".item-name", "orbix greens")

		v.find("corn canned", "corn")
		v.tap(".measure details.more > summary")
		must(t, v.p.Eval(`(() => { const e = document.getElementById("in-paste"); e.focus(); e.value = `+quote(panel)+`; e.dispatchEvent(new Event("input", {bubbles: true})); })()`, nil))
		wait(t, v.p, `document.getElementById("in-servings").value === "about 3 1/2" || document.getElementById("in-servings").value === "about 3½"`)
		wait(t, v.p, `document.getElementById("in-size").value.startsWith("1/2 cup") && document.getElementById("in-sodium").value === "330"`)
		v.sees("#answer", "about", "1¾ cups of vegetables", "From the label", "sodium", "added sugars")
		v.add()
		v.sees(".items h2", "On my day: 2 foods")
	})
}

const panel = `Nutrition Facts
about 3.5 servings per container
Serving size 1/2 cup (125g)
Amount per serving
Calories 90
Sodium 330mg 14%
Total Sugars 6g
Includes 2g Added Sugars 4%
Net Wt 15.25 oz (432g)`

// What can't be read gets its sentence beside the field, and changes nothing on
// the day.
func TestBadInputHasItsSentence(t *testing.T) {
	visits(t, func(v visit) {
		v.find("peaches canned in juice", "peach")
		v.write("servings", "2")
		v.write("size", "1/2 cup (124 g)")
		v.add()
		v.seesGroup("Fruit", "1 of 2 cups")
		v.find("peaches canned in juice", "peach")
		v.write("servings", "2")
		v.write("size", "1/2 cup (124 g)")
		v.sees("#answer", "1 cup of fruit")
		for _, bad := range []struct{ field, text, says string }{
			{"servings", "0", "Zero servings?"},
			{"servings", "-2", "below zero"},
			{"servings", "3 cups", "Servings are a number alone"},
			{"servings", "1/0", "a zero under the line"},
			{"servings", "99999999", "Check the number"},
			{"servings", "🍑", "has no number"},
			{"size", "0 cups", "a serving of zero"},
			{"size", "1/0 cup", "zero under the line"},
			{"size", "3 hours", ""},
			{"size", "1000 cups", "too much for one serving"},
			{"size", "🍑🍑", ""},
		} {
			good := map[string]string{"servings": "2", "size": "1/2 cup (124 g)"}[bad.field]
			v.write(bad.field, bad.text)
			v.wrong(bad.field, bad.says)
			v.write(bad.field, good)
			v.sees("#answer", "1 cup of fruit")
		}
		// An empty field is asked for, and is no fault.
		v.write("servings", "")
		v.sees("#in-servings-about", "How many servings does the label say")
		v.gone(`[data-do="add"]`)
		v.write("servings", "2")

		v.pick("by", "cup")
		for _, bad := range []struct{ text, says string }{
			{"0", ""}, {"-1", "below zero"}, {"1/0", "zero under the line"}, {"3 miles", ""}, {"5000", ""}, {"lots", "no number"}, {"🥄", "no number"},
		} {
			v.write("amount", bad.text)
			v.wrong("amount", bad.says)
		}
		v.write("amount", "1")
		v.sees("#answer", "1 cup of fruit")

		// Ten million letters, pasted.
		v.pick("by", "label")
		v.tap(".measure details.more > summary")
		must(t, v.p.Eval(`(() => { const e = document.getElementById("in-paste"); e.focus(); e.value = "serving ".repeat(1250000); e.dispatchEvent(new Event("input", {bubbles: true})); })()`, nil))
		v.sees(".measure .problem", "too long for a label")
		v.focused()
		v.seesGroup("Fruit", "1 of 2 cups")
		v.sees(".items h2", "On my day: 1 food")
	})
}

// wrong waits for a field's sentence, and for the answer and its button to go.
func (v visit) wrong(field, words string) {
	v.Helper()
	id := "in-" + field
	v.until(`document.getElementById("` + id + `").getAttribute("aria-invalid") === "true" && document.getElementById("` + id + `").getAttribute("aria-describedby") === "` + id + `-about"`)
	v.until(`says("#` + id + `-about").length > 15 && says("#` + id + `-about").includes(` + quote(words) + `)`)
	v.gone(`[data-do="add"]`)
	v.sees(".items h2", "On my day: 1 food")
}
