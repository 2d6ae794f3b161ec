package daybook

import (
	"slices"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

// Standing is how far what was eaten and is planned goes towards one bound.
type Standing struct {
	// Meal is the meal it is about, "" for the whole day.
	Meal Meal
	// Limit it comes from, with its Side; the zero limit for the allowance of a plan.
	Limit household.Limit
	Side  household.Side
	// Plan is the member's plan where the allowance is meant, else nil.
	Plan *household.Plan
	// Bound is the limit's own figure, or the allowance.
	Bound float64
	// Eaten is what was eaten alone, All with what is planned, in the nutrient's unit
	// or in units of the plan.
	Eaten, All household.Amount
}

// Left is the bound less All: what may or should still come. Its ends may be below
// zero; with unknown parts there is less left than it says.
func (s Standing) Left() spread.Range {
	return spread.Range{Low: s.Bound - s.All.High, Mid: s.Bound - s.All.Mid, High: s.Bound - s.All.Low}
}

// Standings are a member's bounds for a day: each limit and the plan by day, and
// those by meal once for each meal that has an entry. Limits by serving are the
// dish's own. entries are the member's of that day.
func Standings(m household.Member, entries []Entry) []Standing {
	var out []Standing
	for _, meal := range append([]Meal{""}, Meals()...) {
		mine, per := entries, household.PerDay
		if meal != "" {
			mine, per = at(entries, meal), household.PerMeal
			if len(mine) == 0 {
				continue
			}
		}
		happened := eaten(mine)
		for _, b := range m.Bounds(1) {
			if b.Limit.Per != per {
				continue
			}
			out = append(out, Standing{Meal: meal, Limit: b.Limit, Side: b.Side, Bound: b.Value,
				Eaten: household.Amount(Sum(happened)[b.Nutrient()]), All: household.Amount(Sum(mine)[b.Nutrient()])})
		}
		if m.Plan != nil && m.Plan.Per == per {
			out = append(out, Standing{Meal: meal, Plan: m.Plan, Side: household.AtMost, Bound: m.Plan.Allowance,
				Eaten: Cost(*m.Plan, happened), All: Cost(*m.Plan, mine)})
		}
	}
	return out
}

func at(entries []Entry, meal Meal) []Entry {
	return filter(entries, func(e Entry) bool { return e.Meal == meal })
}

func eaten(entries []Entry) []Entry {
	return filter(entries, func(e Entry) bool { return e.State == Eaten })
}

func filter(entries []Entry, keep func(Entry) bool) []Entry {
	var out []Entry
	for _, e := range entries {
		if keep(e) {
			out = append(out, e)
		}
	}
	return out
}

// Cost is what entries cost in a plan: each meal of each day is priced and rounded by
// itself, as it is when it is eaten, and the prices are added end to end.
func Cost(p household.Plan, entries []Entry) household.Amount {
	var out household.Amount
	seen := map[Date][]Meal{}
	for _, e := range entries {
		if slices.Contains(seen[e.Date], e.Meal) {
			continue
		}
		seen[e.Date] = append(seen[e.Date], e.Meal)
		c := p.Cost(weigh(p, Counted(filter(entries, func(o Entry) bool { return o.Date == e.Date && o.Meal == e.Meal }))))
		out.Low, out.Mid, out.High = out.Low+c.Low, out.Mid+c.Mid, out.High+c.High
		out.Unknown += c.Unknown
	}
	return out
}

func weigh(p household.Plan, of nutrient.Panel) household.Amount {
	return p.Weigh(func(n composition.Nutrient) household.Amount { return household.Amount(of[n]) })
}
