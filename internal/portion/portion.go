// Package portion is how much of a dish a person may have: the largest portion
// inside every limit, and where an allowance plan's cost steps up.
package portion

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
)

// Largest is the largest portion, as a share of one serving, that stays inside
// all that bounds a member from above.
type Largest struct {
	// Share of a serving; +Inf where nothing bounds it.
	Share float64
	// By says what bounds it: "sodium", "the allowance".
	By string
	// Known is false where an amount that counts is not known in full: then no
	// portion can be called inside.
	Known bool
}

// Bounded reports whether there is a largest portion: something bounds it and
// all that counts is known.
func (l Largest) Bounded() bool { return l.Known && !math.IsInf(l.Share, 1) }

// shownStep is what a largest portion is rounded down to for people.
const shownStep = 0.05

// Shown is the share rounded down for showing: what is shown is always inside.
func (l Largest) Shown() float64 {
	return math.Floor(l.Share/shownStep+1e-9) * shownStep
}

// plenty is the number of servings above which a largest portion is no news: a
// design choice.
const plenty = 5

// Plenty reports whether the largest portion is more than anyone eats.
func (l Largest) Plenty() bool { return l.Bounded() && l.Share > plenty }

// LargestInside finds the largest portion for a member. serving is the panel of
// one serving, counted the same without the foods that are free in the member's
// allowance plan. A strict limit counts by the high end of the range, others by
// the middle; at-least limits bound nothing from above.
func LargestInside(h household.Household, m household.Member, serving, counted nutrient.Panel) Largest {
	out := Largest{Share: math.Inf(1), Known: true}
	for _, b := range m.Bounds(h.PlateShare()) {
		if b.Side != household.AtMost {
			continue
		}
		a := serving[b.Nutrient()]
		unknown := a.Unknown+b.Before.Unknown > 0
		if b.Limit.Strict() {
			out.bound(1, 1/highest(b.Left(), a.Mid, a.Up(), b.Before.Up()), unknown, b.Nutrient().Name())
		} else {
			out.bound(b.Left(), a.Mid, unknown, b.Nutrient().Name())
		}
	}
	if m.Plan != nil {
		before, share := m.Spent(h.PlateShare())
		ceiling, strict := m.Plan.Ceiling(share)
		if strict {
			ceiling = math.Nextafter(ceiling, math.Inf(-1))
		}
		sum := m.Plan.Weigh(func(n composition.Nutrient) household.Amount { return household.Amount(counted[n]) })
		out.bound(ceiling-before.Mid, sum.Mid, sum.Unknown+before.Unknown > 0, "the allowance")
	}
	return out
}

// highest is the largest share x of a serving with x·mid + √((x·up)² + before²) <=
// left: the high ends of the dish and of what was had before add in quadrature.
// It is 0 where nothing is left and +Inf where the dish brings nothing.
func highest(left, mid, up, before float64) float64 {
	room := (left - before) * (left + before)
	switch {
	case left < before || room < 0:
		return 0
	case mid == 0 && up == 0:
		return math.Inf(1)
	}
	// (mid² - up²)x² - 2·left·mid·x + room = 0; the smaller root, in the form that
	// also holds where mid = up.
	return room / (left*mid + math.Sqrt(math.Max(0, left*left*mid*mid-(mid*mid-up*up)*room)))
}

func (l *Largest) bound(most, perServing float64, unknown bool, by string) {
	if unknown {
		l.Known = false
	}
	if perServing <= 0 {
		return
	}
	if share := math.Max(0, most) / perServing; share < l.Share {
		l.Share, l.By = share, by
	}
}

// Step is where the rounded cost of a portion goes up.
type Step struct {
	// From is the portion, as a share of a serving, from which Cost counts.
	From float64
	// Cost in units of the plan, at the middle of the range.
	Cost float64
}

// mostSteps bounds the list where the rounding is fine.
const mostSteps = 40

// Steps lists the costs of a portion from nothing up to a share of a serving:
// each holds until the next begins. A plan without rounding has no steps.
func Steps(p household.Plan, perServing, upTo float64) []Step {
	if p.RoundTo <= 0 || perServing <= 0 || math.IsInf(upTo, 0) {
		return nil
	}
	out := []Step{{From: 0, Cost: p.Price(0)}}
	for k := 0; len(out) < mostSteps; k++ {
		from := (float64(k) + 0.5) * p.RoundTo / perServing
		if from > upTo {
			return out
		}
		if cost := p.Price(perServing * from); cost > out[len(out)-1].Cost {
			out = append(out, Step{From: from, Cost: cost})
		}
	}
	return out
}
