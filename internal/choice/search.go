package choice

import (
	"math"
	"slices"
)

// goal is what a search makes least.
type goal struct {
	cost  []float64 // by column, the least of each group 0; never above the true value
	most  float64   // no choice is worth more
	unit  float64   // a better choice is better by at least this much
	whole bool      // costs are whole numbers
	line  *line     // where set, its bound follows the limit, shift above it
	shift float64
	// value is the true value of a choice, in the units of cost.
	value func(chosen []int) float64
	any   bool // the first choice found will do
	first bool // of choices within the limit the first by option numbers is wanted
}

// search is a branch and bound over one model.
type search struct {
	*meter
	m     *model
	base  *node
	stack []*node

	goal  goal
	aim   *line   // the line that is made least, where it is not a cost
	limit float64 // only choices of at most this value are looked for
	best  []int
	value float64
	equal int     // how often a choice of equal cost was found
	lower float64 // proved: no choice from the base is worth less

	spans         []span
	partSpans     [][]span
	lambda, price []float64
	floor, room   []float64
	hits          []hit
	support       []int32
	parts         []float64
	chosen        []int

	log *proofLog // nil where no proof is written
}

func newSearch(p Problem, t *meter) *search {
	m := newModel(p)
	s := &search{meter: t, m: m, base: newNode(m)}
	groups := len(p.Groups)
	s.floor = make([]float64, groups)
	s.price = make([]float64, m.n)
	s.chosen = make([]int, groups)
	return s
}

// minimise looks for the best choice worth at most atMost. It returns true where
// the search was finished: best is then the best choice, or nil where none is
// that good. A limit well below atMost is tried first and doubled until
// something turns up, since a search without a good limit wastes most of its
// nodes.
func (s *search) minimise(g goal, atMost float64) bool {
	s.goal, s.best, s.value, s.lower = g, nil, math.Inf(1), 0
	root := s.at(0)
	root.copyOptions(s.base)
	root.forget()
	s.setLimit(min(atMost, g.most))
	if s.spent() {
		return false
	}
	root.tab.start(s.m, root, g.cost)
	if !s.propagate(root) || !s.relax(root, rootRounds) {
		return s.finish()
	}
	step := math.Inf(1)
	if !g.any {
		step = s.firstStep()
	}
	for {
		keep := s.limit
		limit := min(keep, s.lower+step)
		s.setLimit(limit)
		s.descend(root)
		if s.out {
			return s.best != nil && g.any
		}
		if s.value <= limit || limit >= keep {
			return s.finish()
		}
		if g.whole {
			s.raise(math.Floor(limit) + 1)
		} else {
			s.raise(limit)
		}
		s.setLimit(keep)
		step *= 2
	}
}

// finish notes that nothing better than the best is left.
func (s *search) finish() bool {
	s.raise(min(s.value, max(s.limit, s.lower)+s.goal.unit))
	if s.best != nil {
		s.lower = s.value
	}
	return true
}

// raise notes a proved lower bound.
func (s *search) raise(lower float64) {
	if s.goal.whole {
		lower = math.Ceil(lower)
	}
	s.lower = max(s.lower, lower)
}

// rootRounds and nodeRounds are how often cuts are added before branching.
const (
	rootRounds = 30
	nodeRounds = 1
)

// descend searches below a copy of the root under the limit in force.
func (s *search) descend(root *node) {
	n := s.at(1)
	n.copyOptions(root)
	if s.goal.line != nil {
		n.tab.start(s.m, n, s.goal.cost)
	} else {
		n.tab.copyFrom(&root.tab)
	}
	s.explore(1)
}

// firstStep is a fifth of the largest cost of an option.
func (s *search) firstStep() float64 {
	var top float64
	for g := range s.m.p.Groups {
		for _, c := range s.base.options(s.m, g) {
			top = max(top, s.goal.cost[c])
		}
	}
	return max(s.goal.unit, top/5)
}

func (s *search) at(depth int) *node {
	for len(s.stack) <= depth {
		s.stack = append(s.stack, newNode(s.m))
	}
	return s.stack[depth]
}

func (s *search) setLimit(limit float64) {
	s.limit = limit
	if l := s.goal.line; l != nil {
		l.b = limit + s.goal.shift + l.slip
	}
}

// explore searches below the node at a depth: it keeps to some options of one
// group, searches there, bans them, and goes on with what is left.
func (s *search) explore(depth int) {
	n := s.stack[depth]
	for !s.spent() {
		if s.goal.first && !s.ahead(n) || !s.propagate(n) || !s.relax(n, s.log.rounds()) || s.enough() {
			return
		}
		c := s.branch(n)
		if c < 0 {
			s.leaf(n)
			return
		}
		rest := s.farther(n, c)
		child := s.at(depth + 1)
		child.copyOptions(n)
		for _, o := range n.options(s.m, int(s.m.grp[c]))[:rest] {
			child.ban(s.m, o)
		}
		child.tab.copyFrom(&n.tab)
		child.tab.purge(0)
		out := s.log.part(s.m, child, c)
		s.explore(depth + 1)
		if s.out || s.enough() {
			return
		}
		s.log.follow(out)
		n.keepFirst(s.m, int(s.m.grp[c]), rest)
	}
}

// enough tells whether what was found so far will do.
func (s *search) enough() bool {
	return s.goal.any && s.best != nil || s.goal.first && s.equal >= mostEqual
}

// leaf tries the one choice that is left.
func (s *search) leaf(n *node) {
	if s.log != nil {
		s.closeLeaf(n)
		return
	}
	for g := range s.chosen {
		s.chosen[g] = int(n.options(s.m, g)[0]) - s.m.off[g]
	}
	s.try()
}

// try takes s.chosen as the best if it is better and keeps every row.
func (s *search) try() bool {
	value := s.goal.value(s.chosen)
	if value > s.limit || !s.fits() {
		return false
	}
	if s.goal.first {
		if slices.Compare(s.chosen, s.best) < 0 {
			s.best = append(s.best[:0], s.chosen...)
			s.equal++
		}
		return true
	}
	s.best, s.value = slices.Clone(s.chosen), value
	s.setLimit(value - s.goal.unit)
	return true
}

// fits tests a choice against the problem and the costs fixed so far.
func (s *search) fits() bool {
	for _, l := range s.m.lines {
		if l.row >= 0 || l.cone != nil {
			continue
		}
		var sum float64
		for g, o := range s.chosen {
			sum += l.a[s.m.off[g]+o]
		}
		if sum > l.b {
			return false
		}
	}
	return s.m.p.Holds(s.chosen)
}
