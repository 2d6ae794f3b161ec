package adaptation

import (
	"fmt"
	"math"
	"slices"

	"potwright/internal/choice"
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/label"
	"potwright/internal/nutrient"
)

// ask is one bound of one member's plate: a weighted sum of nutrients over the
// lines, divided by servings and times the portion, against bound.
type ask struct {
	member  int
	name    string // a sentence for people: "A: sodium at most 600 mg a meal"
	weights [composition.NutrientCount]float64
	bound   float64          // for one plate, in the unit of the weighted sum
	before  household.Amount // what the member had that counts against it
	atLeast bool
	strict  bool            // the far end of the range must hold, not just the middle
	plan    *household.Plan // of an allowance plan's bound; limit is then empty
	limit   household.Limit
}

// left is what the bound leaves for the plate, at the middle of what was had
// before.
func (a ask) left() float64 { return a.bound - a.before.Mid }

// asksOf is every bound of every member on a plate of this meal.
func asksOf(h household.Household) []ask {
	var asks []ask
	for i, mem := range h.Members {
		for _, b := range mem.Bounds(h.PlateShare()) {
			a := ask{member: i, name: boundName(mem, b), bound: b.Value, before: b.Before, atLeast: b.Side == household.AtLeast, strict: b.Limit.Strict(), limit: b.Limit}
			a.weights[b.Nutrient()] = 1
			asks = append(asks, a)
		}
		if before, share := mem.Spent(h.PlateShare()); mem.Plan != nil && mem.Plan.Affords(share) {
			a := planAsk(i, mem, share)
			a.before = before
			asks = append(asks, a)
		}
	}
	return asks
}

// outOfReach are the members whose plan not even an empty plate is within, or of
// whom not all is known that they had: nothing in the dish can change that, so it
// blocks and is no bound.
func outOfReach(h household.Household, asks []ask) []string {
	var out []string
	for _, mem := range h.Members {
		if _, share := mem.Spent(h.PlateShare()); mem.Plan != nil && !mem.Plan.Affords(share) {
			out = append(out, fmt.Sprintf("%s: a plate costs at least %s, more than the %s of the allowance plan.", mem.Name, mem.Plan.Units(mem.Plan.Floor), mem.Plan.Units(mem.Plan.Budget(share))))
		}
	}
	for _, a := range asks {
		if a.before.Unknown > 0 {
			out = append(out, fmt.Sprintf("%s: not all of what was had before is known, so what is left can't be told.", a.name))
		}
	}
	return out
}

// planAsk is an allowance plan as a bound on the weighted sum: the price is
// within the allowance exactly where the sum is below the ceiling.
func planAsk(i int, mem household.Member, mealShare float64) ask {
	bound, strict := mem.Plan.Ceiling(mealShare)
	if strict {
		bound -= strictly * math.Max(1, math.Abs(bound))
	}
	a := ask{member: i, name: fmt.Sprintf("%s: at most %s on the plate", mem.Name, mem.Plan.Units(mem.Plan.Budget(mealShare))), bound: bound, plan: mem.Plan}
	for n, w := range mem.Plan.Weights {
		a.weights[n] = w
	}
	return a
}

// strictly turns "less than" into "at most": far below what any amount is known
// to, far above the rounding of a sum.
const strictly = 1e-7

func boundName(mem household.Member, b household.Bound) string {
	if b.Before != (household.Amount{}) {
		return fmt.Sprintf("%s: %s %s %s with what was had before", mem.Name, b.Nutrient().Name(), b.Side, label.Text(b.Nutrient(), b.Value))
	}
	return fmt.Sprintf("%s: %s %s %s on the plate", mem.Name, b.Nutrient().Name(), b.Side, label.Text(b.Nutrient(), b.Value))
}

// weigh is the weighted sum that a thing that may be done brings to one whole serving,
// and whether part of it is unknown.
func (a *ask) weigh(s *sight, servings float64) (mid float64, unknown bool) {
	if a.plan == nil {
		for n, w := range a.weights {
			if w != 0 {
				mid, unknown = mid+w*s.serving[n].Mid, unknown || s.serving[n].Unknown > 0
			}
		}
		return mid, unknown
	}
	for i := range s.panels {
		lp := a.counted(&s.panels[i])
		if lp == nil {
			continue
		}
		for n, w := range a.weights {
			if w == 0 {
				continue
			}
			mid += w * lp.Panel[n].Mid / servings
			unknown = unknown || lp.Panel[n].Unknown > 0
		}
	}
	return mid, unknown
}

// counted is what of a line counts, nil for nothing.
func (a *ask) counted(lp *nutrient.LinePanel) *nutrient.LinePanel {
	switch {
	case a.plan == nil:
		return lp
	case allFree(lp, *a.plan):
		return nil
	}
	return Counted(lp, *a.plan)
}

// Counted is the line without the foods that cost nothing under the plan.
func Counted(lp *nutrient.LinePanel, plan household.Plan) *nutrient.LinePanel {
	if !hasFree(lp, plan) {
		return lp
	}
	var items []foodmatch.Item
	var cooked []nutrient.Cooked
	for i, item := range lp.Matched.Items {
		if plan.IsFree(item.Food) {
			continue
		}
		items = append(items, item)
		if i < len(lp.Cooked) {
			cooked = append(cooked, lp.Cooked[i])
		}
	}
	if len(items) == 0 {
		return &nutrient.LinePanel{Matched: lp.Matched}
	}
	kept := *lp.Matched
	kept.Items = items
	counted := nutrient.Line(lp.ID, &kept, lp.Servings, cooked...)
	return &counted
}

// hasFree reports whether the line holds a food that costs nothing under the plan.
func hasFree(lp *nutrient.LinePanel, plan household.Plan) bool {
	free := func(i foodmatch.Item) bool { return plan.IsFree(i.Food) }
	return lp.Matched.State != foodmatch.Unread && slices.ContainsFunc(lp.Matched.Items, free)
}

// allFree reports whether the line holds nothing else: then a plan counts nothing of it.
func allFree(lp *nutrient.LinePanel, plan household.Plan) bool {
	costs := func(i foodmatch.Item) bool { return !plan.IsFree(i.Food) }
	return hasFree(lp, plan) && !slices.ContainsFunc(lp.Matched.Items, costs)
}

// half is the weighted half-width of a doubt on the side that matters.
func (a *ask) half(d *nutrient.Doubt, servings float64) float64 {
	var h float64
	for n, w := range a.weights {
		switch {
		case w == 0:
		case a.atLeast:
			h += math.Abs(w) * d.Down[n] / servings
		default:
			h += math.Abs(w) * d.Up[n] / servings
		}
	}
	return h
}

// addAskRows turns every ask into a row: Σ lines − bound/portion <= 0, or with
// its signs turned for at least.
func (m *model) addAskRows() {
	for _, a := range m.asks {
		m.problem.Rows = append(m.problem.Rows, m.askRow(a))
	}
}

// loads are the doubts of panels as far as an ask counts them.
func (m *model) loads(a *ask, panels []nutrient.LinePanel) (out []choice.Load) {
	for i := range panels {
		lp := a.counted(&panels[i])
		if lp == nil {
			continue
		}
		for k := range lp.Doubts {
			d := &lp.Doubts[k]
			if h := a.half(d, m.in.Pot.Servings); h > 0 {
				out = append(out, choice.Load{Factor: m.factor(d.Factor), Half: h})
			}
		}
	}
	return out
}

func (m *model) askRow(a ask) choice.Row {
	row := m.newRow(a.name, 0)
	sign := 1.0
	if a.atLeast {
		sign = -1
	}
	if a.strict {
		row.Loads = make([][][]choice.Load, len(row.Mid))
	}
	for g, cells := range m.cells {
		if a.strict {
			row.Loads[g] = make([][]choice.Load, len(cells))
		}
		for k, c := range cells {
			mid, _ := a.weigh(c.sight, m.in.Pot.Servings)
			row.Mid[g][k] = sign * mid
			if a.strict {
				row.Loads[g][k] = m.loads(&a, c.panels)
			}
		}
	}
	g := len(m.cells) + a.member
	for k, p := range m.portions[a.member] {
		row.Mid[g][k] = -sign * a.left() / p
	}
	if !a.strict {
		return row
	}
	for g := len(m.cells); g < len(row.Mid); g++ {
		row.Loads[g] = make([][]choice.Load, len(row.Mid[g]))
	}
	half := a.before.Up()
	if a.atLeast {
		half = a.before.Down()
	}
	if half > 0 {
		for k, p := range m.portions[a.member] {
			row.Loads[g][k] = []choice.Load{{Factor: m.factor(nutrient.Factor{Of: nutrient.OfOther, ID: a.name}), Half: half / p}}
		}
	}
	return row
}
