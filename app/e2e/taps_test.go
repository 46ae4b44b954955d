//go:build e2e

package e2e

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
)

// shownJS measures each press, from its own time stamp to the end of the first
// frame that shows what it changed: what the program changed in the page, or the
// letter in its field where it changed nothing else.
const shownJS = `void (() => {
	` + framedJS + `
	let from = 0;
	window.nextPress = () => { from = 0; return shown.splice(0); }; // also one that changed nothing is over
	for (const kind of ["keydown", "click"]) addEventListener(kind, (e) => { from ||= e.timeStamp; }, true);
	const changed = () => {
		if (from) framed(from);
		from = 0;
	};
	// The program changes the page while it hears the event, so after that the
	// letter is all there is to see. A radio button has no letter.
	addEventListener("input", (e) => { if (e.target.type === "text") setTimeout(changed); });
	new MutationObserver(changed).observe(document.getElementById("page"), {subtree: true, childList: true, characterData: true, attributes: true});
})()`

// phone makes the page that of a phone: a screen of that size, to be touched.
func (p *chromiumPage) phone(width, height int64) error {
	return p.do(chromedp.EmulateViewport(width, height, chromedp.EmulateMobile, chromedp.EmulateTouch))
}

// touch taps an element as a finger does, which lies on the glass for a while.
func (p *chromiumPage) touch(css string) error {
	x, y, err := centre(p, css)
	if err != nil {
		return err
	}
	send := func(kind input.DispatchTouchEventType, points ...*input.TouchPoint) error {
		return p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := chromedp.Call(ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points})
			return err
		}))
	}
	if err := send(input.DispatchTouchEventTypeTouchStart, &input.TouchPoint{X: x, Y: y}); err != nil {
		return err
	}
	time.Sleep(80 * time.Millisecond)
	return send(input.DispatchTouchEventTypeTouchEnd)
}

// A pressed is one press of the flow below, and how long it took, in ms.
type pressed struct {
	kind string
	took float64
}

// BenchmarkTaps prints how long it takes until the screen shows what was pressed
// while portions are measured, added, changed and removed: key presses in the
// label's fields, and taps, on a phone's screen with a day of 40 portions at a
// quarter of the speed. All is done three times, each with a fresh browser, and
// the middle one counts of each press: other work of this machine can hold one
// up, and the page's own slowness holds up all three.
func BenchmarkTaps(b *testing.B) {
	const runs, most = 3, 50
	var each [runs][]pressed
	for i := range each {
		// One by itself, so that its browser is gone before the next one comes.
		b.Run("once", func(b *testing.B) { each[i] = measureTaps(b) })
		if len(each[i]) != len(each[0]) {
			b.Fatalf("%d presses were seen, then %d", len(each[0]), len(each[i]))
		}
	}
	var all []float64
	var slow []string
	kinds := map[string][]float64{}
	for i, press := range each[0] {
		var took []float64
		for _, run := range each {
			took = append(took, run[i].took)
		}
		middle, _ := ranks(took)
		if middle > most {
			slow = append(slow, fmt.Sprintf("%s (press %d) %.0f", press.kind, i+1, took))
		}
		all, kinds[press.kind] = append(all, middle), append(kinds[press.kind], middle)
	}
	names := make([]string, 0, len(kinds))
	for name, list := range kinds {
		names = append(names, fmt.Sprintf("%s %.0f to %.0f", name, slices.Min(list), slices.Max(list)))
	}
	slices.Sort(names)
	fmt.Printf("    ms by kind of press: %s\n", strings.Join(names, ", "))
	fmt.Printf("    slower than %d ms: %s\n", most, strings.Join(slow, ", "))
	for i, run := range each {
		var list []float64
		for _, press := range run {
			list = append(list, press.took)
		}
		half, at95 := ranks(list)
		fmt.Printf("    run %d: half within %.0f ms, 95 of 100 within %.0f ms\n", i+1, half, at95)
	}
	half, at95 := ranks(all)
	b.ReportMetric(at95, "ms-p95")
	fmt.Printf("    %d presses: half within %.0f ms\n", len(all), half)
	limit(b, "press to screen while measuring, ms, 95 of 100 within", at95, most)
}

// measureTaps plays the flow once, on a page of its own.
func measureTaps(b *testing.B) (all []pressed) {
	s := serve(b, realSite)
	p := page(b, benchBrowser(b), s.url).(*chromiumPage)
	try := func(err error) {
		b.Helper()
		if err != nil {
			b.Fatal(err)
		}
	}
	try(p.phone(390, 844))
	ready(b, p)
	fullDay(b, p, 40)
	try(p.slow(false))
	time.Sleep(2 * time.Second) // the page makes ahead what the first press needs
	try(p.Eval(shownJS, nil))
	took := func(kind string, press func() error) {
		b.Helper()
		try(p.Eval(`nextPress()`, nil)) // what the page did by itself is no press's
		try(press())
		time.Sleep(300 * time.Millisecond)
		for _, ms := range eval[[]float64](b, p, `nextPress()`) {
			all = append(all, pressed{kind, ms})
		}
	}
	keys := func(kind, field, text string) {
		// There already, as the field is that a person types in: the jump to it is no
		// letter's.
		wait(b, p, fmt.Sprintf(`document.querySelector(%q)`, field))
		try(focused(p, field))
		time.Sleep(200 * time.Millisecond)
		for _, c := range text {
			took(kind, func() error { return p.Type(field, string(c)) })
		}
	}
	tap := func(kind, css string) {
		// There already, as it is under a person's finger.
		wait(b, p, fmt.Sprintf(`document.querySelector(%q)`, css))
		_, _, err := centre(p, css)
		try(err)
		time.Sleep(200 * time.Millisecond)
		took(kind, func() error { return p.touch(css) })
	}
	for _, can := range [][3]string{{"canned peaches", "3 1/2", "1/2 cup (124 g)"}, {"black beans canned", "about 3.5", "1/2 cup (130 g)"}} {
		keys("search", "#food", can[0])
		took("choose", func() error { return p.Press("Enter") })
		keys("label", "#in-servings", can[1])
		keys("label", "#in-size", can[2])
		tap("option", `label:has([name="liquid"][value="drained"])`)
		tap("option", `label:has([name="eatenBy"][value="package"])`)
		tap("add", `[data-do="add"]`)
	}
	for _, row := range []string{"3", "20", "36"} {
		tap("remove", "#remove-"+row)
		tap("undo", "#undo")
		tap("remove", "#remove-"+row)
		tap("ok", "#undo-ok")
	}
	tap("change", "#edit-8")
	keys("amount", "#in-amount", "2")
	tap("add", `[data-do="add"]`)
	return all
}
