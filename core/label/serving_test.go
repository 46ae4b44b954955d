package label

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"cupsum/core/say"
)

// ownStrings reads testdata/strings.csv: strings written for this project, at
// least one for each thing that real labels do, with what each of them says.
func ownStrings(t testing.TB) []map[string]string {
	t.Helper()
	return readCSV(t, "testdata/strings.csv")
}

func readCSV(t testing.TB, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	recs, err := csv.NewReader(f).ReadAll()
	if err != nil || len(recs) < 2 {
		t.Fatalf("%s: %d rows, %v", file, len(recs), err)
	}
	var rows []map[string]string
	for _, rec := range recs[1:] {
		row := map[string]string{}
		for i, name := range recs[0] {
			row[name] = rec[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func TestReadServing(t *testing.T) {
	shapes := map[string]int{}
	for _, row := range ownStrings(t) {
		shapes[row["shape"]]++
		if row["source"] == "" {
			t.Errorf("%q has no source", row["text"])
		}
		want, flags := outcome(row["text"])
		if want != row["want"] || flags != row["flags"] {
			t.Errorf("%s: %q\n got %s [%s]\nwant %s [%s]", row["shape"], row["text"], want, flags, row["want"], row["flags"])
		}
	}
	if len(shapes) < 25 {
		t.Errorf("%d shapes of strings, want every one of at least 25", len(shapes))
	}
}

// TestServingInAnyCase: capitals change nothing, but for T and t.
func TestServingInAnyCase(t *testing.T) {
	for _, row := range ownStrings(t) {
		text := row["text"]
		if oneOf([]string{"1 T (15 mL)", "1 t (5 mL)"}, text) || strings.Contains(text, "G21") || strings.Contains(text, "H87") {
			continue
		}
		want, flags := outcome(text)
		if got, f := outcome(strings.ToUpper(text)); got != want || f != flags {
			t.Errorf("%q in capitals:\n got %s [%s]\nwant %s [%s]", text, got, f, want, flags)
		}
	}
}

// TestServingWithOtherSpaces: a no-break space, a tab or two blanks read as one.
func TestServingWithOtherSpaces(t *testing.T) {
	for _, row := range ownStrings(t) {
		want, flags := outcome(row["text"])
		for _, space := range []string{"\u00a0", "\t", "  ", "\u202f"} {
			text := " " + strings.ReplaceAll(row["text"], " ", space) + space
			if got, f := outcome(text); got != want || f != flags {
				t.Errorf("%q:\n got %s [%s]\nwant %s [%s]", text, got, f, want, flags)
			}
		}
	}
}

func TestServingTooLong(t *testing.T) {
	for _, text := range []string{strings.Repeat("1 cup ", 50), strings.Repeat("🥫", 2_600_000)} {
		_, err := ReadServing(text)
		if p, ok := err.(*say.Problem); !ok || p.ID != "label.serving-long" {
			t.Errorf("%d bytes: %v", len(text), err)
		}
	}
}

func TestIsPackage(t *testing.T) {
	for text, want := range map[string]bool{"1/4 package (28g)": true, "1 can": true, "1 pudding cup": true, "1/6 pie": false, "1/2 cup": false, "2 halves": false} {
		s, err := ReadServing(text)
		if err != nil || s.IsPackage() != want {
			t.Errorf("%q: %v, %v", text, s.IsPackage(), err)
		}
	}
}
