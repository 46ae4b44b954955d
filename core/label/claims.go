package label

import (
	"slices"
	"strings"

	"cupsum/core/amount"
	"cupsum/core/rule"
	"cupsum/core/say"
)

// claimRow is one row of data/claims.csv. Terms are separated by ";"; limit is
// the most per reference amount, in tenths of mg, g or kcal, or 0 where the term
// has none.
type claimRow struct {
	id       string
	nutrient Nutrient
	limit    int
	terms    string
	source   string
	origin   rule.Origin
}

// A Claim is a term of 21 CFR 101.60-61 that a package bears.
type Claim struct {
	ID       string // key of the claim: "low-sodium"
	Nutrient Nutrient
	Limit    amount.Num // the most per serving that the term allows, or 0
	Source   string
	Origin   rule.Origin
}

// Line explains the claim: the message "claim.ID".
func (c Claim) Line() say.Line { return say.New("claim." + c.ID) }

func claimAt(i int) Claim {
	r := &claimRows[i]
	return Claim{r.id, r.nutrient, amount.Frac(int64(r.limit), 10), r.source, r.origin}
}

// AllClaims lists the claims that are known.
func AllClaims() []Claim {
	cs := make([]Claim, len(claimRows))
	for i := range cs {
		cs[i] = claimAt(i)
	}
	return cs
}

// FindClaims finds the claims in a package's text, each once, in the order of
// the table. "Not a low sodium food" is no claim. Text over [MaxPanel] bytes is
// read up to there.
func FindClaims(text string) []Claim { return claimsIn(plain(text[:min(len(text), MaxPanel)])) }

func claimsIn(t string) []Claim {
	var rows []int
	for _, f := range findTerms(t, len(claimRows), func(i int) string { return claimRows[i].terms }) {
		if before := t[:f.at]; strings.HasSuffix(before, " not a ") || strings.HasSuffix(before, " not ") || strings.HasSuffix(before, " no es ") {
			continue
		}
		if !slices.Contains(rows, f.row) {
			rows = append(rows, f.row)
		}
	}
	slices.Sort(rows)
	var cs []Claim
	for _, r := range rows {
		cs = append(cs, claimAt(r))
	}
	return cs
}
