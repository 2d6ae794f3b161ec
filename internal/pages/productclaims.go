package pages

import (
	"potwright/internal/composition"
	"potwright/internal/kitchen"
	"potwright/internal/label"
	"potwright/internal/nutrient"
)

// claimsView is which numeric definitions a serving meets.
type claimsView struct {
	Basis    string
	Met, May []string
	// Compared are those met against the version before.
	Compared    []string
	Disclosures []string
	Rule        string
	// Memory is set where one is marked as not read in the regulation itself.
	Memory bool
}

func newClaimsView(c kitchen.Claims) *claimsView {
	v := &claimsView{Basis: c.Basis, Disclosures: c.Disclosures, Rule: label.Rule}
	for _, j := range c.Of(label.Meets) {
		v.Met = append(v.Met, claimWords(j))
		v.Memory = v.Memory || j.Memory
	}
	for _, j := range c.Of(label.MayMeet) {
		v.May = append(v.May, claimWords(j))
		v.Memory = v.Memory || j.Memory
	}
	for _, j := range c.Compared {
		v.Compared = append(v.Compared, claimWords(j))
	}
	return v
}

func claimWords(j label.Judged) string {
	s := sentenceStart(j.Sentence())
	if j.Why != "" {
		s += ": " + j.Why
	}
	s += "."
	if j.Memory {
		s += " *"
	}
	return s
}

// dailyWords is a serving's share of the daily value, "" where there is none or a
// part is unknown.
func dailyWords(n composition.Nutrient, a nutrient.Amount) string {
	if a.Unknown > 0 {
		return ""
	}
	percent, ok := label.DailyPercent(n, a.Mid)
	if !ok {
		return ""
	}
	return label.Figure(percent) + " % DV"
}
