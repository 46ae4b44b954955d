package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// guideFolder copies the guide's tables, so that a test may spoil one.
func guideFolder(t *testing.T) string {
	t.Helper()
	t.Chdir(filepath.Join("..", ".."))
	folder := t.TempDir()
	for _, table := range guideTables {
		text, err := os.ReadFile("core/guide/data/" + table.name + ".csv")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, table.name+".csv"), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// spoiled are changes to one line of a table, and what the refusal says.
var spoiled = []struct {
	name, table    string
	from, to, says string
}{
	// crediting
	{"no source", "crediting", `one-egg,"Dietary Guidelines for Americans 2020-2025, Table A3-2 note c (2020)"`, "one-egg,", "no source"},
	{"no origin", "crediting", "note c (2020)\",published", "note c (2020)\",", `origin "" is not published, practice or memory`},
	{"unknown origin", "crediting", "note c (2020)\",published", "note c (2020)\",sure", `origin "sure" is not published, practice or memory`},
	{"unknown class", "crediting", "dga-2020,egg,", "dga-2020,eg,", `class "eg" is not one of the list`},
	{"unknown edition", "crediting", "dga-2020,egg,", "dga-2021,egg,", `edition "dga-2021" is not one of the list`},
	{"unknown group", "crediting", "dga-2020,egg,protein", "dga-2020,egg,protien", `group "protien" is not one of the list`},
	{"subgroup of another group", "crediting", "dga-2020,egg,protein,,", "dga-2020,egg,protein,whole,", `subgroup "whole" is not one of protein`},
	{"unknown basis", "crediting", "egg,protein,,piece", "egg,protein,,dozen", `per "dozen" is not one of the list`},
	{"unknown unit", "crediting", "egg,protein,,piece,1,oz-eq", "egg,protein,,piece,1,ounce", `unit "ounce" is not one of the list`},
	{"unknown rule", "crediting", "one-egg", "one-eggs", `rule "one-eggs" is not in core/rule/data`},
	{"factor ten times too large", "crediting", "nut-butter,protein,,cup,16,", "nut-butter,protein,,cup,160,", `factor "160" is not plausible for protein per cup: above 0, at most 16`},
	{"factor zero", "crediting", "nut-butter,protein,,cup,16,", "nut-butter,protein,,cup,0,", `factor "0" is not plausible`},
	{"factor negative", "crediting", "nut-butter,protein,,cup,16,", "nut-butter,protein,,cup,-16,", `factor "-16" is not a number`},
	{"factor over zero", "crediting", "leafy-raw,vegetable,,cup,1/2,", "leafy-raw,vegetable,,cup,1/0,", `factor "1/0" is not a number`},
	{"factor empty", "crediting", "leafy-raw,vegetable,,cup,1/2,", "leafy-raw,vegetable,,cup,,", `factor "" is not plausible`},
	{"basis that the group has not", "crediting", "egg,protein,,piece", "fruit-cup,fruit,,piece", `not plausible for fruit per piece`},
	{"row twice", "crediting", "dga-2020,egg,", "dga-2020,tempeh,", "are in "},
	{"cooked is no word of ours", "crediting", "oz-eq,yes,one-meat", "oz-eq,sure,one-meat", `cooked "sure"`},
	// sets and targets
	{"id twice", "sets", "us-1200,", "us-1000,", `the id "us-1000" is in`},
	{"set without targets", "sets", "us-1200,", "us-1250,", `the set "us-1250" has no targets`},
	{"level out of bounds", "sets", "us-1200,dga-2020,us,1200", "us-1200,dga-2020,us,12000", `level "12000" is not a whole number from 600 to 4000`},
	{"unknown pattern", "sets", "us-1200,dga-2020,us,", "us-1200,dga-2020,usa,", `pattern "usa" is not one of the list`},
	{"origin too sure", "sets", "(2020)\",memory", "(2020)\",published", "but the least sure of its daily targets is memory"},
	{"targets of no set", "targets", "us-2000,fruit", "us-2050,fruit", `the set "us-2050" is not in sets.csv`},
	{"target twice", "targets", "us-2000,fruit", "us-2000,dairy", "is in "},
	{"unknown part", "targets", "animal,eggs", "animal,egg", `part "egg" is not one of the list`},
	{"unknown subgroup", "targets", "us-2000,vegetable,dark-green", "us-2000,vegetable,darkgreen", `subgroup "darkgreen" is not one of vegetable`},
	{"no amount", "targets", "us-2000,fruit,,,2,", "us-2000,fruit,,,,", `low "" and high "" are not a target`},
	{"implausible", "targets", "us-2000,fruit,,,2,", "us-2000,fruit,,,200,", `low "200" and high "" are not a target`},
	{"fifths", "targets", "us-2000,fruit,,,2,", "us-2000,fruit,,,2 1/5,", `low "2 1/5" is no multiple of 1/12`},
	{"low above high", "targets", "dga2025-2000,protein,,,3,4", "dga2025-2000,protein,,,4,3", "are not a target"},
	{"unknown period", "targets", "us-2000,fruit,,,2,,cup-eq,day", "us-2000,fruit,,,2,,cup-eq,month", `period "month" is not day or week`},
	// calories, hands, cautions
	{"age left out", "calories", "female,12,12,", "female,13,13,", "12 is next"},
	{"activities that don't rise", "calories", "female,3,3,1000,1200", "female,3,3,1400,1200", "are not rising steps of 200"},
	{"last age missing", "calories", "\nmale,76,,", "\nmale,76,90,", "the calorie table for male ends at 91"},
	{"hand twice", "hands", "cupped,cup", "fist,cup", `the id "fist" is in`},
	{"hand in another unit", "hands", "fist,cup", "fist,cm", `unit "cm" is not one of the list`},
	{"hand inside out", "hands", "fist,cup,2/3,1,1 1/3", "fist,cup,2/3,1,1/3", "don't rise"},
	{"caution twice", "cautions", "choking,food", "honey,food", `the id "honey" is in`},
	{"caution without words", "cautions", "choking,food", "chocking,food", "there is no message caution.chocking"},
	{"unknown condition", "cautions", "food+form:dry", "food+from:dry", `when "from:dry" is not`},
	{"unknown form", "cautions", "food+form:dry", "food+form:drie", `when "form:drie" is not`},
}

func TestGuideRefuses(t *testing.T) {
	folder := guideFolder(t)
	for _, c := range spoiled {
		t.Run(c.name, func(t *testing.T) {
			file := filepath.Join(folder, c.table+".csv")
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			defer os.WriteFile(file, text, 0o644)
			at := strings.Index(string(text), c.from)
			if at < 0 {
				t.Fatalf("%s has no %q", c.table, c.from)
			}
			bad := string(text[:at]) + c.to + string(text[at+len(c.from):])
			if err := os.WriteFile(file, []byte(bad), 0o644); err != nil {
				t.Fatal(err)
			}
			rows, err := readGuide(folder)
			if err == nil {
				_, err = rows.pack()
			}
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Fatalf("%v, want %q", err, c.says)
			}
			// The end of the calorie table has no line to name.
			if !strings.Contains(err.Error(), c.table+".csv:") && !strings.Contains(c.says, "ends at") {
				t.Errorf("no file and line in %v", err)
			}
		})
	}
}

// The line that is named is the line that is wrong.
func TestGuideNamesTheLine(t *testing.T) {
	folder := guideFolder(t)
	file := filepath.Join(folder, "hands.csv")
	text, _ := os.ReadFile(file)
	lines := strings.Split(string(text), "\n")
	lines[4] = strings.Replace(lines[4], ",oz,", ",ounces,", 1) // the fifth line of the file
	os.WriteFile(file, []byte(strings.Join(lines, "\n")), 0o644)
	rows, err := readGuide(folder)
	if err == nil {
		_, err = rows.pack()
	}
	if err == nil || !strings.Contains(err.Error(), "hands.csv:5: unit \"ounces\"") {
		t.Errorf("%v", err)
	}
}

func TestGuideInStep(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	if err := (table{"core/guide/zguide.go", makeGuide}).write(true); err != nil {
		t.Error(err)
	}
}

// The guide's classes are those of the catalogue.
func TestClassesAgree(t *testing.T) {
	for _, c := range guideClasses {
		if _, ok := classRules[c]; !ok {
			t.Errorf("the catalogue has no class %s", c)
		}
	}
	if len(classRules) != len(guideClasses) {
		t.Errorf("%d classes in the catalogue, %d in the guide", len(classRules), len(guideClasses))
	}
}

var fractions = []struct {
	text string
	n, d int
	ok   bool
}{
	{"2", 2, 1, true}, {"2/3", 2, 3, true}, {"1 2/3", 5, 3, true}, {"", 0, 1, true},
	{"2.5", 0, 0, false}, {"1 2", 0, 0, false}, {"1/2 1/2", 0, 0, false}, {"1/2 1", 0, 0, false}, {"-1", 0, 0, false}, {"1/0", 0, 0, false}, {"a", 0, 0, false}, {"1/", 0, 0, false}, {"½", 0, 0, false},
}

func TestFraction(t *testing.T) {
	for _, c := range fractions {
		n, d, err := row{at: "x.csv:1", values: map[string]string{"v": c.text}}.fraction("v")
		if (err == nil) != c.ok || c.ok && (n != c.n || d != c.d) {
			t.Errorf("%q: %d/%d, %v", c.text, n, d, err)
		}
	}
}
