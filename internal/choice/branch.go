package choice

import "math"

// branch is the option to try first, or -1 where every group is down to one.
// Among the groups that the relaxation mixes it takes the one whose options
// differ most in the lines; where none is mixed, the first open group.
func (s *search) branch(n *node) int32 {
	var pick int32 = -1
	worst := -1.0
	for g := range n.count {
		live := n.options(s.m, g)
		if len(live) < 2 {
			continue
		}
		top := live[0]
		for _, c := range live {
			if n.x[c] > n.x[top] || n.x[c] == n.x[top] && c < top {
				top = c
			}
		}
		spread := 0.0
		if n.x[top] < 1-1e-6 {
			spread = s.spread(n, live)
		}
		if pick < 0 || spread > worst {
			worst, pick = spread, top
		}
	}
	return pick
}

// spread is how far the mixed options of a group lie from their mean, added
// over the lines.
func (s *search) spread(n *node, live []int32) float64 {
	var total float64
	s.charge(2 * len(s.m.lines) * len(live))
	for _, l := range s.m.lines {
		var mean float64
		for _, c := range live {
			mean += n.x[c] * l.a[c]
		}
		for _, c := range live {
			if n.x[c] > 0 {
				total += n.x[c] * math.Abs(l.a[c]-mean)
			}
		}
	}
	return total
}

// farther parts a group around the option c that is to be tried first: those
// nearer, in cost and in the lines, to the group's other weighty option come to
// the front of the group's options, and their number is given back. Parting a
// group in two moves the relaxation on both sides, where banning a single option
// of several alike hardly moves it.
func (s *search) farther(n *node, c int32) int {
	live := n.options(s.m, int(s.m.grp[c]))
	other := int32(-1)
	for _, o := range live {
		if o != c && (other < 0 || n.x[o] > n.x[other] || n.x[o] == n.x[other] && o < other) {
			other = o
		}
	}
	front := 0
	for i, o := range live {
		if o == other || o != c && s.apart(o, other) <= s.apart(o, c) {
			live[i], live[front] = live[front], o
			front++
		}
	}
	return front
}

// costShare is how much of a difference in cost counts beside differences in
// lines, which are scaled to about 1 at most.
const costShare = 0.1

// apart is how much two options differ.
func (s *search) apart(a, b int32) float64 {
	sum := costShare * math.Abs(s.goal.cost[a]-s.goal.cost[b])
	for _, l := range s.m.lines {
		sum += math.Abs(l.a[a] - l.a[b])
	}
	return sum
}
