package kitchen

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/taste"
)

// season tells the cook where an answer takes so much salt that people notice,
// and what makes up for it.
func (k *Kitchen) season(a Analysis, h household.Household, ans *adaptation.Answer) {
	before, after := a.Pot.Serving[composition.Sodium], ans.Pot.Serving[composition.Sodium]
	if before.Unknown > 0 || after.Unknown > 0 {
		return
	}
	dish := make([]foodmatch.Matched, len(ans.Pot.Lines))
	for i, lp := range ans.Pot.Lines {
		dish[i] = lp.Matched
	}
	advice, ok := k.Taste.Advise(before.Mid, after.Mid, dish, k.avoidedBy(h))
	if ok {
		ans.Cautions = append(ans.Cautions, tasteWords(advice))
	}
}

// avoidedBy tells the foods, by name, that someone of the household avoids or
// that are not known to be free of what they avoid.
func (k *Kitchen) avoidedBy(h household.Household) func(food string) bool {
	return func(name string) bool {
		food, ok := k.Table.ByName(name)
		if !ok {
			return true
		}
		line := []household.LineFood{{Text: name, Food: food}}
		return slices.ContainsFunc(h.Members, func(m household.Member) bool {
			return len(k.Needs.AvoidFindings(m, line)) > 0
		})
	}
}

func tasteWords(a taste.Advice) string {
	var b strings.Builder
	fmt.Fprintf(&b, "There is %.0f %% less sodium in a serving. ", math.Round(100*a.Fall))
	if a.Far {
		b.WriteString("Most people will notice at first; taste follows within some meals.")
	} else {
		b.WriteString("People may notice at first.")
	}
	if len(a.Helpers) > 0 {
		says := make([]string, len(a.Helpers))
		for i, h := range a.Helpers {
			says[i] = h.Say
		}
		b.WriteString(" What makes up for it: " + strings.Join(says, "; or ") + ". They are not counted in the figures.")
	}
	return b.String()
}
