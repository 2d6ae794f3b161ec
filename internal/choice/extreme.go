package choice

import (
	"fmt"
	"math"
	"slices"
)

// Extreme is the least value the left side of a row can take with no row holding,
// only the apart sets; neither does the row's own bound count. It is exact
// within Tolerance, relative to the larger of 1 and the size of the row's bound.
// The solution is a choice that takes that value, whatever its cost; its Bound
// says nothing. Where the status is Infeasible the apart sets cannot hold
// together and least is +Inf; where it is Stopped least is the best found, +Inf
// if none. The error is for a malformed problem or a row that is not there.
func Extreme(p Problem, row int, budget Budget) (least float64, sol Solution, err error) {
	if err := check(p); err != nil {
		return math.Inf(1), Solution{}, err
	}
	if row < 0 || row >= len(p.Rows) {
		return math.Inf(1), Solution{}, fmt.Errorf("row %d: there are %d rows", row, len(p.Rows))
	}
	target := p.Rows[row]
	p.Rows = nil
	s := newSearch(p, &meter{budget: budget})
	s.goal = s.rowGoal(target)
	s.dropDominated()
	done := s.minimise(s.goal, math.Inf(1))
	switch {
	case s.best == nil && done:
		return math.Inf(1), s.solution(Infeasible, nil, 0), nil
	case s.best == nil:
		return math.Inf(1), s.solution(Stopped, nil, 0), nil
	case !done:
		return target.Value(s.best), s.solution(Stopped, slices.Clone(s.best), 0), nil
	}
	return target.Value(s.best), s.solution(Optimal, slices.Clone(s.best), 0), nil
}

// rowGoal makes the left side of a row least. Its costs are the tangent at the
// choice with the least of every group, which is never above the row's value;
// the row itself, as a line under the limit, closes the gap.
func (s *search) rowGoal(row Row) goal {
	l := s.m.rowLine(row)
	cost := slices.Clone(l.a)
	if l.cone != nil {
		cost = s.leastTangent(l)
	}
	var shift float64
	for g := range s.m.p.Groups {
		of := cost[s.m.off[g]:s.m.off[g+1]]
		least := slices.Min(of)
		shift += least
		for o := range of {
			of[o] -= least
		}
	}
	step := max(Tolerance*max(1, math.Abs(row.Bound))*l.unit, 4*l.slip)
	g := goal{cost: cost, most: s.m.most(l) - shift + step, unit: step, shift: shift, value: func(chosen []int) float64 {
		return row.Value(chosen)*l.unit - l.base - shift
	}}
	s.aim = l
	if l.cone != nil {
		g.line = l
	}
	return g
}

func (s *search) leastTangent(l *line) []float64 {
	n := s.at(0)
	clear(n.x)
	s.support = s.support[:0]
	for g := range s.m.p.Groups {
		best := s.m.off[g]
		for c := best; c < s.m.off[g+1]; c++ {
			if l.a[c]+l.cone.own[c] < l.a[best]+l.cone.own[best] {
				best = c
			}
		}
		n.x[best] = 1
		s.support = append(s.support, int32(best))
	}
	return s.tangent(n, l).a
}
