package choice

import (
	"math"
	"slices"
)

// Conflict finds rows that cannot hold together, given the apart sets, though
// they can when any one of them is left out. The status tells how far that is
// proved:
//   - Infeasible: the rows conflict and none of them can be spared; no rows mean
//     that the apart sets alone leave nothing to choose;
//   - Optimal: there is no conflict, all rows can hold together;
//   - Stopped: the budget ran out. Rows, where there are any, are proved to
//     conflict, but some may be spare; with none nothing is proved.
//
// Rows are tried for leaving out from the last to the first, so of several
// conflicts one with early rows is found. The error is for a malformed problem.
func Conflict(p Problem, budget Budget) ([]int, Status, error) {
	if err := check(p); err != nil {
		return nil, Stopped, err
	}
	t := &meter{budget: budget}
	rows := make([]int, len(p.Rows))
	for r := range rows {
		rows[r] = r
	}
	switch fits, known := t.canHold(p, rows); {
	case !known:
		return nil, Stopped, nil
	case fits:
		return nil, Optimal, nil
	}
	if few := newSearch(p, t).blockedRows(); few != nil {
		rows = few
	}
	for i := len(rows) - 1; i >= 0; i-- {
		less := slices.Delete(slices.Clone(rows), i, i+1)
		fits, known := t.canHold(p, less)
		if !known {
			return rows, Stopped, nil
		}
		if !fits {
			rows = less
		}
	}
	return rows, Infeasible, nil
}

// canHold tells whether some choice keeps the given rows and the apart sets;
// known is false where the budget ran out first.
func (t *meter) canHold(p Problem, rows []int) (fits, known bool) {
	q := Problem{Groups: p.Groups, Apart: p.Apart}
	for _, r := range rows {
		q.Rows = append(q.Rows, p.Rows[r])
	}
	s := newSearch(q, t)
	s.dropDominated()
	known = s.minimise(s.anyGoal(), math.Inf(1))
	return s.best != nil, known
}

// blockedRows are rows that the relaxation alone proves to conflict, those with
// a multiplier in the proof; nil where it proves nothing.
func (s *search) blockedRows() []int {
	n := s.at(0)
	s.goal = s.anyGoal()
	s.setLimit(math.Inf(1))
	n.tab.start(s.m, n, s.goal.cost)
	for range rootRounds {
		state, i, sign := n.tab.solve(n.alive, math.Inf(1))
		if state == blocked {
			s.lambda = n.tab.ray(i, sign, s.lambda)
			if s.impossible(n) {
				return s.blamed(n)
			}
			return nil
		}
		if n.tab.point(n); state != solved || !s.separate(n) {
			return nil
		}
	}
	return nil
}

func (s *search) blamed(n *node) []int {
	rows := []int{}
	for k, f := range s.lambda {
		if f > 0 && n.tab.cuts[k].of.row >= 0 {
			rows = append(rows, n.tab.cuts[k].of.row)
		}
	}
	slices.Sort(rows)
	return slices.Compact(rows)
}
