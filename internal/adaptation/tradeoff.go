package adaptation

import (
	"fmt"
	"math"
	"sort"

	"potwright/internal/choice"
	"potwright/internal/composition"
	"potwright/internal/label"
)

// Figure is what change is weighed against: a nutrient on one member's plate, or
// what the plate costs in the member's allowance plan.
type Figure struct {
	Member   int // place in Household.Members
	Nutrient composition.Nutrient
	Plan     bool // the plan's cost; Nutrient is then not looked at
	More     bool // more is what is wanted, such as fibre
}

// Point is a choice that suits everyone and that no other choice beats both in
// change and in the figure.
type Point struct {
	// Change to the dish and to portions, as Answer.Cost has it.
	Change int64
	// Amount is the figure on the member's plate, at the middle of its range and
	// cooked as the original: in the nutrient's unit, or in units of the plan.
	Amount   float64
	Changes  []Change
	Portions []float64 // by member
}

// mostPoints bounds a curve: more are not told apart on a page. A design choice.
const mostPoints = 24

// figureSteps is how many whole steps the figure is counted in for each step of a
// label: fine enough that rounding can't be seen.
const figureSteps = 1000

// Tradeoff is the curve of change against a figure, from the least change on: with
// every point the figure is better. all is false where the budget ran out before
// the end of the curve; the points given are exact all the same. Nothing where
// nothing suits everyone. The error is for a figure that can't be drawn.
func Tradeoff(in Input, of Figure) (points []Point, all bool, err error) {
	if err := of.check(in); err != nil {
		return nil, false, err
	}
	in.Wishes.Aim = LeastChange // the curve starts at it
	options, _ := optionsOf(in)
	m, sol, err := firstModel(in, options)
	if err != nil || sol.Chosen == nil {
		return nil, sol.Status == choice.Infeasible, err
	}
	all = true
	var work choice.Budget
	var found []Point
	for k := range m.portions[of.Member] {
		ps, whole, err := m.curve(of, k, &work)
		if err != nil {
			return nil, false, err
		}
		found, all = append(found, ps...), all && whole
	}
	return front(found, of.More), all, nil
}

func (of Figure) check(in Input) error {
	if of.Member < 0 || of.Member >= len(in.Household.Members) {
		return fmt.Errorf("there is no member %d, expected one of %d", of.Member, len(in.Household.Members))
	}
	if mem := in.Household.Members[of.Member]; of.Plan && mem.Plan == nil {
		return fmt.Errorf("%s has no allowance plan, expected one to draw its cost", mem.Name)
	}
	return nil
}

// ask is the figure as a weighted sum, and the step that it is shown to.
func (of Figure) ask(m *model) (a ask, step float64) {
	a = ask{member: of.Member, atLeast: of.More}
	mem := m.in.Household.Members[of.Member]
	if !of.Plan {
		a.weights[of.Nutrient] = 1
		return a, label.Step(of.Nutrient, 0)
	}
	a.plan = mem.Plan
	for n, w := range mem.Plan.Weights {
		a.weights[n] = w
	}
	return a, max(mem.Plan.RoundTo, 0.1)
}

// curve is the points with one portion of the figure's member: change first, then
// the figure, each next point bound to a better figure than the last. What it takes
// is added to work.
func (m *model) curve(of Figure, portion int, work *choice.Budget) (points []Point, all bool, err error) {
	a, step := of.ask(m)
	share := m.portions[of.Member][portion]
	p, figure, err := m.figured(a, share, step, portion)
	if err != nil {
		return nil, false, err
	}
	for len(points) < mostPoints {
		if m.in.Budget > 0 && *work >= m.in.Budget {
			return points, false, nil
		}
		sol, err := choice.Solve(p, followUp)
		*work += sol.Work
		if err != nil || sol.Status == choice.Stopped {
			return points, false, err
		}
		if sol.Status == choice.Infeasible {
			return points, true, nil
		}
		points = append(points, m.point(a, sol, share))
		figure.Bound = figure.Value(sol.Chosen) - 1
		p.Rows[len(p.Rows)-1] = figure
	}
	return points, false, nil
}

// figured is the problem with the figure as its second cost level, counted in
// whole steps, one portion of the member, and the figure as its last row.
func (m *model) figured(a ask, share, step float64, portion int) (choice.Problem, choice.Row, error) {
	p := m.problem
	p.Groups = make([]choice.Group, len(m.problem.Groups))
	figure := m.newRow("the figure", 0)
	for g, group := range m.problem.Groups {
		for k, o := range group.Options {
			var x int64
			if g < len(m.cells) {
				mid, unknown := a.weigh(m.cells[g][k].sight, m.in.Pot.Servings)
				if unknown {
					return p, figure, fmt.Errorf("not all of it is known that %q may bring, so no curve can be drawn", m.groupName(g))
				}
				x = int64(math.Round(mid * share / step * figureSteps))
			}
			if a.atLeast {
				x = -x
			}
			figure.Mid[g][k] = float64(x)
			p.Groups[g].Options = append(p.Groups[g].Options, choice.Option{Cost: []int64{o.Cost[levelChange], x, o.Cost[levelEffort], o.Cost[levelCount]}})
			figure.Bound += math.Abs(float64(x))
		}
	}
	only := m.newRow("the portion", 0)
	for k := range only.Mid[len(m.cells)+a.member] {
		if k != portion {
			only.Mid[len(m.cells)+a.member][k] = 1
		}
	}
	p.Rows = append(append([]choice.Row(nil), m.problem.Rows...), only, figure)
	return p, figure, nil
}

func (m *model) point(a ask, sol choice.Solution, share float64) Point {
	pt := Point{Change: sol.Cost[levelChange], Portions: m.chosenPortions(sol.Chosen), Changes: m.changes(sol.Chosen)}
	for g, cells := range m.cells {
		mid, _ := a.weigh(cells[sol.Chosen[g]].sight, m.in.Pot.Servings)
		pt.Amount += mid * share
	}
	if a.plan != nil {
		pt.Amount = a.plan.Price(pt.Amount)
	}
	return pt
}

// front leaves the points that no other beats, least change first.
func front(points []Point, more bool) []Point {
	better := func(a, b float64) bool { return more && a > b || !more && a < b }
	sort.SliceStable(points, func(i, j int) bool {
		if points[i].Change != points[j].Change {
			return points[i].Change < points[j].Change
		}
		return better(points[i].Amount, points[j].Amount)
	})
	var out []Point
	for _, p := range points {
		if len(out) == 0 || better(p.Amount, out[len(out)-1].Amount) {
			out = append(out, p)
		}
	}
	return out
}

// Asked are the wishes that make an answer of a point: its swaps and additions, no
// others, and every other of so many lines as it is.
func (p Point) Asked(lines int) Wishes {
	w := Wishes{AddNoMore: true}
	changed := map[int]bool{}
	for _, c := range p.Changes {
		changed[c.Line] = true
		w.Insist = append(w.Insist, Pick{Line: c.Line, Rule: c.Option.Rule.ID, Share: c.Option.Share})
	}
	for i := range lines {
		if !changed[i] {
			w.Lock = append(w.Lock, i)
		}
	}
	return w
}
