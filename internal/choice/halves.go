package choice

import (
	"cmp"
	"math"
	"slices"
)

// halves goes through all choices of a node at once where a sum is held between
// two bounds: the open groups are parted in two, the partial choices of each part
// are written down, and to each of the first only those of the second are put that
// bring the sum between its bounds and keep to the price. Two lists of a thousand
// stand for a million choices.
type halves struct {
	one, two, spare partial
	least, most     int      // of what the second part's choices take of the sum
	cell            []int32  // by choice of the second part: its cell
	order           []int32  // choices of the second part, cell by cell
	takes           []uint64 // their first words
	end             []int32  // by cell: where it ends in order
	low             []int    // by step of the sum: the least taken of the other bound, up to there
	ways, more      []float64
}

// partial is the choices of a part of the open groups that break no line so far.
type partial struct {
	groups []int    // places in sweep.open
	left   []uint64 // by choice, word: what it leaves of each lane
	code   []uint64 // by choice: the places of its options, as digits of a number
}

// A node is gone through in halves if about mostPaired choices are likely to be
// looked at; no half is longer than mostHalf. A sum may be held within a band of at
// most widestBand of what its options could take. Cells are steps of the sum, and
// of the price within.
const (
	mostPaired = 4_000
	mostHalf   = 4096
	widestBand = 0.25
	leastBand  = 0.01
	sumSteps   = 32
	priceSteps = 32
	waySteps   = 32
)

// halved goes through all choices left in a node, or reports that they are too
// many; can is false where no sum is held closely on both sides.
func (s *search) halved(n *node, spare float64) (done, can bool) {
	w := &s.sweep
	about := w.about(s, n, spare)
	if about > mostPaired/leastBand {
		return false, true
	}
	w.pick(s, n, spare)
	switch band := w.pair(s); {
	case band > widestBand:
		return false, false
	case about*max(band, leastBand) > mostPaired:
		return false, true
	}
	w.byGrowth(s, n)
	w.lay(s, n)
	w.one.start(w.words)
	w.two.start(w.words)
	for d := range w.open {
		part := &w.one
		if len(w.two.code) < len(part.code) {
			part = &w.two
		}
		w.extend(part, d)
		s.charge(len(part.left))
		if len(part.code) == 0 {
			return true, true
		}
		if len(part.code) > mostHalf {
			return false, true
		}
	}
	w.sort()
	s.charge(w.join(s))
	return true, true
}

// pair puts the lanes in the order of how narrow a band their sum is held in, the
// two of the narrowest last, and returns that band, as a share of what the options
// could take; it is infinite where no sum is held on both sides.
func (w *sweep) pair(s *search) float64 {
	for i := range w.lanes[1:] {
		l := &w.lanes[1+i]
		l.tight = w.band(s, s.m.pairOf(l.line))
	}
	slices.SortStableFunc(w.lanes[1:], func(a, b lane) int {
		return cmp.Or(cmp.Compare(a.tight, b.tight), cmp.Compare(s.m.pairOf(a.line), s.m.pairOf(b.line)))
	})
	if len(w.lanes) < 3 || s.m.turned[w.lanes[1].line] != w.lanes[2].line {
		return math.Inf(1)
	}
	w.lanes = append(w.lanes, w.lanes[1], w.lanes[2])
	w.lanes = slices.Delete(w.lanes, 1, 3)
	return w.lanes[len(w.lanes)-1].tight
}

// pairOf is the first of a line and the one turned.
func (m *model) pairOf(line int) int {
	if o := m.turned[line]; o >= 0 {
		return min(line, o)
	}
	return line
}

// band is how much room a sum has between its bounds.
func (w *sweep) band(s *search, line int) float64 {
	o := s.m.turned[line]
	if o < 0 {
		return math.Inf(1)
	}
	room := s.m.plain[line].b - s.room[line] + s.m.plain[o].b - s.room[o]
	return room/w.reach[line] - 1
}

// about is roughly how many choices keep to the price.
func (h *halves) about(s *search, n *node, spare float64) float64 {
	h.ways, h.more = resize(h.ways, waySteps+1), resize(h.more, waySteps+1)
	clear(h.ways)
	h.ways[0] = 1
	for g, count := range n.count {
		if count < 2 {
			continue
		}
		clear(h.more)
		for _, c := range n.options(s.m, g) {
			step := (s.price[c]-s.floor[g])/spare*waySteps + 0.5
			if step >= waySteps+1 {
				continue
			}
			more := h.more[int(step):]
			for i, v := range h.ways[:len(more)] {
				more[i] += v
			}
		}
		s.charge(int(count) * waySteps)
		h.ways, h.more = h.more, h.ways
	}
	var sum float64
	for _, v := range h.ways {
		sum += v
	}
	return sum
}

// byGrowth ranks the groups by how little they lengthen a list of partial choices,
// which have used up most of the price: the lists on the way stay short.
func (w *sweep) byGrowth(s *search, n *node) {
	w.rank = resize(w.rank, len(n.count))
	for g, count := range n.count {
		w.rank[g] = 0
		if count == 1 {
			continue
		}
		for _, c := range n.options(s.m, g) {
			left := 1 - float64(w.lanes[0].take(s.price[c]-s.floor[g]))/laneTop
			w.rank[g] -= left * left * left * left
		}
	}
}

// start is the one choice of no group.
func (p *partial) start(words int) {
	p.groups, p.left, p.code = p.groups[:0], p.left[:0], append(p.code[:0], 0)
	for range words {
		p.left = append(p.left, math.MaxUint64)
	}
}

// extend puts every option of open group d to every choice of a part.
func (w *sweep) extend(p *partial, d int) {
	words, options := w.words, w.first[d+1]-w.first[d]
	takes := w.takes[w.first[d]*words : w.first[d+1]*words]
	left := resize(w.spare.left, len(p.left)*options)
	code := resize(w.spare.code, len(p.code)*options)
	at := 0
	for i, c := range p.code {
		from := p.left[i*words : (i+1)*words]
		for j := range options {
			take := takes[j*words : (j+1)*words]
			v := from[0] - take[0]
			if v&guard == 0 {
				break // the others cost more
			}
			broken := ^v
			if broken&guards != 0 {
				continue
			}
			to := left[at*words : (at+1)*words]
			to[0] = v
			for k := 1; k < len(to) && k < len(from) && k < len(take); k++ {
				v := from[k] - take[k]
				to[k] = v
				broken |= ^v
			}
			if broken&guards == 0 {
				code[at] = c*uint64(options) + uint64(j)
				at++
			}
		}
	}
	w.spare.left, w.spare.code = p.left, p.code
	p.left, p.code = left[:at*words], code[:at]
	p.groups = append(p.groups, d)
}

// taken is how much of a lane is gone.
func taken(left []uint64, lane int) int { return laneTop - room(left, lane) }

// room is how much of a lane is left.
func room(left []uint64, lane int) int {
	return int(left[lane/4]>>(laneBits*(lane%4))) & laneTop
}

// step is the step of a figure of the sum.
func (h *halves) step(sum int) int { return (sum - h.least) * sumSteps / (h.most - h.least + 1) }

// sort puts the second part's choices in order, cell by cell.
func (w *sweep) sort() {
	h, p, last := &w.halves, &w.two, len(w.lanes)-1
	h.least, h.most = laneTop, 0
	for i := range p.code {
		sum := taken(p.left[i*w.words:(i+1)*w.words], last)
		h.least, h.most = min(h.least, sum), max(h.most, sum)
	}
	h.cell, h.order, h.takes = resize(h.cell, len(p.code)), resize(h.order, len(p.code)), resize(h.takes, len(p.code))
	h.end, h.low = resize(h.end, sumSteps*priceSteps+1), resize(h.low, sumSteps)
	clear(h.end)
	for i := range h.low {
		h.low[i] = laneTop
	}
	for i := range p.code {
		left := p.left[i*w.words : (i+1)*w.words]
		step := h.step(taken(left, last))
		h.low[step] = min(h.low[step], taken(left, last-1))
		h.cell[i] = int32(step*priceSteps + taken(left, 0)*priceSteps/(laneTop+1))
		h.end[h.cell[i]+1]++
	}
	for i := 1; i < sumSteps; i++ {
		h.low[i] = min(h.low[i], h.low[i-1])
	}
	for i := 1; i < len(h.end); i++ {
		h.end[i] += h.end[i-1]
	}
	for i, c := range h.cell {
		at := h.end[c]
		h.order[at], h.takes[at] = int32(i), math.MaxUint64-p.left[i*w.words]
		h.end[c]++
	}
}

// join tries each choice of the first part with those of the second that fit it,
// and returns how many it looked at.
func (w *sweep) join(s *search) (looked int) {
	h, last := &w.halves, len(w.lanes)-1
	for i := range w.one.code {
		left := w.one.left[i*w.words : (i+1)*w.words]
		sum, other := room(left, last), room(left, last-1)
		if sum < h.least {
			continue
		}
		price := room(left, 0) * priceSteps / (laneTop + 1)
		for step := h.step(min(sum, h.most)); step >= 0 && h.low[step] <= other; step-- {
			var from int32
			if step > 0 {
				from = h.end[step*priceSteps-1]
			}
			to := h.end[step*priceSteps+price]
			looked += int(to-from) + 1
			for j, takes := range h.takes[from:to] {
				if ^(left[0]-takes)&guards == 0 {
					if w.both(s, i, int(h.order[int(from)+j])); s.enough() {
						return looked
					}
				}
			}
		}
	}
	return looked
}

// both tries a choice of the first part with one of the second, if no line is
// broken.
func (w *sweep) both(s *search, i, j int) {
	one, two := w.one.left[i*w.words:(i+1)*w.words], w.two.left[j*w.words:(j+1)*w.words]
	for k := range one {
		if ^(one[k]-(math.MaxUint64-two[k]))&guards != 0 {
			return
		}
	}
	w.choose(s, &w.one, i)
	w.choose(s, &w.two, j)
	s.try()
}

// choose writes down a part's options.
func (w *sweep) choose(s *search, p *partial, i int) {
	code := p.code[i]
	for k := len(p.groups) - 1; k >= 0; k-- {
		d := p.groups[k]
		options := uint64(w.first[d+1] - w.first[d])
		g := w.open[d]
		s.chosen[g] = int(w.cols[w.first[d]+int(code%options)]) - s.m.off[g]
		code /= options
	}
}
