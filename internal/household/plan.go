package household

import (
	"fmt"
	"math"
	"slices"

	"potwright/internal/composition"
	"potwright/internal/label"
	"potwright/internal/spread"
)

// roundSlack lets a sum a hair under a half in binary round up as on paper. It
// is a share of one rounding step, far below what any amount is known to.
const roundSlack = 1e-9

// IsFree reports whether a food costs nothing under the plan; the caller leaves
// its line out of the amounts that the plan weighs.
func (p Plan) IsFree(f *composition.Food) bool {
	return f != nil && slices.ContainsFunc(p.Free, f.HasKind)
}

// Weigh is the weighted sum of the plate's nutrients in units of the plan,
// before rounding. Half-widths are added up, not in quadrature: nutrients of
// one plate move together with its weight. A negative weight turns the range
// of its nutrient round, and an unknown part of it counts as unknown.
func (p Plan) Weigh(of Amounts) Amount {
	var sum Amount
	for _, n := range composition.Nutrients() {
		w, used := p.Weights[n]
		if !used {
			continue
		}
		a := of(n)
		low, high := w*a.Low, w*a.High
		sum.Low += math.Min(low, high)
		sum.Mid += w * a.Mid
		sum.High += math.Max(low, high)
		sum.Unknown += a.Unknown
	}
	return sum
}

// Price is what a portion with this weighted sum costs: rounded half up to a
// multiple of RoundTo (not at all where that is 0), at least Floor.
func (p Plan) Price(sum float64) float64 {
	if p.RoundTo <= 0 {
		return math.Max(p.Floor, sum)
	}
	n := math.Floor(sum/p.RoundTo + 0.5 + roundSlack)
	return math.Max(p.Floor, label.Nearest(n*p.RoundTo, p.RoundTo))
}

// Cost prices the low, middle and high end of a weighted sum.
func (p Plan) Cost(sum Amount) Amount {
	return Amount{spread.Range{Low: p.Price(sum.Low), Mid: p.Price(sum.Mid), High: p.Price(sum.High)}, sum.Unknown}
}

// Budget is the allowance for one plate: a day's allowance times mealShare, a
// meal's or a serving's as it is.
func (p Plan) Budget(mealShare float64) float64 {
	if p.Per == PerDay {
		return p.Allowance * mealShare
	}
	return p.Allowance
}

// Ceiling is the threshold form of the cost: Price(sum) is within Budget exactly
// where sum < bound (strict) or sum <= bound (not strict). The bound is -Inf
// where not even an empty plate is within it.
func (p Plan) Ceiling(mealShare float64) (bound float64, strict bool) {
	budget := p.Budget(mealShare)
	slack := Tolerance * math.Max(1, math.Abs(budget))
	if p.Floor > budget+slack {
		return math.Inf(-1), true
	}
	if p.RoundTo <= 0 {
		return budget + slack, false
	}
	steps := math.Floor((budget + slack) / p.RoundTo)
	return (steps + 0.5 - roundSlack) * p.RoundTo, true
}

// Affords reports whether an empty plate at least is within the plan.
func (p Plan) Affords(mealShare float64) bool {
	bound, _ := p.Ceiling(mealShare)
	return !math.IsInf(bound, -1)
}

// Judge holds a weighted sum against the plan: the middle decides what fits.
func (p Plan) Judge(sum Amount, mealShare float64) Fit {
	cost := p.Cost(sum)
	fit := judge(AtMost, cost, p.Budget(mealShare))
	if cost.Unknown > 0 && (fit != Over || p.credits()) {
		return Unknown
	}
	return fit
}

// credits reports whether some nutrient lowers the cost: then an unknown part
// may lower it too.
func (p Plan) credits() bool {
	for _, w := range p.Weights {
		if w < 0 {
			return true
		}
	}
	return false
}

// Fits reports whether a plate with this weighted sum is within the plan.
func (p Plan) Fits(sum Amount, mealShare float64) bool {
	return fits(p.Judge(sum, mealShare), false)
}

// Finding holds a weighted sum against the plan and says so in a sentence.
func (p Plan) Finding(sum Amount, mealShare float64) Finding {
	cost, budget, fit := p.Cost(sum), p.Budget(mealShare), p.Judge(sum, mealShare)
	return Finding{Kind: "plan", Amount: cost.Range, Bound: budget, Fit: fit,
		Text: fmt.Sprintf("Allowance plan: %s of %s: %s.", p.rangeText(cost.Range), p.budgetText(budget, mealShare), p.outcome(cost, budget, fit))}
}

func (p Plan) budgetText(budget, mealShare float64) string {
	text := label.Figure(budget)
	if p.Per == PerDay {
		return fmt.Sprintf("%s a meal (%s of %s a day)", text, ShareText(mealShare), label.Figure(p.Allowance))
	}
	return fmt.Sprintf("%s a %s", text, p.Per)
}

func (p Plan) outcome(cost Amount, budget float64, fit Fit) string {
	switch fit {
	case Inside:
		return "inside"
	case Close:
		return "inside at the middle, but it may cost " + p.figure(cost.High-budget) + " more"
	case Unknown:
		return unknownText(cost.Unknown)
	default:
		return "over by " + p.figure(cost.Mid-budget)
	}
}

// shownStep is what costs of a plan without rounding of its own are shown to.
const shownStep = 0.1

// Units writes an amount in units of the plan, rounded for showing only where
// the plan does not round itself.
func (p Plan) Units(x float64) string {
	return p.figure(x) + " " + plural(p.Unit, label.Nearest(x, shownStep))
}

func (p Plan) figure(x float64) string {
	if p.RoundTo <= 0 {
		x = label.Nearest(x, shownStep)
	}
	return label.Figure(x)
}

// rangeText such as "4.5 choices (4–5)".
func (p Plan) rangeText(r spread.Range) string {
	text := p.Units(r.Mid)
	if p.figure(r.Low) == p.figure(r.High) {
		return text
	}
	return fmt.Sprintf("%s (%s–%s)", text, p.figure(r.Low), p.figure(r.High))
}
