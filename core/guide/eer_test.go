package guide_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"cupsum/core/guide"
)

// eer is the estimated energy requirement of IOM (2002/2005), from which Table
// A2-2 was made: kcal a day at an age in years, for a size, by activity. It is
// a check on the stored table from another side, so it may use floats.
func eer(male bool, age, kg, m float64, a guide.Activity) float64 {
	pa := map[bool][2][3]float64{
		true:  {{1, 1.13, 1.26}, {1, 1.11, 1.25}}, // ages 3-18, 19 and up
		false: {{1, 1.16, 1.31}, {1, 1.12, 1.27}},
	}[male]
	growth := 20.0
	if age >= 9 {
		growth = 25
	}
	switch i := a - guide.Sedentary; {
	case age < 3:
		return 89*kg - 100 + 20
	case male && age < 19:
		return 88.5 - 61.9*age + pa[0][i]*(26.7*kg+903*m) + growth
	case male:
		return 662 - 9.53*age + pa[1][i]*(15.91*kg+539.6*m)
	case age < 19:
		return 135.3 - 30.8*age + pa[0][i]*(10*kg+934*m) + growth
	default:
		return 354 - 6.91*age + pa[1][i]*(9.36*kg+726*m)
	}
}

// The stored table agrees with the equations at the middle age of each line,
// to the nearest 200, but for the cells that are listed: there the table is
// printed otherwise, and the printed table is what counts.
func TestCaloriesFollowEquations(t *testing.T) {
	exceptions := map[string]string{}
	for _, row := range published(t, "eer_exceptions") {
		exceptions[row["age"]+"/"+row["sex"]+"/"+row["activity"]] = row["equation"] + " not " + row["printed"]
	}
	sizes := published(t, "eer_sizes")
	follow := 0
	for _, row := range published(t, "dga2020_calories") {
		if strings.Contains(row["age"], "month") {
			continue
		}
		first, last, isRange := strings.Cut(strings.TrimSuffix(row["age"], "+"), "-")
		from, _ := strconv.ParseFloat(first, 64)
		age := from
		if isRange {
			to, _ := strconv.ParseFloat(last, 64)
			age = (from + to) / 2
		} else if strings.HasSuffix(row["age"], "+") {
			age += 2
		}
		var kg, m float64
		for _, s := range sizes {
			low, _ := strconv.ParseFloat(s["from"], 64)
			high, _ := strconv.ParseFloat(s["to"], 64)
			if s["sex"] == row["sex"] && low <= age && age <= high {
				kg, _ = strconv.ParseFloat(s["kg"], 64)
				m, _ = strconv.ParseFloat(s["cm"], 64)
			}
		}
		a := map[string]guide.Activity{"sedentary": guide.Sedentary, "moderately active": guide.Moderate, "active": guide.Active}[row["activity"]]
		p := guide.Person{Age: int(from), Sex: map[string]guide.Sex{"male": guide.Male, "female": guide.Female}[row["sex"]], Activity: a}
		stored, err := guide.CalorieNeed(p)
		if err != nil {
			t.Fatal(err)
		}
		rounded := int(math.Round(eer(row["sex"] == "male", age, kg, m/100, a)/200)) * 200
		key := row["age"] + "/" + row["sex"] + "/" + row["activity"]
		listed, isListed := exceptions[key]
		switch is := strconv.Itoa(rounded) + " not " + strconv.Itoa(stored); {
		case rounded == stored && isListed:
			t.Errorf("%s is listed as %s, but follows the equation", key, listed)
		case rounded == stored:
			follow++
		case is != listed:
			t.Errorf("%s: %s, listed %q", key, is, listed)
		}
	}
	if follow != 168 || len(exceptions) != 12 {
		t.Errorf("%d cells follow, %d are listed, want 168 and 12", follow, len(exceptions))
	}
}
