package choice

import (
	"cmp"
	"math"
	"slices"
)

// hit is a line that the mix breaks, and by how much.
type hit struct {
	line *line
	by   float64
}

const (
	breach   = 1e-7 // by how much a mix must break a line to be worth a cut
	mostCuts = 8
	// leastNorm is the least size of a mix's loads that a tangent leans along:
	// below it their squares lose figures, and weights could have a norm above 1.
	leastNorm = 1e-140
)

// separate adds the cuts that the mix breaks, the most broken first.
func (s *search) separate(n *node) bool {
	s.hits, s.support = s.hits[:0], s.support[:0]
	for c, x := range n.x {
		if x != 0 {
			s.support = append(s.support, int32(c))
		}
	}
	s.charge(len(s.m.lines) * len(s.support))
	for _, l := range s.m.lines {
		s.weigh(n, l)
	}
	if s.goal.line != nil {
		s.weigh(n, s.goal.line)
	}
	if len(s.hits) == 0 {
		return false
	}
	slices.SortStableFunc(s.hits, func(a, b hit) int { return cmp.Compare(b.by, a.by) })
	for _, h := range s.hits[:min(len(s.hits), mostCuts)] {
		n.tab.addCut(s.tangent(n, h.line))
	}
	return true
}

func (s *search) weigh(n *node, l *line) {
	value := s.mixed(n, l.a)
	if l.cone != nil {
		value += s.parting(n, l.cone)
	}
	if by := value - l.b; by > breach {
		s.hits = append(s.hits, hit{l, by})
	}
}

func (s *search) mixed(n *node, a []float64) float64 {
	var sum float64
	for _, c := range s.support {
		sum += n.x[c] * a[c]
	}
	return sum
}

// parting fills s.parts with the mix's sum under each factor, first one for
// each group's own, then the shared ones, and returns their root of squares.
func (s *search) parting(n *node, k *cone) float64 {
	s.parts = resize(s.parts, len(n.count))
	clear(s.parts)
	for _, c := range s.support {
		s.parts[s.m.grp[c]] += n.x[c] * k.own[c]
	}
	groups := len(s.parts)
	for range k.shared {
		s.parts = append(s.parts, 0)
	}
	for _, c := range s.support {
		for _, load := range k.loads[c] {
			s.parts[groups+load.factor] += n.x[c] * load.half
		}
	}
	var squares float64
	for _, v := range s.parts {
		squares += v * v
	}
	return math.Sqrt(squares)
}

// tangent is the cut of a line at the mix. For a cone any weights of norm at
// most 1 give a true inequality, since w·u <= |u|; those along the mix's own
// sums are the tightest there.
func (s *search) tangent(n *node, l *line) *cut {
	if l.cone == nil {
		if l.cut == nil {
			l.cut = newCut(l.a, l)
		}
		return l.cut
	}
	norm := s.parting(n, l.cone)
	if norm < leastNorm {
		return newCut(l.a, l)
	}
	c := newCut(s.lean(l, norm), l)
	if s.log != nil {
		c.lean = s.weights(norm)
	}
	return c
}

// lean is a line's mids plus its loads weighted by s.parts over norm.
func (s *search) lean(l *line, norm float64) []float64 {
	a := slices.Clone(l.a)
	norm *= 1 + 1e-14
	groups := len(s.m.p.Groups)
	for c := range a {
		a[c] += s.parts[s.m.grp[c]] / norm * l.cone.own[c]
		for _, load := range l.cone.loads[c] {
			a[c] += s.parts[groups+load.factor] / norm * load.half
		}
	}
	return a
}

func newCut(a []float64, of *line) *cut {
	c := &cut{a: a, of: of}
	for _, v := range a {
		c.size = max(c.size, math.Abs(v))
	}
	return c
}
