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
	any   bool  // the first choice found will do
	ties  bool  // of choices of equal value the first by option numbers is wanted
	from  []int // a choice that is known
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

	record record // of this goal's branchings

	spans         []span
	partSpans     [][]span
	lambda, price []float64
	floor, room   []float64
	terms         []term
	hits          []hit
	support       []int32
	parts         []float64
	chosen        []int
	proved        float64 // by the last bound: no choice of its node is worth less
	sweep         sweep

	log *proofLog // nil where no proof is written
}

func newSearch(p Problem, t *meter) *search {
	m := newModel(p)
	s := &search{meter: t, m: m, base: newNode(m)}
	groups := len(p.Groups)
	s.floor = make([]float64, groups)
	s.price = make([]float64, m.n)
	s.sweep.after = sweepAfter
	s.chosen = make([]int, groups)
	return s
}

// minimise looks for the best choice worth at most atMost. It returns true where
// the search was finished: best is then the best choice, or nil where none is
// that good.
func (s *search) minimise(g goal, atMost float64) bool {
	s.goal, s.best, s.value, s.lower, s.equal = g, nil, math.Inf(1), 0, 0
	s.record = newRecord(len(s.floor))
	s.setLimit(min(atMost, g.most))
	if g.from != nil {
		s.take(g.from, g.value(g.from))
	}
	if s.spent() {
		return false
	}
	root := s.at(0)
	if s.open(root) && !s.raiseLimit(root) {
		return s.best != nil && g.any
	}
	s.finish()
	return s.settleTies(root)
}

// raiseLimit searches below the root, first with a limit just above the proved
// bound, which it raises step by step until a choice turns up: a search under a
// loose limit wastes most of its nodes. It reports false where the budget ran
// out.
func (s *search) raiseLimit(root *node) bool {
	step := math.Inf(1)
	if !s.goal.any {
		step = s.firstStep()
	}
	for before := 0; ; {
		keep, start := s.limit, s.nodes
		limit := min(keep, s.lower+step)
		s.setLimit(limit)
		s.descend(root)
		if s.out || s.value <= limit || limit >= keep {
			return !s.out
		}
		if s.goal.whole {
			s.raise(math.Floor(limit) + 1)
		} else {
			s.raise(limit)
		}
		s.setLimit(keep)
		took := s.nodes - start
		step, before = s.nextStep(step, took, before), took
	}
}

// Steps that took few nodes are doubled; others are sized so that the next round
// takes mostGrowth times as many nodes as the last, if it grows as that one did.
const (
	fewNodes   = 64
	mostGrowth = 3
)

// nextStep is the step after a round that found nothing and took some nodes, the
// round before having taken before.
func (s *search) nextStep(step float64, took, before int) float64 {
	grown := math.Log(float64(took) / max(float64(before), 1))
	if took < fewNodes || grown <= 0 {
		return 2 * step
	}
	units := math.Floor(step / s.goal.unit * math.Log(mostGrowth) / grown)
	return min(max(units, 1)*s.goal.unit, 2*step)
}

// settleTies looks for the first of the choices as good as the best, which is
// proved; it reports false where the budget ran out.
func (s *search) settleTies(root *node) bool {
	if !s.goal.ties || s.best == nil || s.limit >= s.value || s.equal >= mostEqual {
		return true
	}
	s.setLimit(s.value)
	if s.open(root) {
		s.descend(root)
	}
	return !s.out
}

// open relaxes the root under the limit in force; it reports false where no
// choice is left.
func (s *search) open(root *node) bool {
	root.copyOptions(s.base)
	root.forget()
	root.lower = 0
	root.tab.start(s.m, root, s.goal.cost)
	return s.propagate(root) && s.relax(root, rootRounds)
}

// finish notes that nothing better than the best is left.
func (s *search) finish() {
	s.raise(min(s.value, max(s.limit, s.lower)+s.goal.unit))
	if s.best != nil {
		s.lower = s.value
	}
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
	s.explore(1, branching{})
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
// group, searches there, bans them, and goes on with what is left. The node came
// from a branching.
func (s *search) explore(depth int, from branching) {
	n := s.stack[depth]
	for !s.spent() {
		if s.best != nil && s.goal.ties && !s.ahead(n) {
			return
		}
		if !s.propagate(n) || !s.relax(n, s.log.rounds()) {
			s.learn(from, s.limit+s.goal.unit)
			return
		}
		if s.enough() {
			return
		}
		s.learn(from, n.tab.z)
		if s.swept(n) {
			return
		}
		c, spread := s.branch(n)
		if c < 0 {
			s.leaf(n)
			return
		}
		rest := 1
		if first := s.earlier(n); first >= 0 {
			c, spread = first, 0
		} else {
			rest = s.farther(n, c)
		}
		from = branching{int(s.m.grp[c]), spread, n.tab.z}
		child := s.at(depth + 1)
		child.copyOptions(n)
		for _, o := range n.options(s.m, from.group)[:rest] {
			child.ban(s.m, o)
		}
		child.tab.copyFrom(&n.tab)
		child.tab.purge(0)
		out := s.log.part(s.m, child, c)
		s.explore(depth+1, from)
		if s.out || s.enough() {
			return
		}
		s.log.follow(out)
		n.keepFirst(s.m, from.group, rest)
	}
}

// enough tells whether what was found so far will do.
func (s *search) enough() bool {
	return s.goal.any && s.best != nil || s.limit < s.lower
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
	if s.best != nil && value == s.value {
		if slices.Compare(s.chosen, s.best) < 0 {
			s.equal++
			s.take(s.chosen, value)
		}
		return true
	}
	s.equal = 0
	s.take(s.chosen, value)
	return true
}

// take makes a choice the best. Once nothing better is left, those as good are
// looked for where ties count, unless there are too many.
func (s *search) take(chosen []int, value float64) {
	s.best, s.value = slices.Clone(chosen), value
	if s.goal.ties && value <= s.lower && s.equal < mostEqual {
		s.setLimit(value)
	} else {
		s.setLimit(value - s.goal.unit)
	}
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
