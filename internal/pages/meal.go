package pages

import (
	"fmt"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// mealView is what a member eats of all the dishes, held against the limits.
type mealView struct {
	Name, Verdict string
	Mark          household.Fit
	Findings      []findingView
}

// mealViews adds the dishes up for everyone who eats; nil for fewer than two.
func (s *Site) mealViews(table household.Household, served []onTable) []mealView {
	if len(served) < 2 {
		return nil
	}
	var out []mealView
	for i, m := range table.Members {
		mine := make([]kitchen.Serving, len(served))
		for j, d := range served {
			mine[j] = kitchen.Serving{Title: d.title, Analysis: d.analysis, Portion: portionAt(d.table, m.ID)}
		}
		p := s.kitchen.Meal(table, m, mine)
		out = append(out, mealView{Name: m.Name, Verdict: mealWords(p), Mark: p.Fit,
			Findings: s.words.findingViews(fmt.Sprintf("meal-%d", i), p.Findings)})
	}
	return out
}

// mealWords is a meal's verdict in words.
func mealWords(p kitchen.MealPlate) string {
	switch {
	case p.Fit == household.Unknown:
		return "Not everything is known."
	case p.Fits && p.Fit == household.Inside:
		return "Inside the limits."
	case p.Fits:
		return "Inside by the best estimate, though it is close."
	case p.Fit == household.Close:
		return "Too close to be sure."
	default:
		return "Not inside every limit."
	}
}
