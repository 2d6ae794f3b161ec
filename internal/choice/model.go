package choice

import (
	"math"
	"slices"
)

// model is a problem with its options numbered through as columns and its rows
// relaxed by the tolerance and a margin for rounding, so that whatever breaks a
// line of the model breaks the row for certain. Lines only ever prune; whether
// a choice fits is always asked of the problem itself.
type model struct {
	p     Problem
	n     int     // columns
	off   []int   // first column of each group, then n
	grp   []int32 // group of each column
	lines []*line
	// plain are the linear lines, curved the others; figures are those of the
	// linear ones by column and then line.
	plain, curved []*line
	figures       []float64
	// turned is, by linear line, the one that is it with its signs turned, or -1;
	// paired is whether there is any.
	turned []int
	paired bool
}

// line is one row of the model, scaled by a power of two, the least of each
// group shifted to 0.
type line struct {
	a     []float64 // by column
	b     float64
	cone  *cone   // nil for a linear line
	loose bool    // its twin bans as many options, so it only takes part in the relaxation
	twin  bool    // takes loads of one sign as independent
	row   int     // index in Problem.Rows, or -1
	sum   uint64  // of a, by sumOf
	set   int     // where row is -1, index in Problem.Apart, or -1
	unit  float64 // what the row was multiplied by
	base  float64 // shift: the scaled row's mid is base + Σ a
	slip  float64 // margin for rounding, scaled
	cut   *cut    // of a linear line: itself, once it was entered
}

// cone holds the loads of a line.
type cone struct {
	// own is, by column, the root of the sum of squares of the loads whose factors
	// no other group has: only one option of the group is chosen, so they act as
	// one load under one factor.
	own    []float64
	shared []factor
	loads  [][]share // by column: its loads under shared factors
	of     [][]place // by group: its parts of shared factors
}

// factor is a factor that several groups have, one part for each.
type factor struct {
	id    int // Load.Factor
	parts []part
}

// part is one group's loads under a factor; the group's other options have none.
type part struct {
	group int
	cols  []int32
	half  []float64
}

// place is where a part stands.
type place struct{ factor, part int }

// share is a load under a shared factor; part is the group's place in it.
type share struct {
	factor, part int
	half         float64
}

func newModel(p Problem) *model {
	m := &model{p: p, off: make([]int, len(p.Groups)+1)}
	for g, group := range p.Groups {
		m.off[g+1] = m.off[g] + len(group.Options)
		for range group.Options {
			m.grp = append(m.grp, int32(g))
		}
	}
	m.n = m.off[len(p.Groups)]
	for r := range p.Rows {
		l := m.rowLine(p.Rows[r])
		l.row = r
		twin := m.alone(l)
		l.loose = twin != nil
		m.add(l)
		if twin != nil {
			m.add(twin)
		}
	}
	for i, set := range p.Apart {
		l := m.apartLine(set)
		l.set = i
		m.add(l)
	}
	m.lay()
	return m
}

// lay sorts the lines; it is called again when some are added.
func (m *model) lay() {
	m.plain, m.curved = nil, nil
	for _, l := range m.lines {
		if l.cone == nil {
			m.plain = append(m.plain, l)
		} else {
			m.curved = append(m.curved, l)
		}
	}
	k := len(m.plain)
	m.figures = resize(m.figures, m.n*k)
	for i, l := range m.plain {
		for c, a := range l.a {
			m.figures[c*k+i] = a
		}
	}
	m.pairUp()
}

// pairUp finds the linear lines that bound the same sum from both sides.
func (m *model) pairUp() {
	m.turned, m.paired = resize(m.turned, len(m.plain)), false
	for i, l := range m.plain {
		m.turned[i] = -1
		for j, k := range m.plain[:i] {
			if m.turned[j] < 0 && l.row >= 0 && k.row >= 0 && m.opposite(l, k) {
				m.turned[i], m.turned[j], m.paired = j, i, true
				break
			}
		}
	}
}

// opposite tells whether two lines add up to the same for all options of a group,
// nearly: it steers the search only.
func (m *model) opposite(a, b *line) bool {
	for g := range m.p.Groups {
		top := a.a[m.off[g]] + b.a[m.off[g]]
		for c := m.off[g]; c < m.off[g+1]; c++ {
			if math.Abs(a.a[c]+b.a[c]-top) > tinyValue {
				return false
			}
		}
	}
	return true
}

// add keeps a line unless nothing can break it or an equal line is as tight.
func (m *model) add(l *line) {
	if m.most(l) <= l.b-2*l.slip && l.row < 0 {
		return
	}
	if l.row >= 0 && m.most(l) <= m.p.Rows[l.row].Bound*l.unit-l.base-l.slip {
		return
	}
	l.sum = sumOf(l.a)
	for _, k := range m.lines {
		if k.sum == l.sum && slices.Equal(k.a, l.a) && equalCones(k.cone, l.cone) {
			if l.b < k.b {
				*k = *l
			}
			return
		}
	}
	m.lines = append(m.lines, l)
}

// sumOf is the same for equal figures, and seldom for others (FNV-1a over those that
// are not 0, with their places).
func sumOf(a []float64) uint64 {
	h := uint64(14695981039346656037)
	for c, x := range a {
		if x != 0 {
			h = (h ^ uint64(c)) * 1099511628211
			h = (h ^ math.Float64bits(x)) * 1099511628211
		}
	}
	return h
}

func equalCones(a, b *cone) bool {
	if a == nil || b == nil {
		return a == b
	}
	return slices.Equal(a.own, b.own) && slices.EqualFunc(a.loads, b.loads, slices.Equal[[]share])
}

// most is the largest value a line can take.
func (m *model) most(l *line) float64 {
	var mid, squares float64
	for g := range m.p.Groups {
		lo, hi := m.off[g], m.off[g+1]
		mid += slices.Max(l.a[lo:hi])
		if l.cone != nil {
			own := slices.Max(l.cone.own[lo:hi])
			squares += own * own
		}
	}
	if l.cone != nil {
		for _, f := range l.cone.shared {
			var low, high float64
			for _, q := range f.parts {
				low += min(0, slices.Min(q.half))
				high += max(0, slices.Max(q.half))
			}
			far := max(-low, high)
			squares += far * far
		}
	}
	return mid + math.Sqrt(squares)
}

// roundingShare bounds the relative rounding error of a sum over a problem.
const roundingShare = 1e-13

func (m *model) rowLine(row Row) *line {
	l := &line{a: make([]float64, m.n), row: -1, set: -1}
	var size, top float64
	for g := range m.p.Groups {
		least := slices.Min(row.Mid[g])
		l.base += least
		var far float64
		for o, v := range row.Mid[g] {
			l.a[m.off[g]+o] = v - least
			far = max(far, math.Abs(v))
			top = max(top, v-least)
		}
		size += far
	}
	if row.Loads != nil {
		var loads float64
		l.cone, loads = m.coneOf(row)
		size += loads
		for c := range m.n {
			if l.cone != nil {
				top = max(top, l.cone.own[c])
				for _, load := range l.cone.loads[c] {
					top = max(top, math.Abs(load.half))
				}
			}
		}
	}
	size += math.Abs(row.Bound)
	l.slip = roundingShare * size
	l.b = row.ceiling() - l.base + l.slip
	l.scale(max(top, Tolerance*max(1, size))) // what is below the tolerance is not blown up
	return l
}

// scale multiplies a line by the power of two that brings top near 1.
func (l *line) scale(top float64) {
	l.unit = 1
	if top > 0 {
		_, e := math.Frexp(top)
		l.unit = math.Ldexp(1, -e)
	}
	for c := range l.a {
		l.a[c] *= l.unit
	}
	l.b *= l.unit
	l.base *= l.unit
	l.slip *= l.unit
	if l.cone == nil {
		return
	}
	for c := range l.cone.own {
		l.cone.own[c] *= l.unit
	}
	for _, f := range l.cone.shared {
		for _, q := range f.parts {
			for i := range q.half {
				q.half[i] *= l.unit
			}
		}
	}
	for _, loads := range l.cone.loads {
		for i := range loads {
			loads[i].half *= l.unit
		}
	}
}

// coneOf sorts a row's loads into those of one group alone and shared ones; the
// second value is the sum of the largest loads, for the rounding margin.
func (m *model) coneOf(row Row) (*cone, float64) {
	home := map[int]int{} // factor: the one group that has it, or -1
	for g := range row.Loads {
		for _, loads := range row.Loads[g] {
			for _, load := range summed(loads) {
				if load.Half == 0 {
					continue
				}
				if h, seen := home[load.Factor]; seen && h != g {
					home[load.Factor] = -1
				} else if !seen {
					home[load.Factor] = g
				}
			}
		}
	}
	c := &cone{own: make([]float64, m.n), loads: make([][]share, m.n)}
	index := map[int]int{}
	var size float64
	for g := range row.Loads {
		var far float64
		for o := range row.Loads[g] {
			far = max(far, m.enterLoads(c, index, home, m.off[g]+o, row.Loads[g][o]))
		}
		size += far
	}
	if len(home) == 0 {
		return nil, 0
	}
	c.index(len(m.p.Groups))
	return c, size
}

// index lists the parts by group.
func (c *cone) index(groups int) {
	c.of = make([][]place, groups)
	for f := range c.shared {
		for i, q := range c.shared[f].parts {
			c.of[q.group] = append(c.of[q.group], place{f, i})
		}
	}
}

// enterLoads enters one option's loads into a cone and returns their sum.
func (m *model) enterLoads(c *cone, index, home map[int]int, col int, loads []Load) float64 {
	var squares, size float64
	for _, load := range summed(loads) {
		if load.Half == 0 {
			continue
		}
		size += math.Abs(load.Half)
		if home[load.Factor] >= 0 {
			squares += load.Half * load.Half
			continue
		}
		f, seen := index[load.Factor]
		if !seen {
			f = len(c.shared)
			index[load.Factor] = f
			c.shared = append(c.shared, factor{id: load.Factor})
		}
		at := c.shared[f].enter(int(m.grp[col]), int32(col), load.Half)
		c.loads[col] = append(c.loads[col], share{f, at, load.Half})
	}
	c.own[col] = math.Sqrt(squares)
	return size
}

// enter adds a load of a column, columns coming in order, and returns the place
// of its group's part.
func (f *factor) enter(group int, col int32, half float64) int {
	last := len(f.parts) - 1
	if last < 0 || f.parts[last].group != group {
		f.parts = append(f.parts, part{group: group})
		last++
	}
	q := &f.parts[last]
	q.cols, q.half = append(q.cols, col), append(q.half, half)
	return last
}

// alone is a second line for a row with shared factors, or nil. Loads of one
// sign under a factor make (Σ h)² at least Σ h², so they may be taken as
// independent: weaker for a choice, yet stronger where options are mixed, since
// each option's loads then act as one.
func (m *model) alone(l *line) *line {
	if l.cone == nil || len(l.cone.shared) == 0 {
		return nil
	}
	twin := *l
	c := &cone{own: slices.Clone(l.cone.own), loads: make([][]share, m.n)}
	for _, f := range l.cone.shared {
		var low, high float64
		for _, q := range f.parts {
			low, high = min(low, slices.Min(q.half)), max(high, slices.Max(q.half))
		}
		if low < 0 && high > 0 {
			c.keep(f)
			continue
		}
		for _, q := range f.parts {
			for i, h := range q.half {
				c.own[q.cols[i]] = math.Hypot(c.own[q.cols[i]], h)
			}
		}
	}
	if len(c.shared) == len(l.cone.shared) {
		return nil
	}
	c.index(len(m.p.Groups))
	twin.cone, twin.twin = c, true
	return &twin
}

// keep takes over a shared factor from another cone.
func (c *cone) keep(f factor) {
	for i, q := range f.parts {
		for j, col := range q.cols {
			c.loads[col] = append(c.loads[col], share{len(c.shared), i, q.half[j]})
		}
	}
	c.shared = append(c.shared, f)
}

func (m *model) apartLine(set []Pick) *line {
	l := &line{a: make([]float64, m.n), b: 1, row: -1, unit: 1}
	for _, k := range set {
		l.a[m.off[k.Group]+k.Option] = 1
	}
	for g := range m.p.Groups {
		least := slices.Min(l.a[m.off[g]:m.off[g+1]])
		if least > 0 { // every option of the group is in the set
			l.b--
			for c := m.off[g]; c < m.off[g+1]; c++ {
				l.a[c] = 0
			}
		}
	}
	return l
}

// costLine says that a level costs at most so much; costs are whole numbers, so
// it needs no margin.
func (m *model) costLine(cost []float64, atMost float64) *line {
	l := &line{a: slices.Clone(cost), b: atMost, row: -1, set: -1}
	l.scale(slices.Max(cost))
	return l
}
