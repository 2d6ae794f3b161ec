package choice

import "math"

// branch is the option to try first, or -1 where every group is down to one.
// Among the groups that the relaxation mixes it takes the one whose options
// differ most in the lines, weighted by what earlier branchings on the group did
// for the bound; where none is mixed, the first open group. The second value is
// how much the options differ.
func (s *search) branch(n *node) (pick int32, spread float64) {
	pick = -1
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
		differ := 0.0
		if n.x[top] < 1-1e-6 {
			differ = s.spread(n, live)
		}
		if score := differ * s.record.effect(g); pick < 0 || score > worst {
			worst, pick, spread = score, top, differ
		}
	}
	return pick, spread
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

// branching is one on a group whose options differed by spread, where the
// relaxation's value was before.
type branching struct {
	group          int
	spread, before float64
}

// record is what branchings have done for the bound so far, for each unit of
// spread.
type record struct {
	gain, times []float64 // by group
	all         float64   // gains of all groups
	count       float64   // branchings of all groups
}

func newRecord(groups int) record {
	return record{gain: make([]float64, groups), times: make([]float64, groups)}
}

// learn takes down what became of a branching's one side: the relaxation's value
// there, or just past the limit where nothing was left of it.
func (s *search) learn(b branching, after float64) {
	if b.spread == 0 || math.IsInf(after, 1) {
		return
	}
	gain := max(after-b.before, 0) / b.spread
	s.record.gain[b.group] += gain
	s.record.times[b.group]++
	s.record.all += gain
	s.record.count++
}

// fewBranchings is how many branchings of average effect every group starts with.
const fewBranchings = 4

// effect is the mean effect of branchings on a group, pulled towards that of
// all groups where there were few.
func (r *record) effect(g int) float64 {
	if r.all == 0 {
		return 1
	}
	return (r.gain[g] + fewBranchings*r.all/r.count) / (r.times[g] + fewBranchings)
}
