//go:build e2e

package e2e

import (
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"cupsum/app/lang"
	"cupsum/app/report"
	"cupsum/core/day"
)

// A class's numbers, a level of 2020-2025, the 2025 edition in servings, one
// found for a person, a programme's own file: each is shown, and stays.
func TestTargetSets(t *testing.T) {
	visits(t, func(v visit) {
		v.sees("#set-name", "The class's round numbers", "common practice")
		v.seesGroup("Vegetables", "of 3 cups")
		v.find("broccoli", "broccoli")
		v.pick("by", "cup")
		v.write("amount", "1")
		v.add()
		v.seesGroup("Vegetables", "1 of 3 cups", "2 cups to go.")

		v.unfold("targets")
		v.choose("set", "us-1800")
		v.seesGroup("Vegetables", "1 of 2½ cups")
		v.seesGroup("Grains", "of 6 oz eq")
		v.seesGroup("Fruit", "of 1½ cups")
		v.choose("set", "dga2025-2000")
		v.sees("#set-name", "2025")
		v.seesGroup("Vegetables", "servings")
		v.sees(dayLines, "serving")

		v.write("age", "40")
		v.pick("sex", "female")
		v.pick("activity", "sedentary")
		v.sees(".found-set", "US-style pattern, 1800 calories")
		v.choose("pattern", "vegetarian")
		v.sees(".found-set", "egetarian")
		v.tap(`[data-do="person-use"]`)
		v.sees("#set-name", "egetarian", "1800")
		v.focused()
		v.choose("state", "pregnant")
		v.sees(".found", "doctor")
		v.write("age", "1")
		v.choose("state", "-")
		v.sees(".found", "2")

		v.openFile(quote(ownTargets))
		v.sees("#set-name", "Tuesday class, Quillhaven branch library")
		v.seesGroup("Fruit", "0 of 1½ cups")
		v.until(`document.activeElement.id === "undo"`)
		open(t, v.p, v.url)
		ready(t, v.p)
		v.sees("#set-name", "Tuesday class, Quillhaven branch library")
		v.seesGroup("Fruit", "0 of 1½ cups")
		v.unfold("targets")
		v.until(`document.getElementById("in-age").value === "1"`) // the person's details stay on the device
		_, text := v.saved(`[data-do="export"]`)
		if strings.Contains(text, "pregnant") || strings.Contains(text, "sedentary") || strings.Contains(text, `"age"`) {
			t.Errorf("the day file tells about the person: %s", text)
		}
		// A misspelt one is refused, and says where.
		v.openFile(quote(strings.Replace(ownTargets, "low", "lwo", 1)))
		v.sees("#day-notes", "lwo")
		v.sees("#set-name", "Tuesday class, Quillhaven branch library")
	})
}

const ownTargets = `{"format": "cupsum-targets", "version": 1, "id": "tuesday-class", "name": "Tuesday class, Quillhaven branch library",
	"edition": "dga-2020", "source": "agreed in class", "targets": [{"group": "fruit", "low": "1 1/2"}, {"group": "grain", "low": 5}]}`

// The sample is marked, is not kept, and what it exports says the same as the
// page when the check reads it: totals, verdicts, the split of beans.
func TestExportsSayWhatThePageSays(t *testing.T) {
	visits(t, func(v visit) {
		v.tap(`[data-do="sample"]`)
		v.sees(".sample", "made-up class", "not your day")
		v.sees(".items h2", "On my day: 8 foods")
		name, text := v.saved(`.files [data-do="export"]`)
		if !strings.HasPrefix(name, "cupsum-2") || !strings.HasSuffix(name, ".json") {
			t.Errorf("the file is called %q", name)
		}
		v.likeCheck(text)
		name, table := v.saved(`[data-do="csv"]`)
		rows, err := csv.NewReader(strings.NewReader(table)).ReadAll()
		if err != nil || len(rows) < 9 || len(rows[1]) != 11 || !strings.HasSuffix(name, ".csv") {
			t.Errorf("the table %q: %v, %d rows: %.300s", name, err, len(rows), table)
		}
		v.tap(`[data-do="own-day"]`)
		v.gone(".sample")
		v.sees(".items", "Nothing here yet.")

		// The same day as one's own: opened from the file, held against 2025.
		v.openFile(quote(text))
		v.sees(".undo", "Opened a day with 8 foods.")
		v.gone(".sample")
		v.unfold("targets")
		v.choose("set", "dga2025-2000")
		v.sees("#set-name", "2025")
		_, text = v.saved(`.files [data-do="export"]`)
		v.likeCheck(text)
		v.tap("#undo")
		v.sees(".items", "Nothing here yet.")
	})
}

// likeCheck reads an exported day as the check does, and holds every group,
// portion and note that it finds against the page.
func (v visit) likeCheck(text string) {
	v.Helper()
	sheet, notes, err := day.Read([]byte(text))
	if err != nil || len(notes) > 0 {
		v.Fatalf("the page's own file is not read: %v %v", err, notes)
	}
	words, r := lang.English(), day.Check(sheet)
	if n := v.count(".group"); n != len(r.Groups) || n == 0 {
		v.Errorf("%d groups are shown, the check has %d", n, len(r.Groups))
	}
	for _, g := range r.Groups {
		name := words.Term(report.Name(g.Target))
		v.seesGroup(name, report.Goals(words, g.Target), words.Best(g.Total), report.Verdict(words, g.Target, g.Verdict, g.Gap, g.Above))
		if g.Settle >= 0 {
			v.seesGroup(name, words.Food(r.Items[g.Settle].Portion))
		}
	}
	for _, p := range r.Parts {
		v.sees(".parts", words.Term(report.Name(p.Target)), report.Verdict(words, p.Target, p.Verdict, p.Gap, p.Above))
	}
	for i, it := range r.Items {
		v.sees(".item-name", words.Food(it.Portion))
		shown := eval[string](v.T, v.p, fmt.Sprintf(`document.querySelectorAll(%q)[%d].textContent`, dayLines, i))
		if it.Err != nil || !has(shown, words.Measured(it.Portion)) {
			v.Errorf("portion %d is shown as %q, not %q (%v)", i, shown, words.Measured(it.Portion), it.Err)
		}
	}
	for _, n := range r.Notes {
		v.sees(".day-view .notes", words.Working(n.Line))
	}
}

// A file that is no day is refused in a sentence; one with faults inside opens
// with them. The day is as it was, or comes back.
func TestBadFiles(t *testing.T) {
	visits(t, func(v visit) {
		v.find("raisins", "raisins")
		v.write("amount", "1/4")
		v.add()
		v.sees(".items h2", "On my day: 1 food")
		const head = `{"format": "cupsum-day", "version": 1, "set": "class", "portions": [`
		one := func(id, food string) string {
			return `{"id": "` + id + `", "food": "` + food + `", "form": "fresh", "measure": {"by": "cup", "amount": "1", "unit": "cup"}}`
		}
		for _, bad := range []struct{ name, text, says string }{
			{"no file", quote(""), "Your day is as it was."},
			{"no JSON", quote("milk, eggs, bread"), "Your day is as it was."},
			{"another thing", quote(`{"format": "recipe"}`), "not a day file of Cupsum"},
			{"of tomorrow", quote(`{"format": "cupsum-day", "version": 9, "portions": []}`), "version 9"},
			{"cut off", quote(head + one("a", "apple") + `, {"id": "b", "fo`), "ends too soon"},
			{"wrong kind", quote(head + `{"id": 7}]}`), "wrong kind of value"},
			{"50,000 portions", quote(head) + ` + Array(50000).fill(` + quote(`{"id":"x","food":"apple","form":"fresh","measure":{"by":"cup"}}`) + `).join(",") + "]}"`, ""},
			{"10 MB", `"x".repeat(1e7)`, "too big"},
			{"emoji", quote("🍎🍎🍎"), "Your day is as it was."},
		} {
			v.openFile(bad.text)
			v.until(`document.activeElement.id === "day-notes"`)
			v.sees("#day-notes", bad.says)
			if said := v.says("#day-notes p"); len(said) < 20 {
				t.Errorf("%s: says %q", bad.name, said)
			}
			v.sees(".items h2", "On my day: 1 food")
			v.tap(`[data-do="notes-ok"]`)
			v.gone("#day-notes")
			v.focused()
		}
		v.openFile(quote(head + one("a", "apple") + "," + one("a", "carrots") + "," + one("b", "moon-cheese") + `]}`))
		v.sees(".undo", "Opened a day with 3 foods.")
		v.sees("#day-notes", "had the same mark")
		v.sees(".item", "moon-cheese")
		v.until(`says(".item .problem").length > 15`)
		v.seesGroup("Fruit", "1 of 2 cups")
		v.tap("#undo")
		v.sees(".items h2", "On my day: 1 food")
		v.sees(dayLines, "½ cup of fruit")
	})
}

// With scripts off the page can be read: the worked example, the tables, the
// note of care; and nothing that does nothing.
func TestScriptsOff(t *testing.T) {
	b := inChromium(t)
	s := serve(t, realSite)
	p := page(t, b, "about:blank").(*chromiumPage)
	must(t, p.scripts(false))
	for _, screen := range screens {
		must(t, p.Resize(screen.width, screen.height))
		open(t, p, s.url)
		v := visit{t, p, s.url}
		v.sees("#convert", "5 servings are not 5 cups.", "2½ cups of fruit")
		v.sees("#tables", "1 cup of fruit", "dried fruit", "1 ounce equivalent of grains")
		v.sees(".care", "General education, not medical advice")
		if n := v.count("button, input, select, textarea"); n > 0 {
			t.Errorf("%s: %d things to press that do nothing: %s", screen.name, n, v.says("button, label"))
		}
		if wide := eval[int](t, p, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
			t.Errorf("%s: sticks out by %d px", screen.name, wide)
		}
	}
	noProblems(t, p)
}
