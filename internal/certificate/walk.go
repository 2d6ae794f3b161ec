package certificate

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// walk goes through a proof.
type walk struct {
	p      *Problem
	target float64 // every choice must be shown to cost more; +Inf: to clash
	kinds  []sides // by row
	report Report
}

// node verifies a node with the options allowed there, which it may take away
// from.
func (w *walk) node(n *Node, allowed [][]bool, path []Pick) error {
	if n == nil {
		return errors.New("the proof ends before every choice is ruled out")
	}
	w.report.Nodes++
	bound := math.Inf(1) // of the step that closes, where that counts costs
	for i, s := range n.Steps {
		lower, err := w.step(s, allowed)
		if err != nil {
			return fmt.Errorf("node %d, step %d: %w", w.report.Nodes, i, err)
		}
		if s.Cost && lower > w.target {
			bound = min(bound, lower)
		}
	}
	if empty(allowed) {
		w.report.Closed = append(w.report.Closed, Case{Path: slices.Clone(path), Bound: bound})
		return nil
	}
	if n.In == nil || n.Out == nil {
		return fmt.Errorf("node %d: is not closed by its steps and has no branch", w.report.Nodes)
	}
	if n.Group < 0 || n.Group >= len(allowed) {
		return fmt.Errorf("node %d: branches on group %d, there are %d", w.report.Nodes, n.Group, len(allowed))
	}
	for _, in := range []bool{true, false} {
		part := make([][]bool, len(allowed))
		for g := range part {
			part[g] = slices.Clone(allowed[g])
		}
		for o := range part[n.Group] {
			if slices.Contains(n.First, o) != in {
				part[n.Group][o] = false
			}
		}
		to, next := path, n.Out
		if in {
			next = n.In
		}
		if o, one := only(part[n.Group]); one {
			to = append(slices.Clone(path), Pick{n.Group, o})
		}
		if err := w.node(next, part, to); err != nil {
			return err
		}
	}
	return nil
}

// empty tells whether some group has no option left, so that there is no choice.
func empty(allowed [][]bool) bool {
	for _, of := range allowed {
		if !slices.Contains(of, true) {
			return true
		}
	}
	return false
}

func only(of []bool) (option int, one bool) {
	option = slices.Index(of, true)
	return option, option >= 0 && !slices.Contains(of[option+1:], true)
}

// step takes away the options that the step rules out, all of a group where it
// closes the node, and returns its bound.
func (w *walk) step(s Step, allowed [][]bool) (float64, error) {
	sum, err := w.add(s)
	if err != nil {
		return 0, err
	}
	target := 0.0
	if s.Cost {
		target = w.target
	}
	least := make([]float64, len(allowed))
	var lower float64
	size := sum.size
	for g, of := range allowed {
		least[g] = math.Inf(1)
		var far float64
		for o, ok := range of {
			if ok {
				least[g] = min(least[g], sum.price[g][o])
				far = max(far, sum.weight[g][o])
			}
		}
		lower += least[g]
		size += far
	}
	lower -= sum.fixed
	// The usual bound on the rounding of a sum, twice over, and its own.
	margin := 2 * float64(len(allowed)+sum.terms+8) * 0x1p-53 * size
	if !(margin < math.Inf(1)) {
		return 0, errors.New("its numbers are out of range")
	}
	for g, of := range allowed {
		for o, ok := range of {
			if ok && lower-margin+(sum.price[g][o]-least[g]) > target {
				of[o] = false
			}
		}
	}
	return lower - margin, nil
}

// total is cuts added up: what each option brings, and the bound.
type total struct {
	price  [][]float64 // by group, option
	weight [][]float64 // the sizes of what was added
	fixed  float64
	size   float64
	terms  int // how many numbers at most one price is made of
}

func (w *walk) add(s Step) (total, error) {
	var t total
	for g := range w.p.Groups {
		price := make([]float64, len(w.p.Groups[g].Options))
		weight := make([]float64, len(price))
		for o, option := range w.p.Groups[g].Options {
			if s.Cost {
				price[o] = float64(option.Cost)
				weight[o] = math.Abs(price[o])
			}
		}
		t.price, t.weight = append(t.price, price), append(t.weight, weight)
	}
	for i, c := range s.Cuts {
		if err := w.addCut(&t, c); err != nil {
			return t, fmt.Errorf("cut %d: %w", i, err)
		}
	}
	return t, nil
}

func (w *walk) addCut(t *total, c Cut) error {
	if !(c.Factor >= 0 && c.Factor < math.Inf(1)) {
		return fmt.Errorf("its factor is %g, expected a number of at least 0", c.Factor)
	}
	if c.Row == -1 {
		return w.addSet(t, c)
	}
	if c.Row < 0 || c.Row >= len(w.p.Rows) {
		return fmt.Errorf("there is no row %d", c.Row)
	}
	row := &w.p.Rows[c.Row]
	own, shared, err := c.weights(len(w.p.Groups))
	if err != nil {
		return err
	}
	t.fixed += c.Factor * row.ceiling()
	t.size += c.Factor * math.Abs(row.ceiling())
	most := 0
	for g, mid := range row.Mid {
		for o, v := range mid {
			t.price[g][o] += c.Factor * v
			t.weight[g][o] += c.Factor * math.Abs(v)
			loads := row.loads(g, o)
			most = max(most, len(loads))
			if len(loads) > 0 {
				sum, size := w.kinds[c.Row].load(loads, own[g], shared, c.Split)
				t.price[g][o] += c.Factor * sum
				t.weight[g][o] += c.Factor * size
			}
		}
	}
	t.terms += 4 + 4*most
	return nil
}

func (w *walk) addSet(t *total, c Cut) error {
	if c.Set < 0 || c.Set >= len(w.p.Apart) {
		return fmt.Errorf("there is no apart set %d", c.Set)
	}
	seen := map[Pick]bool{}
	for _, k := range w.p.Apart[c.Set] {
		if !seen[k] {
			seen[k] = true
			t.price[k.Group][k.Option] += c.Factor
			t.weight[k.Group][k.Option] += c.Factor
		}
	}
	t.fixed += c.Factor
	t.size += c.Factor
	t.terms += 2
	return nil
}

// weights are a cut's weights, shortened where rounding made their norm more
// than 1.
func (c Cut) weights(groups int) (own []float64, shared map[int]float64, err error) {
	own, shared = make([]float64, groups), map[int]float64{}
	for _, k := range c.Own {
		if k.At < 0 || k.At >= groups {
			return nil, nil, fmt.Errorf("a weight is at group %d, there are %d", k.At, groups)
		}
		own[k.At] = k.Of
	}
	for _, k := range c.Shared {
		shared[k.At] = k.Of
	}
	var squares float64
	for _, v := range own {
		squares += v * v
	}
	for _, k := range c.Shared {
		squares += k.Of * k.Of
	}
	norm := math.Sqrt(squares) * (1 + 1e-14)
	if !(norm < 1+1e-9) {
		return nil, nil, fmt.Errorf("its weights have a norm of %g, expected at most 1", norm)
	}
	if norm > 1 {
		for g := range own {
			own[g] /= norm
		}
		for f := range shared {
			shared[f] /= norm
		}
	}
	return own, shared, nil
}
