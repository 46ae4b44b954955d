package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// goodLabel are the least tables that pass.
var goodLabel = map[string]string{
	"claims.csv":  "id,nutrient,limit,terms,source,origin\nlow-sodium,sodium,140,low sodium;low in sodium,21 CFR 101.61(b)(4),published\n",
	"media.csv":   "id,order,form,terms,source,origin\nwater,1,canned-water,packed in water,21 CFR 145.170,published\n",
	"rinsing.csv": "food,treatment,nutrient,percent,study,source,origin\nbeans,rinsed,sodium,41,one,a study,published\n",
}

var labelRefusals = []struct{ name, file, from, to, want string }{
	{"no source", "claims.csv", ",21 CFR 101.61(b)(4),", ",,", "claims.csv:2: no source"},
	{"no origin", "media.csv", ",published", ",", "media.csv:2: origin"},
	{"another origin", "rinsing.csv", ",published", ",found", "rinsing.csv:2: origin"},
	{"limit in words", "claims.csv", ",140,", ",some,", "claims.csv:2: limit"},
	{"limit too high", "claims.csv", ",140,", ",1400,", "claims.csv:2: limit"},
	{"unknown nutrient", "claims.csv", ",sodium,", ",salt,", "claims.csv:2: nutrient"},
	{"term twice", "claims.csv", "low in sodium", "low sodium", "claims.csv:2: the term"},
	{"capital term", "claims.csv", "low in sodium", "Low in sodium", "claims.csv:2: the term"},
	{"order", "media.csv", ",1,", ",2,", "media.csv:2: order"},
	{"form", "media.csv", "canned-water", "frozen", "media.csv:2: form"},
	{"percent over 100", "rinsing.csv", ",41,", ",141,", "rinsing.csv:2: percent"},
	{"treatment", "rinsing.csv", "rinsed", "washed", "rinsing.csv:2: food, study or treatment"},
	{"no study", "rinsing.csv", ",one,", ",,", "rinsing.csv:2: food, study or treatment"},
	{"columns", "rinsing.csv", "food,treatment", "treatment,food", "rinsing.csv: columns"},
}

// labelFolder goes to a folder with the tables, one of them changed.
func labelFolder(t *testing.T, file, from, to string) {
	t.Helper()
	dir := t.TempDir()
	data := filepath.Join(dir, "core", "label", "data")
	if err := os.MkdirAll(data, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range goodLabel {
		if name == file {
			changed := strings.Replace(text, from, to, 1)
			if changed == text {
				t.Fatalf("%s has no %q", file, from)
			}
			text = changed
		}
		if err := os.WriteFile(filepath.Join(data, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(dir)
}

func TestLabelRefuses(t *testing.T) {
	for _, tt := range labelRefusals {
		t.Run(tt.name, func(t *testing.T) {
			labelFolder(t, tt.file, tt.from, tt.to)
			_, err := makeLabel()
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("%v, want %q", err, tt.want)
			}
		})
	}
}

func TestLabelPacks(t *testing.T) {
	labelFolder(t, "", "", "")
	text, err := makeLabel()
	if err != nil || !strings.Contains(text, `{"low-sodium", Sodium, 1400, "low sodium;low in sodium"`) || !strings.Contains(text, "MediumWater Medium = 1") || !strings.Contains(text, `{"beans", "rinsed", Sodium, 410,`) {
		t.Errorf("%v\n%s", err, text)
	}
}
