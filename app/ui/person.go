package ui

import (
	"strconv"
	"strings"

	"cupsum/core/guide"
)

// A Person is what was typed to find a target, as text. It stays on the
// device: it is stored, but in no file, link or export.
type Person struct {
	Age      string `json:"age,omitempty"`
	Sex      string `json:"sex,omitempty"`      // "female" or "male", the columns of the table
	Activity string `json:"activity,omitempty"` // "sedentary", "moderate", "active"
	State    string `json:"state,omitempty"`    // "", "pregnant", "breastfeeding", "diet"
	Pattern  string `json:"pattern,omitempty"`
}

// patterns a person's target can come from, the usual one first.
var personPatterns = []string{"us", "vegetarian", "mediterranean", "dga2025"}

// person reads what was typed.
func (p Person) person() guide.Person {
	q := guide.Person{Age: -1}
	if n, err := strconv.Atoi(strings.TrimSpace(p.Age)); err == nil && n >= 0 {
		q.Age = n
	}
	q.Sex = map[string]guide.Sex{"female": guide.Female, "male": guide.Male}[p.Sex]
	q.Activity = map[string]guide.Activity{"sedentary": guide.Sedentary, "moderate": guide.Moderate, "active": guide.Active}[p.Activity]
	q.Pregnant, q.Breastfeeding, q.SpecialDiet = p.State == "pregnant", p.State == "breastfeeding", p.State == "diet"
	return q
}

func (p Person) pattern() string {
	if p.Pattern == "" {
		return personPatterns[0]
	}
	return p.Pattern
}

// started tells whether anything was answered yet.
func (p Person) started() bool {
	return p.Age != "" || p.Sex != "" || p.Activity != "" || p.State != ""
}
