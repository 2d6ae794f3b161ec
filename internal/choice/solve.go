package choice

import (
	"math"
	"slices"
)

// Solve picks one option of every group so that every row and apart set holds,
// at the least cost, levels compared in order; among choices of equal cost it
// takes the one whose option numbers, read group by group, come first. The
// error is for a malformed problem: it says what is wrong and where.
func Solve(p Problem, budget Budget) (Solution, error) {
	if err := check(p); err != nil {
		return Solution{}, err
	}
	return newSearch(p, &meter{budget: budget}).lexicographic(), nil
}

// lexicographic minimises level after level, each kept as a line for the next,
// then the option numbers.
func (s *search) lexicographic() Solution {
	s.dropDominated()
	levels := max(s.m.p.levels(), 1)
	var chosen []int
	var bound int64
	for l := range levels {
		cost, base := s.levelCost(l)
		g := s.costGoal(cost)
		g.from, g.ties = chosen, l == levels-1
		done := s.minimise(g, math.Inf(1))
		if l == 0 {
			bound = s.levelBound(base)
		}
		if s.best == nil && done {
			return s.solution(Infeasible, nil, math.MaxInt64)
		}
		chosen = s.best
		if !done {
			return s.solution(Stopped, chosen, bound)
		}
		if g.ties && s.equal < mostEqual {
			break
		}
		s.settle(g, g.value(chosen))
		s.keepLine(g, g.value(chosen))
	}
	if s.equal >= mostEqual && !s.lowerEach(chosen) {
		return s.solution(Stopped, chosen, bound)
	}
	return s.solution(Optimal, chosen, bound)
}

func (s *search) solution(status Status, chosen []int, bound int64) Solution {
	sol := Solution{Status: status, Chosen: chosen, Bound: bound, Nodes: s.nodes, Work: s.work}
	if chosen != nil {
		sol.Cost = s.m.p.CostOf(chosen)
	}
	return sol
}

// levelBound is the proved lower bound in the problem's own costs.
func (s *search) levelBound(base int64) int64 {
	if math.IsInf(s.lower, 1) {
		return math.MaxInt64
	}
	return base + int64(s.lower)
}

// levelCost is the cost of a level by column, the least of each group shifted
// to 0, and what the shift adds up to; without such a level nothing costs anything.
func (s *search) levelCost(level int) ([]float64, int64) {
	cost := make([]float64, s.m.n)
	var base int64
	if level >= s.m.p.levels() {
		return cost, 0
	}
	for g, group := range s.m.p.Groups {
		least := int64(math.MaxInt64)
		for _, o := range group.Options {
			least = min(least, o.Cost[level])
		}
		base += least
		for o, option := range group.Options {
			cost[s.m.off[g]+o] = float64(option.Cost[level] - least)
		}
	}
	return cost, base
}

func (s *search) costGoal(cost []float64) goal {
	var most float64
	for g := range s.m.p.Groups {
		most += slices.Max(cost[s.m.off[g]:s.m.off[g+1]])
	}
	return goal{cost: cost, most: most, unit: 1, whole: true, value: func(chosen []int) float64 {
		var sum float64
		for g, o := range chosen {
			sum += cost[s.m.off[g]+o]
		}
		return sum
	}}
}

// anyGoal asks for any choice that keeps the rows; its costs lead the search
// away from options that use up the lines.
func (s *search) anyGoal() goal {
	cost := make([]float64, s.m.n)
	for _, l := range s.m.lines {
		scale := 1 / max(l.b, 1e-3)
		for c, a := range l.a {
			if l.cone != nil {
				a += l.cone.own[c]
			}
			cost[c] += a * scale
		}
	}
	return goal{cost: cost, most: math.Inf(1), unit: 1, any: true, value: func([]int) float64 { return 0 }}
}

// settle bans the options that would raise a cost above its least value.
func (s *search) settle(g goal, value float64) {
	g.value = func([]int) float64 { return math.Inf(1) } // only bounds are wanted
	s.goal, s.best = g, nil
	s.setLimit(value)
	if root := s.at(0); s.open(root) {
		s.base.copyOptions(root)
	}
}

// keepLine keeps a cost at its least value from here on.
func (s *search) keepLine(g goal, value float64) {
	if slices.Max(g.cost) > 0 {
		s.m.lines = append(s.m.lines, s.m.costLine(g.cost, value))
		s.m.lay()
	}
}
