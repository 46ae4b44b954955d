package label

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
)

// TestTables: what the program holds is what the CSV tables say, row by row.
func TestTables(t *testing.T) {
	for _, info := range Tables() {
		f, err := os.Open("data/" + info.Name + ".csv")
		if err != nil {
			t.Fatal(err)
		}
		recs, err := csv.NewReader(f).ReadAll()
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		sum := 0
		for _, s := range info.Sources {
			sum += s.Rows
			if s.Source == "" {
				t.Errorf("%s: a row without a source", info.Name)
			}
		}
		if info.Rows != len(recs)-1 || sum != info.Rows {
			t.Errorf("%s: %d rows in the program, %d by source, %d in the file", info.Name, info.Rows, sum, len(recs)-1)
		}
	}
}

// claimLimits are those of 21 CFR 101.60-61, kept apart from the table.
func TestClaimLimits(t *testing.T) {
	want := map[string]string{"sodium-free": "5", "salt-free": "5", "very-low-sodium": "35", "low-sodium": "140", "sugar-free": "1/2", "low-calorie": "40"}
	for _, c := range AllClaims() {
		limit := want[c.ID]
		if limit == "" {
			limit = "0"
		}
		if c.Limit.String() != limit {
			t.Errorf("%s: limit %s, want %s", c.ID, c.Limit, limit)
		}
	}
}

// TestTermsAreFound: every term of the tables is found as what it stands for.
func TestTermsAreFound(t *testing.T) {
	for i := range claimRows {
		for term := range strings.SplitSeq(claimRows[i].terms, ";") {
			found := FindClaims("Soup. " + strings.ToUpper(term[:1]) + term[1:] + "!")
			if len(found) != 1 || found[0].ID != claimRows[i].id {
				t.Errorf("%q is found as %v, want %s", term, found, claimRows[i].id)
			}
		}
	}
	for i := 1; i < len(mediumRows); i++ {
		for term := range strings.SplitSeq(mediumRows[i].terms, ";") {
			if m, ok := FindMedium("Peaches, " + term); !ok || m != Medium(i) {
				t.Errorf("%q is found as %q, want %s", term, m.ID(), mediumRows[i].id)
			}
		}
	}
}
