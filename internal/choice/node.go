package choice

import "math"

// node is the options still allowed, and the relaxation over them.
type node struct {
	live   []int32 // columns; those allowed in group g are the first count[g] from off[g]
	count  []int32
	alive  []bool // by column
	tab    tableau
	x      []float64 // the relaxation's mix
	banned int       // options banned so far, to see whether anything changed
}

func newNode(m *model) *node {
	n := &node{
		live:  make([]int32, m.n),
		count: make([]int32, len(m.p.Groups)),
		alive: make([]bool, m.n),
		x:     make([]float64, m.n),
	}
	for c := range m.n {
		n.live[c], n.alive[c] = int32(c), true
	}
	for g := range n.count {
		n.count[g] = int32(m.off[g+1] - m.off[g])
	}
	return n
}

// copyOptions takes over what u allows.
func (n *node) copyOptions(u *node) {
	copy(n.live, u.live)
	copy(n.count, u.count)
	copy(n.alive, u.alive)
	n.banned = u.banned
}

func (n *node) options(m *model, g int) []int32 {
	return n.live[m.off[g] : m.off[g]+int(n.count[g])]
}

// ban forbids column c.
func (n *node) ban(m *model, c int32) {
	if !n.alive[c] {
		return
	}
	g := int(m.grp[c])
	live := n.options(m, g)
	for i := range live {
		if live[i] == c {
			last := len(live) - 1
			live[i], live[last] = live[last], live[i]
			break
		}
	}
	n.count[g]--
	n.alive[c] = false
	n.banned++
}

// fix forbids every other column of c's group.
func (n *node) fix(m *model, c int32) {
	g := int(m.grp[c])
	for i := int(n.count[g]) - 1; i >= 0; i-- {
		if o := n.live[m.off[g]+i]; o != c {
			n.ban(m, o)
		}
	}
}

// propagate bans options that no choice keeping one line can have, until
// nothing changes; it reports false where a group has none left or a line
// cannot be kept.
func (s *search) propagate(n *node) bool {
	for {
		before := n.banned
		for _, l := range s.m.lines {
			if !s.tighten(n, l) {
				return false
			}
		}
		if s.goal.line != nil && !s.tighten(n, s.goal.line) {
			return false
		}
		if n.banned == before {
			return true
		}
	}
}

func (s *search) tighten(n *node, l *line) bool {
	if l.cone != nil {
		return s.tightenCone(n, l)
	}
	m := s.m
	low := s.low
	var sum float64
	for g := range low {
		v := math.Inf(1)
		for _, c := range n.options(m, g) {
			v = min(v, l.a[c])
		}
		low[g] = v
		sum += v
	}
	room := l.b - sum
	if room < 0 {
		return false
	}
	for g, v := range low {
		live := n.options(m, g)
		for i := len(live) - 1; i >= 0; i-- {
			if l.a[live[i]]-v > room {
				n.ban(m, live[i])
			}
		}
	}
	return true
}

// tightenCone does the same with a lower bound of the cone: least mids, and the
// least size of each factor's sum taken by itself.
func (s *search) tightenCone(n *node, l *line) bool {
	m, k := s.m, l.cone
	low, own := s.low, s.own
	var sum, squares float64
	for g := range low {
		a, r := math.Inf(1), math.Inf(1)
		for _, c := range n.options(m, g) {
			a, r = min(a, l.a[c]), min(r, k.own[c])
		}
		low[g], own[g] = a, r*r
		sum += a
		squares += r * r
	}
	if sum > l.b {
		return false
	}
	spans := s.spans[:0]
	rest := squares
	for _, h := range k.shared {
		var w span
		for g := range low {
			lo, hi := s.ends(n, h, g)
			w.low += lo
			w.high += hi
		}
		spans = append(spans, w)
		rest += w.least() * w.least()
	}
	s.spans = spans
	if sum+math.Sqrt(rest) > l.b {
		return false
	}
	for g := range low {
		if n.count[g] > 1 {
			s.tightenGroup(n, l, g, coneBase{sum - low[g], squares - own[g]})
		}
	}
	return true
}

// coneBase is the least mid and the least own squares of all other groups.
type coneBase struct{ mid, squares float64 }

func (s *search) tightenGroup(n *node, l *line, g int, base coneBase) {
	m, k := s.m, l.cone
	ends := s.ofGroup[:0]
	for _, h := range k.shared {
		lo, hi := s.ends(n, h, g)
		ends = append(ends, span{lo, hi})
	}
	s.ofGroup = ends
	live := n.options(m, g)
	for i := len(live) - 1; i >= 0; i-- {
		c := live[i]
		squares := base.squares + k.own[c]*k.own[c]
		for f, h := range k.shared {
			w := span{s.spans[f].low - ends[f].low + h[c], s.spans[f].high - ends[f].high + h[c]}
			squares += w.least() * w.least()
		}
		if base.mid+l.a[c]+math.Sqrt(max(squares, 0)) > l.b {
			n.ban(m, c)
		}
	}
}

// span is the range of a sum.
type span struct{ low, high float64 }

// least is the smallest size of a number in the range.
func (w span) least() float64 { return max(w.low, -w.high, 0) }

func (s *search) ends(n *node, h []float64, g int) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range n.options(s.m, g) {
		low, high = min(low, h[c]), max(high, h[c])
	}
	return low, high
}
