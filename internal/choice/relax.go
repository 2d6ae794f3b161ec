package choice

import (
	"math"
)

// relax bounds the node by the relaxation and bans options that cannot be part
// of a choice within the limit; it reports false where no such choice is left.
func (s *search) relax(n *node, rounds int) bool {
	slack := math.Abs(s.limit) * 1e-9
	if math.IsInf(s.limit, 1) {
		slack = 0
	}
	ceiling := s.limit + s.goal.unit*1e-6 + slack
	for round := 0; ; round++ {
		state, i, sign := n.tab.solve(n.alive, ceiling)
		s.charge(n.tab.took())
		switch state {
		case blocked:
			s.lambda = n.tab.ray(i, sign, s.lambda)
			if s.impossible(n) {
				s.log.step(n, s.lambda, false)
				return false
			}
		case over:
			s.lambda = n.tab.multipliers(s.lambda)
			if !s.bound(n) {
				return false
			}
			ceiling = math.Inf(1)
			continue
		}
		n.tab.point(n)
		if state == solved && round < rounds && s.separate(n) {
			continue
		}
		before := n.banned
		s.lambda = n.tab.multipliers(s.lambda)
		if !s.bound(n) {
			return false
		}
		if s.rounded(n) && s.goal.any {
			return false
		}
		if n.banned == before {
			return true
		}
		if !s.propagate(n) {
			return false
		}
		if s.supported(n) {
			return true
		}
		rounds = max(rounds, round+2)
	}
}

// rounded tries the choice nearest to the mix.
func (s *search) rounded(n *node) bool {
	for g := range s.chosen {
		live := n.options(s.m, g)
		top := live[0]
		for _, c := range live {
			if n.x[c] > n.x[top] || n.x[c] == n.x[top] && c < top {
				top = c
			}
		}
		s.chosen[g] = int(top) - s.m.off[g]
	}
	return s.try()
}

// supported tells whether the mix uses allowed options only.
func (s *search) supported(n *node) bool {
	for c, x := range n.x {
		if x > tinyValue && !n.alive[c] {
			return false
		}
	}
	return true
}

// bound computes, for the multipliers in s.lambda,
//
//	Σ_group min_option ( cost + Σ λ a ) - Σ λ b,
//
// which is no more than the value of any choice that keeps the cuts, whatever
// the multipliers. It bans options whose own bound is past the limit and
// reports false where the whole bound is.
func (s *search) bound(n *node) bool {
	lower, slip := s.lagrange(n, s.goal.cost)
	s.proved = lower - slip
	n.lower = max(n.lower, s.proved)
	if n == s.stack[0] {
		s.raise(lower - slip)
	}
	room := s.limit - lower + slip
	if room < 0 {
		s.log.step(n, s.lambda, true)
		return false
	}
	before := n.banned
	for g, least := range s.floor {
		live := n.options(s.m, g)
		for i := len(live) - 1; i >= 0; i-- {
			if s.price[live[i]]-least > room {
				n.ban(s.m, live[i])
			}
		}
	}
	if n.banned > before {
		s.log.step(n, s.lambda, true)
	}
	return true
}

// impossible tells whether the multipliers prove that no choice keeps the cuts.
func (s *search) impossible(n *node) bool {
	lower, slip := s.lagrange(n, nil)
	return lower > slip
}

// lagrange leaves prices of the allowed columns and their least by group, and
// returns the bound and how much of it may be rounding. No cost counts where cost
// is nil.
func (s *search) lagrange(n *node, cost []float64) (lower, slip float64) {
	var size, fixed float64
	groups := float64(len(s.floor))
	s.terms = s.terms[:0]
	for k, f := range s.lambda {
		if f == 0 {
			continue
		}
		c := n.tab.cuts[k]
		fixed += f * c.of.b
		size += f * (math.Abs(c.of.b) + c.size*groups)
		s.terms = append(s.terms, term{f, c.a})
	}
	s.charge((len(s.terms) + 1) * s.m.n)
	var far float64
	for g := range s.floor {
		least := math.Inf(1)
		for _, c := range n.options(s.m, g) {
			var price float64
			if cost != nil {
				price = cost[c]
			}
			for i := range s.terms {
				price += s.terms[i].factor * s.terms[i].a[c]
			}
			s.price[c] = price
			least = min(least, price)
			far = max(far, math.Abs(price))
		}
		s.floor[g] = least
		lower += least
	}
	size += far * groups
	return lower - fixed, roundingShare * size
}

// term is a cut's figures by column and its multiplier.
type term struct {
	factor float64
	a      []float64
}
