package household

import (
	"potwright/internal/composition"
)

// Intake is what was eaten, each nutrient with its range, in its unit.
type Intake [composition.NutrientCount]Amount

// Eaten is what was eaten, and the same without the foods that are free in the
// member's allowance plan.
type Eaten struct{ All, Costing Intake }

// Had is what counts against a member's limits before the dish in question. It is
// of one sitting and is not saved with the member. Nil, as the zero value, is an
// empty plate and a day that nothing is told of.
type Had struct {
	// Meal is the rest of this meal: what already stands on the plate.
	Meal Eaten
	// Day is what was eaten earlier in the day. It counts where Told is set: then a
	// day's limit is held against what it leaves, not against the meal's share.
	Day  Eaten
	Told bool
	// Rest is the part of what the day leaves that this meal may use, 0..1; 0
	// stands for all of it.
	Rest float64
}

// dayShare is the part of a day that this plate is held against.
func (h *Had) dayShare(mealShare float64) float64 {
	switch {
	case h == nil || !h.Told:
		return mealShare
	case h.Rest > 0:
		return h.Rest
	default:
		return 1
	}
}

// before is what counts already against a bound over a period that this plate may
// use share of. Meal and day are independent.
func (h *Had) before(per Period, share float64, of func(*Eaten) Amount) Amount {
	switch {
	case h == nil || per == PerServing:
		return Amount{}
	case per == PerDay && h.Told:
		day := of(&h.Day)
		day.Range = day.Scale(share)
		return day.with(of(&h.Meal))
	default:
		return of(&h.Meal)
	}
}

// with adds an independent amount.
func (a Amount) with(o Amount) Amount { return Amount{a.Add(o.Range), a.Unknown + o.Unknown} }

// Spent is what the plan counts before this plate, as a weighted sum, and the
// share of a day's allowance that the plate is held against.
func (m Member) Spent(mealShare float64) (before Amount, share float64) {
	share = m.Had.dayShare(mealShare)
	if m.Plan == nil {
		return before, share
	}
	before = m.Had.before(m.Plan.Per, share, func(e *Eaten) Amount {
		return m.Plan.Weigh(func(n composition.Nutrient) Amount { return e.Costing[n] })
	})
	return before, share
}

// PlanFinding holds the weighted sum of a dish against the member's plan, with
// what was had before: the cost is rounded once, for both. fits is set where the
// plan holds.
func (m Member) PlanFinding(sum Amount, mealShare float64) (f Finding, fits bool) {
	before, share := m.Spent(mealShare)
	both := Amount{sum.Range.Add(before.Range), sum.Unknown + before.Unknown}
	both.Low, both.High = sum.Low+before.Low, sum.High+before.High
	f = m.Plan.Finding(both, share)
	if before != (Amount{}) {
		f.Text = "With what was had before: " + f.Text
	}
	return f, m.Plan.Fits(both, share)
}
