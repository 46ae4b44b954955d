package guide_test

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"cupsum/core/amount"
	"cupsum/core/food"
	"cupsum/core/guide"
	"cupsum/core/rule"
)

// ownFile is a file as somebody would write it by hand. The class and the
// town are made up.
const ownFile = `{
  "format": "cupsum-targets",
  "version": 1,
  "id": "tuesday-class",
  "name": "Tuesday class, Quillhaven branch library",
  "edition": "dga-2020",
  "source": "agreed in class",
  "level": 1800,
  "targets": [
    {"group": "fruit", "low": "1 1/2"},
    {"group": "vegetable", "low": 2.5},
    {"group": "vegetable", "subgroup": "dark-green", "low": "1½", "period": "week"},
    {"group": "grain", "low": "6", "high": "7", "unit": "oz-eq", "period": "day"},
    {"group": "grain", "subgroup": "refined", "high": 3},
    {"group": "protein", "low": "0.33"},
    {"group": "oil", "low": "24", "unit": "g-oil"}
  ]
}`

func TestReadSet(t *testing.T) {
	s, err := guide.ReadSet([]byte("\ufeff" + ownFile))
	if err != nil {
		t.Fatal(err)
	}
	if s.ID != "tuesday-class" || s.Edition != guide.DGA2020 || s.Level != 1800 || s.Pattern != guide.PatternOwn || s.Origin != rule.Practice || s.Title().String() != "pattern.own(Tuesday class, Quillhaven branch library)" {
		t.Errorf("%+v", s)
	}
	want := []guide.Target{
		{Group: food.Fruit, Low: amount.Frac(3, 2), Origin: rule.Practice},
		{Group: food.Vegetable, Low: amount.Frac(5, 2), Origin: rule.Practice},
		{Group: food.Vegetable, Subgroup: food.DarkGreen, Low: amount.Frac(3, 2), Weekly: true, Origin: rule.Practice},
		{Group: food.Grain, Low: amount.Int(6), High: amount.Int(7), Unit: guide.OzEq, Origin: rule.Practice},
		{Group: food.Grain, Subgroup: food.RefinedGrain, High: amount.Int(3), Unit: guide.OzEq, Origin: rule.Practice},
		{Group: food.Protein, Low: amount.Frac(1, 3), Unit: guide.OzEq, Origin: rule.Practice},
		{Group: food.Oil, Low: amount.Int(24), Unit: guide.GramOil, Origin: rule.Practice},
	}
	if !reflect.DeepEqual(s.Targets, want) {
		t.Errorf("targets %+v\nwant    %+v", s.Targets, want)
	}
}

// wrongFiles are made of ownFile by one change each, or are whole files.
var wrongFiles = []struct {
	name, from, to string // to alone: the whole file
	id, field      string
}{
	{"empty", "", "", "program.not-json", ""},
	{"text", "", "hello", "program.not-json", ""},
	{"list", "", "[1]", "program.not-object", ""},
	{"number", "", "7", "program.not-object", ""},
	{"cut off", "", ownFile[:300], "program.not-json", ""},
	{"two documents", "", ownFile + ownFile, "program.not-json", ""},
	{"comma at the end", "3}", "3,}", "program.not-json", ""},
	{"not UTF-8", "Quillhaven", "Quill\xffhaven", "program.not-json", ""},
	{"deep", "", strings.Repeat("[", 30_000), "program.not-json", ""},
	{"too large", "", strings.Repeat(" ", 64<<10+1), "program.too-large", ""},
	{"ten megabytes", "", strings.Repeat("x", 10<<20), "program.too-large", ""},
	{"many names", "", "{" + manyNames(100) + "}", "program.unknown-key", "k60"},
	{"other format", "cupsum-targets", "cupsum-day", "program.format", "format"},
	{"no format", `"format": "cupsum-targets",`, "", "program.format", "format"},
	{"version 2", `"version": 1`, `"version": 2`, "program.version", "version"},
	{"version as text", `"version": 1`, `"version": "1"`, "program.version", "version"},
	{"no version", `"version": 1,`, ``, "program.missing", "version"},
	{"id twice", `"id":`, `"id": "x", "id":`, "program.twice", "id"},
	{"no id", `"id": "tuesday-class",`, "", "program.missing", "id"},
	{"id with a space", "tuesday-class", "tuesday class", "program.id", "id"},
	{"id taken", "tuesday-class", "us-2000", "program.id", "id"},
	{"id taken by a child's", "tuesday-class", "us-1600-child", "program.id", "id"},
	{"id too long", "tuesday-class", strings.Repeat("a", 41), "program.text", "id"},
	{"id as path", "tuesday-class", "../x", "program.id", "id"},
	{"name empty", "Tuesday class, Quillhaven branch library", "", "program.missing", "name"},
	{"name too long", "Tuesday class", strings.Repeat("é", 81), "program.text", "name"},
	{"name with a line break", "Tuesday class", `a\nb`, "program.text", "name"},
	{"name turned round", "Tuesday class", `a\u202eb`, "program.text", "name"},
	{"name as number", `"Tuesday class, Quillhaven branch library"`, "5", "program.text", "name"},
	{"no source", `"source": "agreed in class",`, "", "program.missing", "source"},
	{"unknown edition", "dga-2020", "dga-1980", "program.edition", "edition"},
	{"edition not complete", "dga-2020", "school", "program.edition", "edition"},
	{"level too low", "1800", "18", "program.level", "level"},
	{"level as decimal", "1800", "1800.5", "program.level", "level"},
	{"level as text", "1800", `"1800"`, "program.level", "level"},
	{"unknown name", `"level"`, `"levle"`, "program.unknown-key", "levle"},
	{"no targets", `"targets"`, `"level2"`, "program.unknown-key", "level2"},
	{"targets not a list", "", strings.Replace(ownFile[:strings.Index(ownFile, "[")], "\n", "", -1) + `"all"}`, "program.targets", "targets"},
	{"empty list", "", ownFile[:strings.Index(ownFile, "[")] + "[]}", "program.targets", "targets"},
	{"61 targets", "", ownFile[:strings.Index(ownFile, "[")] + "[" + strings.Repeat("1,", 60) + "1]}", "program.targets", "targets"},
	{"target not an object", `{"group": "fruit", "low": "1 1/2"}`, `"fruit"`, "program.target", "targets[0]"},
	{"misspelt high", `"high": 3`, `"hihg": 3`, "program.unknown-key", "targets[4].hihg"},
	{"no group", `"group": "fruit", `, ``, "program.missing", "targets[0].group"},
	{"unknown group", `"fruit"`, `"candy"`, "program.group", "targets[0].group"},
	{"extra is no group", `"fruit"`, `"extra"`, "program.group", "targets[0].group"},
	{"subgroup of another group", `"dark-green"`, `"refined"`, "program.subgroup", "targets[2].subgroup"},
	{"wrong unit", `"oz-eq"`, `"cup-eq"`, "program.unit", "targets[3].unit"},
	{"wrong period", `"week"`, `"month"`, "program.period", "targets[2].period"},
	{"zero", `"low": 2.5`, `"low": 0`, "program.bounds", "targets[1].low"},
	{"negative", `"low": 2.5`, `"low": -2`, "program.amount", "targets[1].low"},
	{"over zero", `"low": 2.5`, `"low": "1/0"`, "program.amount", "targets[1].low"},
	{"thousand cups", `"low": 2.5`, `"low": 1000`, "program.bounds", "targets[1].low"},
	{"exponent", `"low": 2.5`, `"low": 1e1`, "program.amount", "targets[1].low"},
	{"unit in the amount", `"low": 2.5`, `"low": "2 cups"`, "program.amount", "targets[1].low"},
	{"about", `"low": 2.5`, `"low": "about 2"`, "program.amount", "targets[1].low"},
	{"range", `"low": 2.5`, `"low": "2 to 3"`, "program.amount", "targets[1].low"},
	{"null", `"low": 2.5`, `"low": null`, "program.amount", "targets[1].low"},
	{"list as amount", `"low": 2.5`, `"low": [2]`, "program.amount", "targets[1].low"},
	{"emoji", `"low": 2.5`, `"low": "🍎"`, "program.amount", "targets[1].low"},
	{"no amount", `"high": 3`, `"high": ""`, "program.no-amount", "targets[4]"},
	{"low above high", `"high": "7"`, `"high": "5"`, "program.order", "targets[3].high"},
	{"group twice", `"group": "protein"`, `"group": "fruit"`, "program.doubled", "targets[5]"},
}

func manyNames(n int) string {
	var names []string
	for i := range n {
		names = append(names, `"k`+amount.Int(int64(i)).String()+`":1`)
	}
	return strings.Join(names, ",")
}

func TestReadSetRefuses(t *testing.T) {
	words := messages(t)
	for _, c := range wrongFiles {
		text := c.to
		if c.from != "" {
			if !strings.Contains(ownFile, c.from) {
				t.Fatalf("%s: the file has no %q", c.name, c.from)
			}
			text = strings.Replace(ownFile, c.from, c.to, 1)
		}
		s, err := guide.ReadSet([]byte(text))
		id, field := wrongID(err)
		if id != c.id || field != c.field {
			t.Errorf("%s: %.200v, want %s in %q", c.name, err, c.id, c.field)
		}
		if err != nil && !reflect.DeepEqual(s, guide.Set{}) {
			t.Errorf("%s: half a set came with the error", c.name)
		}
		if words[id] == "" {
			t.Errorf("%s: no words for %s", c.name, id)
		}
	}
}

// A published set made a programme's own is written and read back the same.
func TestSetRoundTrip(t *testing.T) {
	for _, s := range guide.Sets() {
		own := s.Own("copy-"+s.ID, `A "copy" <of> ½ & more`, "after "+s.ID)
		back, err := guide.ReadSet(own.JSON())
		if err != nil {
			t.Fatalf("%s: %v\n%s", s.ID, err, own.JSON())
		}
		if !bytes.Equal(back.JSON(), own.JSON()) || len(back.Targets) != len(own.Targets) || back.Name != own.Name {
			t.Errorf("%s: %+v\nread back %+v", s.ID, own, back)
		}
		for i, x := range back.Targets {
			if y := own.Targets[i]; x.Group != y.Group || x.Subgroup != y.Subgroup || !x.Low.Equal(y.Low) || !x.High.Equal(y.High) || x.Weekly != y.Weekly || x.Unit != y.Unit {
				t.Errorf("%s: %+v read back as %+v", s.ID, y, x)
			}
		}
		if len(own.JSON()) > guide.MaxProgramFile {
			t.Errorf("%s is written in %d bytes", s.ID, len(own.JSON()))
		}
	}
}

// FuzzReadSet: whatever the file, there is an answer, and a set that was read
// is written and read back the same.
func FuzzReadSet(f *testing.F) {
	f.Add([]byte(ownFile))
	for _, c := range wrongFiles {
		if text := strings.Replace(ownFile, c.from, c.to, 1); c.from != "" && len(text) < 2000 {
			f.Add([]byte(text))
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := guide.ReadSet(data)
		if err != nil {
			if id, _ := wrongID(err); !strings.HasPrefix(id, "program.") {
				t.Errorf("error %v", err)
			}
			return
		}
		back, err := guide.ReadSet(s.JSON())
		if err != nil || !bytes.Equal(back.JSON(), s.JSON()) {
			t.Errorf("read back: %v\n%s\n%s", err, s.JSON(), back.JSON())
		}
	})
}

// FuzzOwnHand: an own hand is refused with a sentence, or holds a range with
// its best inside.
func FuzzOwnHand(f *testing.F) {
	for _, c := range ownHands {
		if len(c.text) < 1000 {
			f.Add(c.id, c.text)
		}
	}
	f.Fuzz(func(t *testing.T, id, text string) {
		h, err := guide.OwnHand(id, text)
		if err != nil {
			if id, _ := wrongID(err); id == "" {
				t.Errorf("error %v", err)
			}
			return
		}
		if a := h.Holds.Amount; a.Best.Less(a.Low) || a.High.Less(a.Best) || a.Low.Sign() < 0 || a.Best.Sign() == 0 {
			t.Errorf("%q holds %v", text, a)
		}
	})
}
