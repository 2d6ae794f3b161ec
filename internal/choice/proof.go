package choice

import (
	"fmt"
	"math"

	"potwright/internal/certificate"
)

// Certify proves that a choice costs the least at the first level, or where
// chosen is nil that no choice keeps the rows, and writes the proof down for
// certificate.Check. It searches afresh. Names of groups and options are left to
// the caller. The error is for a malformed problem, a claim that is not true, and
// a budget that ran out before the proof was done.
func Certify(p Problem, chosen []int, budget Budget) (certificate.Certificate, error) {
	if err := check(p); err != nil {
		return certificate.Certificate{}, err
	}
	c := certificate.Certificate{Problem: plain(p), Chosen: chosen, Proof: &certificate.Node{}}
	if p.levels() == 0 && chosen != nil {
		return c, fmt.Errorf("certify: the options have no cost that could be least")
	}
	s := newSearch(p, &meter{budget: budget})
	s.log, s.record = &proofLog{at: c.Proof}, newRecord(len(p.Groups))
	s.goal = s.anyGoal()
	limit := math.Inf(1)
	if chosen != nil {
		cost, _ := s.levelCost(0)
		s.goal = s.costGoal(cost)
		limit = s.goal.value(chosen) - 1
	}
	s.setLimit(limit)
	root := s.at(1)
	root.copyOptions(s.base)
	root.tab.start(s.m, root, s.goal.cost)
	s.explore(1, branching{})
	switch {
	case s.best != nil:
		return c, fmt.Errorf("certify: the claim is not true, options %v keep every row and cost %v", s.best, p.CostOf(s.best))
	case s.out:
		return c, fmt.Errorf("certify: the search was stopped after %d nodes, before the proof was done", s.nodes)
	case s.log.open:
		return c, fmt.Errorf("certify: a choice comes too close to a bound for a proof")
	}
	return c, nil
}

func plain(p Problem) certificate.Problem {
	var q certificate.Problem
	for _, group := range p.Groups {
		var g certificate.Group
		for _, o := range group.Options {
			var cost int64
			if len(o.Cost) > 0 {
				cost = o.Cost[0]
			}
			g.Options = append(g.Options, certificate.Option{Cost: cost})
		}
		q.Groups = append(q.Groups, g)
	}
	for _, row := range p.Rows {
		q.Rows = append(q.Rows, certificate.Row{Name: row.Name, Bound: row.Bound, Mid: row.Mid, Loads: plainLoads(row.Loads)})
	}
	for _, set := range p.Apart {
		var of []certificate.Pick
		for _, k := range set {
			of = append(of, certificate.Pick(k))
		}
		q.Apart = append(q.Apart, of)
	}
	return q
}

func plainLoads(loads [][][]Load) [][][]certificate.Load {
	if loads == nil {
		return nil
	}
	out := make([][][]certificate.Load, len(loads))
	for g := range loads {
		if loads[g] == nil {
			continue
		}
		out[g] = make([][]certificate.Load, len(loads[g]))
		for o := range loads[g] {
			for _, l := range loads[g][o] {
				out[g][o] = append(out[g][o], certificate.Load(l))
			}
		}
	}
	return out
}

// proofLog writes down what the search rests on. A nil log writes nothing.
type proofLog struct {
	at   *certificate.Node
	open bool // something could not be proved
}

// rounds is how often cuts are added at a node: a proof is better short.
func (w *proofLog) rounds() int {
	if w == nil {
		return nodeRounds
	}
	return rootRounds
}

// step writes the cuts with a multiplier.
func (w *proofLog) step(n *node, lambda []float64, cost bool) {
	if w == nil {
		return
	}
	step := certificate.Step{Cost: cost}
	for k, f := range lambda {
		if f > 0 {
			step.Cuts = append(step.Cuts, n.tab.cuts[k].certified(f))
		}
	}
	w.at.Steps = append(w.at.Steps, step)
}

// line writes a line that by itself rules something out.
func (w *proofLog) line(l *line) {
	if w == nil {
		return
	}
	cut := (&cut{of: l}).certified(1)
	w.at.Steps = append(w.at.Steps, certificate.Step{Cuts: []certificate.Cut{cut}})
}

// part writes a branch whose first side is the child, and goes there; it
// returns the other side.
func (w *proofLog) part(m *model, child *node, c int32) *certificate.Node {
	if w == nil {
		return nil
	}
	n := w.at
	n.Group = int(m.grp[c])
	for _, o := range child.options(m, n.Group) {
		n.First = append(n.First, int(o)-m.off[n.Group])
	}
	n.In, n.Out = &certificate.Node{}, &certificate.Node{}
	w.at = n.In
	return n.Out
}

func (w *proofLog) follow(n *certificate.Node) {
	if w != nil {
		w.at = n
	}
}

// certified is the cut times f, in the figures of the problem.
func (c *cut) certified(f float64) certificate.Cut {
	l := c.of
	out := certificate.Cut{Row: l.row, Factor: f * l.unit}
	if l.row < 0 {
		out.Set = l.set
		return out
	}
	if l.cone == nil || c.lean == nil {
		return out
	}
	out.Split = l.twin
	groups := len(c.lean) - len(l.cone.shared)
	for i, v := range c.lean {
		switch {
		case v == 0:
		case i < groups:
			out.Own = append(out.Own, certificate.Weight{At: i, Of: v})
		default:
			out.Shared = append(out.Shared, certificate.Weight{At: l.cone.shared[i-groups].id, Of: v})
		}
	}
	return out
}

// weights are s.parts over norm, as lean uses them.
func (s *search) weights(norm float64) []float64 {
	norm *= 1 + 1e-14
	out := make([]float64, len(s.parts))
	for i, v := range s.parts {
		out[i] = v / norm
	}
	return out
}

// closeLeaf writes why the one choice left does not do: a row that it breaks, by
// the tangent there; or it is the best so far, and the claim is not true.
func (s *search) closeLeaf(n *node) {
	for g := range s.chosen {
		s.chosen[g] = int(n.options(s.m, g)[0]) - s.m.off[g]
	}
	if s.goal.value(s.chosen) > s.limit {
		s.log.at.Steps = append(s.log.at.Steps, certificate.Step{Cost: true})
		return
	}
	if s.try() {
		return
	}
	clear(n.x)
	s.support, s.hits = s.support[:0], s.hits[:0]
	for g, o := range s.chosen {
		c := s.m.off[g] + o
		n.x[c] = 1
		s.support = append(s.support, int32(c))
	}
	for _, l := range s.m.lines {
		value := s.mixed(n, l.a)
		if l.cone != nil {
			value += s.parting(n, l.cone)
		}
		if value > l.b {
			cut := s.tangent(n, l).certified(1)
			s.log.at.Steps = append(s.log.at.Steps, certificate.Step{Cuts: []certificate.Cut{cut}})
			return
		}
	}
	s.log.open = true
}
