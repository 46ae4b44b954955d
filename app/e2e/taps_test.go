//go:build e2e

package e2e

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

// shownJS measures each press, from its own time stamp to the end of the first
// frame that shows what it changed. A press that changes nothing is left out.
const shownJS = `void (() => {
	window.shown = [];
	let from = 0;
	window.nextPress = () => { from = 0; return shown.splice(0); }; // also one that changed nothing is over
	for (const kind of ["keydown", "click"]) addEventListener(kind, (e) => { from ||= e.timeStamp; }, true);
	new MutationObserver(() => {
		if (!from) return;
		const start = from;
		from = 0;
		requestAnimationFrame(() => {
			const after = new MessageChannel();
			after.port1.onmessage = () => shown.push(performance.now() - start);
			after.port2.postMessage(0);
		});
	}).observe(document.getElementById("page"), {subtree: true, childList: true, characterData: true, attributes: true});
})()`

// BenchmarkTaps prints how long it takes until the screen shows what was pressed
// while portions are measured, added, changed and removed: key presses in the
// label's fields, and taps, on a phone's screen with a day of 40 portions at a
// quarter of the speed.
func BenchmarkTaps(b *testing.B) {
	s := serve(b, realSite)
	p := page(b, benchBrowser(b), s.url).(*chromiumPage)
	try := func(err error) {
		b.Helper()
		if err != nil {
			b.Fatal(err)
		}
	}
	try(p.Resize(390, 844))
	ready(b, p)
	fullDay(b, p, 40)
	try(p.slow(false))
	try(p.Eval(shownJS, nil))
	var all []float64
	kinds := map[string][]float64{}
	took := func(kind string, press func() error) {
		b.Helper()
		try(p.Eval(`nextPress()`, nil)) // what the page did by itself is no press's
		try(press())
		time.Sleep(300 * time.Millisecond)
		list := eval[[]float64](b, p, `nextPress()`)
		all, kinds[kind] = append(all, list...), append(kinds[kind], list...)
	}
	keys := func(kind, field, text string) {
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
		took(kind, func() error { return p.Click(css) })
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

	names := make([]string, 0, len(kinds))
	for name, list := range kinds {
		slices.Sort(list)
		if len(list) > 0 {
			names = append(names, fmt.Sprintf("%s %.0f to %.0f", name, list[0], list[len(list)-1]))
		}
	}
	slices.Sort(names)
	slices.Sort(all)
	fmt.Printf("    ms by kind of press: %s\n", strings.Join(names, ", "))
	at95 := all[len(all)*95/100]
	b.ReportMetric(at95, "ms-p95")
	fmt.Printf("    %d presses that changed the page: half within %.0f ms\n", len(all), all[len(all)/2])
	limit(b, "press to screen while measuring, ms, 95 of 100 within", at95, 50)
}
