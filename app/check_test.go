//go:build !wasm

package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"cupsum/core/day"
)

// files writes day files and returns their names.
func files(t *testing.T, texts ...string) []string {
	t.Helper()
	var names []string
	for i, text := range texts {
		name := filepath.Join(t.TempDir(), string(rune('a'+i))+".json")
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		names = append(names, name)
	}
	return names
}

func runCheck(args ...string) (status int, out, errs string) {
	var o, e strings.Builder
	status = run(append([]string{"check"}, args...), &o, &e)
	return status, o.String(), e.String()
}

const (
	good = `{"format":"cupsum-day","version":1,"set":"class","portions":[{"id":"p1","food":"apricot","form":"dried","measure":{"by":"cup","amount":"1/4"}}]}`
	half = `{"format":"cupsum-day","version":1,"set":"class","portions":[{"id":"p1","food":"ambrosia","form":"fresh","measure":{"by":"cup","amount":"1"}}]}`
)

var checkTests = []struct {
	name   string
	files  []string
	status int
	want   []string
}{
	{"a good day", []string{good}, 0, []string{"apricot, dried: ¼ cup", "½ cup of fruit", "[one-dried]", "1½ cups to go.", "not medical advice"}},
	{"a portion that can't be read", []string{half}, 1, []string{"We do not know the food", "2 cups to go."}},
	{"no JSON", []string{"an apple"}, 1, []string{"This file is broken at line 1."}},
	{"a bad file before a good one", []string{"an apple", good}, 1, []string{"This file is broken at line 1.", "½ cup of fruit"}},
	{"the sample", []string{string(day.Demo().Write())}, 0, []string{"This is a sample day", "Too close to call.", "To settle it measure this again"}},
}

func TestCheckInWords(t *testing.T) {
	for _, tt := range checkTests {
		t.Run(tt.name, func(t *testing.T) {
			status, out, _ := runCheck(files(t, tt.files...)...)
			if status != tt.status {
				t.Errorf("status %d, want %d", status, tt.status)
			}
			for _, want := range tt.want {
				if !strings.Contains(out, want) {
					t.Errorf("%q is not in\n%s", want, out)
				}
			}
			if strings.Contains(out, "[note.") || strings.Contains(out, "[step.") || strings.Contains(out, "{0}") {
				t.Errorf("a message is missing in\n%s", out)
			}
		})
	}
}

func TestCheckAsJSON(t *testing.T) {
	status, out, _ := runCheck(append([]string{"-json"}, files(t, good, "an apple")...)...)
	if status != 1 {
		t.Errorf("status %d, want 1", status)
	}
	var checks []struct {
		Format, File, Edition string
		Error                 *struct{ ID, Text string }
		Set                   *struct{ ID, Origin string }
		Portions              []struct {
			ID      string
			Credits []struct {
				Group, Unit string
				Amount      struct{ Low, Best, High string }
			}
			Working []struct{ ID, Text, Rule string }
		}
		Totals []struct {
			Group, Verdict, Gap string
			Target              struct{ Low string }
			Total               struct{ Low, Best, High string }
			Ways                [][]struct{ Food, Measured string }
		}
	}
	if err := json.Unmarshal([]byte(out), &checks); err != nil {
		t.Fatalf("%v in\n%s", err, out)
	}
	if len(checks) != 2 || checks[0].Error != nil || checks[1].Error == nil {
		t.Fatalf("want one check and one refusal in\n%s", out)
	}
	c := checks[0]
	if c.Format != "cupsum-check" || c.Edition != "dga-2020" || c.Set.ID != "class" || c.Set.Origin != "practice" {
		t.Errorf("head is %+v", c)
	}
	p := c.Portions[0]
	if p.Credits[0].Group != "fruit" || p.Credits[0].Unit != "cup-eq" || p.Credits[0].Amount.Best != "1/2" {
		t.Errorf("credit is %+v", p.Credits[0])
	}
	if len(p.Working) == 0 || p.Working[len(p.Working)-1].Rule != "one-dried" {
		t.Errorf("working is %+v", p.Working)
	}
	fruit := c.Totals[0]
	if fruit.Verdict != "short" || fruit.Gap != "3/2" || fruit.Target.Low != "2" || fruit.Total.High != "1/2" || len(fruit.Ways) != 3 {
		t.Errorf("fruit is %+v", fruit)
	}
}

func TestCheckCalledWrongly(t *testing.T) {
	for _, args := range [][]string{{}, {"-xml", "x.json"}} {
		if status, _, errs := runCheck(args...); status != 2 || errs == "" {
			t.Errorf("%v: status %d, %q", args, status, errs)
		}
	}
	if status, out, _ := runCheck(filepath.Join(t.TempDir(), "none.json")); status != 1 || !strings.Contains(out, "none.json") {
		t.Errorf("a file that isn't there: status %d, %q", status, out)
	}
}
