package choice

import "slices"

// mostEqual is how many choices of equal cost one search may go through before
// the groups are settled one by one.
const mostEqual = 16

// firstOfEqual lowers chosen to the first, by option numbers, of all choices
// that cost no more at any level; last is the goal of the last level. It reports
// false where the budget ran out, chosen then being the first found.
//
// One search over everything as cheap is best where few choices tie; where many
// do, the groups are settled in order, each to the lowest option that leaves a
// choice.
func (s *search) firstOfEqual(chosen []int, last goal) bool {
	if len(chosen) == 0 {
		return true
	}
	last.first = true
	value := last.value(chosen)
	s.goal, s.best, s.equal = last, slices.Clone(chosen), 0
	s.setLimit(value)
	root := s.at(1)
	root.copyOptions(s.base)
	root.forget()
	root.tab.start(s.m, root, last.cost)
	s.explore(1)
	copy(chosen, s.best)
	if s.out || s.equal < mostEqual {
		return !s.out
	}
	s.keepLine(last, value)
	return s.lowerEach(chosen)
}

// lowerEach settles the groups in order; the cost of every level is kept as a
// line.
func (s *search) lowerEach(chosen []int) bool {
	for g := range chosen {
		lower := false
		for _, c := range s.base.options(s.m, g) {
			lower = lower || int(c)-s.m.off[g] < chosen[g]
		}
		if lower {
			cost := make([]float64, s.m.n)
			for c := s.m.off[g]; c < s.m.off[g+1]; c++ {
				cost[c] = float64(c - s.m.off[g])
			}
			if !s.minimise(s.costGoal(cost), float64(chosen[g]-1)) {
				return false
			}
			if s.best != nil {
				copy(chosen, s.best)
			}
		}
		s.base.fix(s.m, int32(s.m.off[g]+chosen[g]))
		s.base.forget()
		if !s.propagate(s.base) {
			return true
		}
	}
	return true
}

// ahead bans options that would put the choice after the best in the order of
// the option numbers; it reports false where none before the best is left.
func (s *search) ahead(n *node) bool {
	for g, o := range s.best {
		top := int32(s.m.off[g] + o)
		live := n.options(s.m, g)
		for i := len(live) - 1; i >= 0; i-- {
			if live[i] > top {
				n.ban(s.m, live[i])
			}
		}
		switch live = n.options(s.m, g); {
		case len(live) == 0:
			return false
		case len(live) > 1 || live[0] < top:
			return true
		}
	}
	return false
}
