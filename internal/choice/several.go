package choice

import (
	"fmt"
	"slices"
)

// KBest finds up to k solutions, each the best, by Solve's order, of the choices
// that differ in at least distance of the groups counted (nil counts all) from
// every one before it; distance is at least 1. The status is Optimal where all k were found, Infeasible where
// fewer exist and those were found, Stopped where the budget ran out; the
// solutions given are proved best even then. The budget is for all together. The
// error is for a malformed problem or a distance below 1.
func KBest(p Problem, k int, counted []int, distance int, budget Budget) ([]Solution, Status, error) {
	if err := check(p); err != nil {
		return nil, Stopped, err
	}
	if distance < 1 {
		return nil, Stopped, fmt.Errorf("distance is %d, expected at least 1", distance)
	}
	t := &meter{budget: budget}
	p.Rows = slices.Clone(p.Rows)
	var found []Solution
	for len(found) < k {
		nodes, work := t.nodes, t.work
		sol := newSearch(p, t).lexicographic()
		sol.Nodes, sol.Work = sol.Nodes-nodes, sol.Work-work
		if sol.Status != Optimal {
			return found, sol.Status, nil
		}
		found = append(found, sol)
		p.Rows = append(p.Rows, p.away(sol.Chosen, counted, distance))
	}
	return found, Optimal, nil
}

// away is a row that holds for choices differing from chosen in at least
// distance of the groups counted.
func (p Problem) away(chosen, counted []int, distance int) Row {
	row := Row{Name: "differs from an earlier choice", Bound: float64(-distance)}
	for g, group := range p.Groups {
		same := make([]float64, len(group.Options))
		if counted == nil || slices.Contains(counted, g) {
			same[chosen[g]] = 1
			row.Bound++
		}
		row.Mid = append(row.Mid, same)
	}
	return row
}
