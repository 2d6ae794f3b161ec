package choice

import (
	"cmp"
	"math"
	"slices"
)

// sweep tries the choices of a node one after the other, without a relaxation,
// where few are left. What is left of each line is kept in a lane of 16 bits, four
// to a word, so that one subtraction sees to four lines: the top bit of a lane is
// set, and is lost where more is taken than was left. Figures are rounded down, so
// that only choices that break a line are passed over.
type sweep struct {
	after int      // none in the first nodes: what is done within them needs none
	lanes []lane   // the price, then the lines, the tightest first
	words int      // of all lanes
	open  []int32  // groups with more than one option, those that take most first
	first []int    // by open group: its first option in cols; then len(cols)
	cols  []int32  // options of the open groups, the cheapest first
	takes []uint64 // by option, word
	left  []uint64 // by depth, word: what the groups before have left
	next  []int    // by depth: the option to try next
	reach []float64
	rank  []float64 // by group: those with the largest come first
	halves
}

// lane is a line that the node's choices could break; -1 is the price.
type lane struct {
	line  int
	tight float64 // how many times over the options could take what is left
	scale float64 // from the line's figures to the lane's
}

const (
	laneBits = 16
	laneTop  = 1<<(laneBits-1) - 1
	guards   = 0x8000_8000_8000_8000
	guard    = 1 << (laneBits - 1) // of the first lane
)

// A sweep is given up after mostTries, and not begun where one given up further
// up makes more than expectTries likely. tryWork is how many figures a try counts
// as.
const (
	sweepAfter  = 16
	mostTries   = 2000
	expectTries = 1000
	tryWork     = 4
)

// swept tries all choices left in a node if they are few; it reports false where
// they are not.
func (s *search) swept(n *node) bool {
	size := 1.0
	for _, count := range n.count {
		size *= float64(count)
	}
	spare, w := s.limit-s.proved, &s.sweep
	switch {
	case s.log != nil: // the proof of a sweep would be as long as the sweep
		return false
	case s.nodes <= w.after || size == 1 || math.IsInf(size, 1):
		return false
	case spare < 0:
		return true
	case s.m.paired && spare > tinyValue && size < 1<<63:
		if done, can := s.halved(n, spare); can {
			return done
		}
	}
	if size*n.dense > expectTries {
		return false
	}
	w.pick(s, n, spare)
	slices.SortStableFunc(w.lanes[1:], func(a, b lane) int { return cmp.Compare(b.tight, a.tight) })
	w.byShare(s, n)
	w.lay(s, n)
	tries, share := w.run(s)
	s.charge(len(w.cols)*len(w.lanes) + tries*tryWork)
	n.dense = float64(tries) / (share * size)
	return share == 1
}

// lay writes down what a node's options take.
func (w *sweep) lay(s *search, n *node) {
	w.order(s, n)
	w.words = (len(w.lanes) + 3) / 4
	w.takes = resize(w.takes, len(w.cols)*w.words)
	clear(w.takes)
	k := len(s.m.plain)
	for j, c := range w.cols {
		g := int(s.m.grp[c])
		low, figures := n.low[g*k:(g+1)*k], s.m.figures[int(c)*k:(int(c)+1)*k]
		takes := w.takes[j*w.words : (j+1)*w.words]
		takes[0] = w.lanes[0].take(s.price[c] - s.floor[g])
		for i := 1; i < len(w.lanes); i++ {
			l := &w.lanes[i]
			takes[i/4] |= l.take(figures[l.line]-low[l.line]) << (laneBits * (i % 4))
		}
	}
	w.left = resize(w.left, (len(w.open)+1)*w.words)
	for i := range w.words {
		w.left[i] = math.MaxUint64
	}
}

// take is a figure, which is not negative, in the lane.
func (l *lane) take(figure float64) uint64 {
	return uint64(min(figure*l.scale, laneTop))
}

// pick makes the lanes.
func (w *sweep) pick(s *search, n *node, spare float64) {
	k := len(s.m.plain)
	s.room, w.reach = resize(s.room, k), resize(w.reach, k)
	clear(s.room)
	clear(w.reach)
	for g := range n.count {
		for i, v := range n.low[g*k : (g+1)*k] {
			s.room[i] += v
		}
		if n.count[g] > 1 {
			for i, v := range n.wide[g*k : (g+1)*k] {
				w.reach[i] += v
			}
		}
	}
	w.lanes = append(w.lanes[:0], lane{line: -1, tight: math.Inf(1), scale: laneScale(spare)})
	for i, l := range s.m.plain {
		if room := l.b - s.room[i]; w.reach[i] > room {
			w.lanes = append(w.lanes, lane{i, w.reach[i] / room, laneScale(room)})
		}
	}
}

// laneScale makes what is left one less than a lane holds, for the rounding of
// the product; next to nothing left is not looked at.
func laneScale(room float64) float64 {
	if room < tinyValue {
		return 0
	}
	return (laneTop - 1) / room
}

// byShare ranks the groups by the largest share they could take of what is left of
// a line.
func (w *sweep) byShare(s *search, n *node) {
	k := len(s.m.plain)
	w.rank = resize(w.rank, len(n.count))
	for g, count := range n.count {
		w.rank[g] = 0
		if count == 1 {
			continue
		}
		wide := n.wide[g*k : (g+1)*k]
		for _, l := range w.lanes[1:] {
			if v := l.scale * wide[l.line]; v > w.rank[g] {
				w.rank[g] = v
			}
		}
	}
}

// order lists the open groups by their rank, and their options.
func (w *sweep) order(s *search, n *node) {
	w.open, w.first, w.cols = w.open[:0], w.first[:0], w.cols[:0]
	for g, count := range n.count {
		if count == 1 {
			s.chosen[g] = int(n.options(s.m, g)[0]) - s.m.off[g]
			continue
		}
		w.open = append(w.open, int32(g))
	}
	slices.SortStableFunc(w.open, func(a, b int32) int { return cmp.Compare(w.rank[b], w.rank[a]) })
	for _, g := range w.open {
		w.first = append(w.first, len(w.cols))
		w.cols = append(w.cols, n.options(s.m, int(g))...)
		slices.SortFunc(w.cols[w.first[len(w.first)-1]:], func(a, b int32) int {
			return cmp.Or(cmp.Compare(s.price[a], s.price[b]), cmp.Compare(a, b))
		})
	}
	w.first = append(w.first, len(w.cols))
}

// run goes through the choices; it returns how many options it tried and what
// share of the choices that settled, 1 where all.
func (w *sweep) run(s *search) (tries int, share float64) {
	last := len(w.open) - 1
	w.next = append(w.next[:0], w.first...)
	for d := 0; d >= 0; {
		j := w.next[d]
		if j == w.first[d+1] {
			d--
			continue
		}
		if tries == mostTries {
			return tries, w.share(d)
		}
		tries++
		w.next[d]++
		if broken := w.take(d, j); broken != 0 {
			if broken == guard {
				w.next[d] = w.first[d+1] // the others cost more
			}
			continue
		}
		g := w.open[d]
		s.chosen[g] = int(w.cols[j]) - s.m.off[g]
		if d < last {
			d++
			w.next[d] = w.first[d]
			continue
		}
		if s.try(); s.enough() {
			break
		}
	}
	return tries, 1
}

// take takes option j at depth d; it returns 0 where no line is broken, guard
// where the price is too high.
func (w *sweep) take(d, j int) (broken uint64) {
	takes := w.takes[j*w.words : (j+1)*w.words]
	left := w.left[d*w.words : (d+1)*w.words]
	after := w.left[(d+1)*w.words : (d+2)*w.words]
	v := left[0] - takes[0]
	if v&guard == 0 {
		return guard
	}
	after[0] = v
	broken = ^v & guards
	for i := 1; i < len(takes) && broken == 0; i++ {
		v := left[i] - takes[i]
		after[i] = v
		broken = ^v & guards
	}
	if broken == guard {
		broken = guards
	}
	return broken
}

// share is what share of the choices lies before the next one at depth d.
func (w *sweep) share(d int) float64 {
	share, part := 0.0, 1.0
	for e := range d + 1 {
		part /= float64(w.first[e+1] - w.first[e])
		gone := w.next[e] - w.first[e]
		if e < d {
			gone--
		}
		share += part * float64(gone)
	}
	return max(share, part)
}
