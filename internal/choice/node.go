package choice

import "math"

// node is the options still allowed, and the relaxation over them.
type node struct {
	live   []int32 // columns; those allowed in group g are the first count[g] from off[g]
	count  []int32
	alive  []bool // by column
	tab    tableau
	x      []float64 // the relaxation's mix
	lower  float64   // proved: no choice of the node is worth less
	dense  float64   // tries for each of its choices, by a sweep given up here or further up
	banned int       // options banned so far, to see whether anything changed
	seen   []int32   // by group: its count when low, wide and ends were last brought up to date
	dirty  []int32   // groups whose count has changed since
	// low and wide are, by group and then linear line, the least of the allowed
	// options and how far the largest lies above; ends the same by cone and group.
	low, wide []float64
	ends      []extent
}

// extent is the least and largest of a group's allowed mids and squared own
// loads in a cone.
type extent struct{ low, high, own, ownHigh float64 }

func newNode(m *model) *node {
	n := &node{
		live:  make([]int32, m.n),
		count: make([]int32, len(m.p.Groups)),
		alive: make([]bool, m.n),
		x:     make([]float64, m.n),
		seen:  make([]int32, len(m.p.Groups)),
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
	n.banned, n.lower, n.dense = u.banned, u.lower, u.dense
	copy(n.seen, u.seen)
	n.ends = append(n.ends[:0], u.ends...)
	n.low = append(n.low[:0], u.low...)
	n.wide = append(n.wide[:0], u.wide...)
}

// forget makes the next propagation look at every group afresh, as it must
// where the lines have changed.
func (n *node) forget() { clear(n.seen) }

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

// keepFirst forbids the columns of group g after the first few of its options.
func (n *node) keepFirst(m *model, g, few int) {
	for int(n.count[g]) > few {
		n.ban(m, n.live[m.off[g]+int(n.count[g])-1])
	}
}

// propagate bans options that no choice keeping one line can have, until
// nothing changes; it reports false where a group has none left or a line
// cannot be kept.
func (s *search) propagate(n *node) bool {
	groups := len(n.count)
	n.low = resize(n.low, len(s.m.plain)*groups)
	n.wide = resize(n.wide, len(s.m.plain)*groups)
	n.ends = resize(n.ends, (len(s.m.curved)+1)*groups)
	for n.refresh() {
		s.charge(groups * len(s.m.plain))
		if !s.tightenPlain(n) {
			return false
		}
		if s.log != nil {
			continue // a proof uses cones by their tangents alone
		}
		s.charge(len(s.m.curved) * coneWork * s.m.n)
		for i, l := range s.m.curved {
			if !l.loose && !s.tightenCone(n, l, s.measure(n, l, i)) {
				return false
			}
		}
		if l := s.goal.line; l != nil && !s.tightenCone(n, l, s.measure(n, l, len(s.m.curved))) {
			return false
		}
	}
	return true
}

// refresh lists the groups that have changed and tells whether there are any.
func (n *node) refresh() bool {
	n.dirty = n.dirty[:0]
	for g, count := range n.count {
		if count != n.seen[g] {
			n.dirty = append(n.dirty, int32(g))
			n.seen[g] = count
		}
	}
	return len(n.dirty) > 0
}

// measure brings a cone's extents up to date.
func (s *search) measure(n *node, l *line, i int) []extent {
	groups := len(n.count)
	ends := n.ends[i*groups : (i+1)*groups]
	for _, g := range n.dirty {
		e := extent{math.Inf(1), math.Inf(-1), 0, 0}
		low, high := math.Inf(1), 0.0
		for _, c := range n.options(s.m, int(g)) {
			e.low, e.high = min(e.low, l.a[c]), max(e.high, l.a[c])
			low, high = min(low, l.cone.own[c]), max(high, l.cone.own[c])
		}
		e.own, e.ownHigh = low*low, high*high
		ends[g] = e
	}
	return ends
}

// tightenPlain bans the options that a linear line forbids while every other
// group takes its least; it reports false where a group has no option left or
// even the least of all groups breaks a line. All lines are gone through at once,
// group by group, as their figures lie in memory.
func (s *search) tightenPlain(n *node) bool {
	m, k := s.m, len(s.m.plain)
	for _, g := range n.dirty {
		live := n.options(m, int(g))
		if len(live) == 0 {
			return false
		}
		n.bounds(m, int(g), live)
	}
	s.room = resize(s.room, k)
	room := s.room
	clear(room)
	for g := range n.count {
		for i, v := range n.low[g*k : (g+1)*k] {
			room[i] += v
		}
	}
	for i, l := range m.plain {
		if room[i] = l.b - room[i]; room[i] < 0 {
			s.log.line(l)
			return false
		}
	}
	for g, count := range n.count {
		if count < 2 {
			continue
		}
		low := n.low[g*k : (g+1)*k]
		for i, span := range n.wide[g*k : (g+1)*k] {
			if span > room[i] {
				s.banAbove(n, g, i, low[i]+room[i])
			}
		}
	}
	return true
}

// bounds are the least of a group's options in each linear line, and how far the
// largest lies above.
func (n *node) bounds(m *model, g int, live []int32) {
	k := len(m.plain)
	low, high := n.low[g*k:(g+1)*k], n.wide[g*k:(g+1)*k]
	first := int(live[0])
	copy(low, m.figures[first*k:(first+1)*k])
	copy(high, low)
	for _, c := range live[1:] {
		for i, v := range m.figures[int(c)*k : (int(c)+1)*k] {
			if v < low[i] {
				low[i] = v
			} else if v > high[i] {
				high[i] = v
			}
		}
	}
	for i := range high {
		high[i] -= low[i]
	}
}

// banAbove bans a group's options that are above top in linear line i.
func (s *search) banAbove(n *node, g, i int, top float64) {
	l, before := s.m.plain[i], n.banned
	live := n.options(s.m, g)
	for j := len(live) - 1; j >= 0; j-- {
		if l.a[live[j]] > top {
			n.ban(s.m, live[j])
		}
	}
	if n.banned > before {
		s.log.line(l)
	}
}

// tightenCone bans what a cone forbids by a lower bound of it: least mids, and the
// least size of each factor's sum taken by itself.
func (s *search) tightenCone(n *node, l *line, ends []extent) bool {
	var sum, squares float64
	for g := range ends {
		sum += ends[g].low
		squares += ends[g].own
	}
	squares += s.ranges(n, l.cone)
	if sum+math.Sqrt(squares) > l.b {
		return false
	}
	shared := len(l.cone.shared) > 0
	for g, e := range ends {
		if n.count[g] < 2 {
			continue
		}
		mid, rest := sum-e.low, squares-e.own
		if shared || mid+e.high+math.Sqrt(max(rest, 0)+e.ownHigh) > l.b {
			s.tightenGroup(n, l, g, mid, rest)
		}
	}
	return true
}

// ranges fills s.spans with the range of each shared factor's sum, s.partSpans
// with each part's, and returns the least sum of squares.
func (s *search) ranges(n *node, k *cone) float64 {
	s.spans, s.partSpans = s.spans[:0], s.partSpans[:0]
	var squares float64
	for f := range k.shared {
		var sum span
		var of []span
		if f < cap(s.partSpans) {
			of = s.partSpans[:f+1][f][:0]
		}
		for i := range k.shared[f].parts {
			w := n.span(&k.shared[f].parts[i])
			of = append(of, w)
			sum.low += w.low
			sum.high += w.high
		}
		s.spans, s.partSpans = append(s.spans, sum), append(s.partSpans, of)
		squares += sum.least() * sum.least()
	}
	return squares
}

// span is the range of a group's load under a factor.
func (n *node) span(q *part) span {
	w := span{math.Inf(1), math.Inf(-1)}
	var live int32
	for i, c := range q.cols {
		if n.alive[c] {
			live++
			w.low, w.high = min(w.low, q.half[i]), max(w.high, q.half[i])
		}
	}
	if live < n.count[q.group] {
		w.low, w.high = min(w.low, 0), max(w.high, 0)
	}
	return w
}

// tightenGroup bans options of one group, given the least mid and the least
// squares without the group's mids and own loads. Squares are taken off and put
// on, so a share of their size is given away to rounding.
func (s *search) tightenGroup(n *node, l *line, g int, mid, squares float64) {
	k := l.cone
	size := squares
	for _, at := range k.of[g] {
		was := s.spans[at.factor].least()
		w := s.spans[at.factor].less(s.partSpans[at.factor][at.part]).least()
		squares += w*w - was*was
		size += w * w
	}
	live := n.options(s.m, g)
	for i := len(live) - 1; i >= 0; i-- {
		c := live[i]
		total, top := squares+k.own[c]*k.own[c], size
		for _, load := range k.loads[c] {
			w := s.spans[load.factor].less(s.partSpans[load.factor][load.part])
			was := w.least()
			now := span{w.low + load.half, w.high + load.half}.least()
			total += now*now - was*was
			top += now*now + was*was
		}
		if mid+l.a[c]+math.Sqrt(max(total-roundingShare*top, 0)) > l.b {
			n.ban(s.m, c)
		}
	}
}

// span is the range of a sum.
type span struct{ low, high float64 }

// least is the smallest size of a number in the range.
func (w span) least() float64 { return max(w.low, -w.high, 0) }

// less is the range of the sum without one of its parts.
func (w span) less(v span) span { return span{w.low - v.low, w.high - v.high} }
