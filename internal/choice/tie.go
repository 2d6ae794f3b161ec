package choice

import "slices"

// mostEqual is how many choices of equal cost one search may go through before
// the groups are settled one by one.
const mostEqual = 16

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
	if s.equal >= mostEqual || max(n.lower, s.lower) <= s.value-s.goal.unit {
		return true
	}
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

// earlier parts the first group in which a choice may differ from the best, where
// only choices before the best are left to look for: the best's option comes to the
// front of the group's options, for later. It returns one of the others, or -1 where
// the group to part is better taken by what it does for the bound.
func (s *search) earlier(n *node) int32 {
	if s.best == nil || !s.goal.ties || s.limit != s.value {
		return -1
	}
	for g, o := range s.best {
		live, own := n.options(s.m, g), int32(s.m.off[g]+o)
		switch i := slices.Index(live, own); {
		case i < 0:
			return -1
		case len(live) > 1:
			live[0], live[i] = own, live[0]
			return live[1]
		}
	}
	return -1
}
