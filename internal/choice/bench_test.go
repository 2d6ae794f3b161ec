package choice

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkSolve reports the median and the largest processor time over the
// problems of a family, in milliseconds; problems not done within a
// second's work are counted as stopped. The families of 40 lines with 8 options are those that limits are
// kept for: one-sided, two-sided on every nutrient, rows that differ by person.
func BenchmarkSolve(b *testing.B) {
	for _, groups := range []int{20, 40} {
		for _, f := range families {
			for _, cone := range []bool{false, true} {
				f.cone, f.fine = cone, false
				f := f.sized(groups, 8)
				b.Run(f.String(), func(b *testing.B) { measure(b, f.make) })
				f.fine = true
				b.Run(f.String(), func(b *testing.B) { measure(b, f.make) })
			}
		}
	}
	b.Run("people/linear/40x8", func(b *testing.B) { measure(b, people(40, 8, 8)) })
	b.Run("portions", func(b *testing.B) {
		measure(b, func(seed uint64) Problem { return portions(seed, false) })
	})
	b.Run("portions 3 levels", func(b *testing.B) {
		measure(b, func(seed uint64) Problem { return portions(seed, true) })
	})
}

// BenchmarkLeastCost is BenchmarkSolve of the linear families of 40 lines as far as the
// least cost is proved: without the order among choices of that cost, by which the same
// question always has the same answer.
func BenchmarkLeastCost(b *testing.B) {
	for _, f := range families {
		f.cone, f.fine = false, false
		f := f.sized(40, 8)
		b.Run(f.String(), func(b *testing.B) { measureBy(b, f.make, provesLeast) })
	}
	b.Run("people/linear/40x8", func(b *testing.B) { measureBy(b, people(40, 8, 8), provesLeast) })
}

// provesLeast proves the least cost, if the budget lasts.
func provesLeast(_ testing.TB, p Problem) bool {
	s := newSearch(p, &meter{budget: Second})
	s.dropDominated()
	cost, _ := s.levelCost(0)
	return s.minimise(s.costGoal(cost), math.Inf(1))
}

const perFamily = 30

func measure(b *testing.B, build func(seed uint64) Problem) { measureBy(b, build, solves) }

// solves solves a problem, if the budget lasts.
func solves(t testing.TB, p Problem) bool {
	sol, err := Solve(p, Second)
	require.NoError(t, err)
	return sol.Status != Stopped
}

func measureBy(b *testing.B, build func(seed uint64) Problem, done func(testing.TB, Problem) bool) {
	var took []float64
	var stopped float64
	for range b.N {
		for seed := range uint64(perFamily) {
			p := build(seed)
			begin := cpuTime()
			ok := done(b, p)
			took = append(took, (cpuTime()-begin).Seconds()*1e3)
			if !ok {
				stopped++
			}
		}
	}
	report(b, took)
	b.ReportMetric(stopped/float64(b.N), "stopped")
}

func report(b *testing.B, took []float64) {
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2], "ms-median")
	b.ReportMetric(took[len(took)-1], "ms-max")
	b.ReportMetric(0, "ns/op")
}

// BenchmarkConflict times the smallest set of limits that clash, over dishes of
// 40 lines where one of the limits is out of reach together with others.
func BenchmarkConflict(b *testing.B) {
	var took []float64
	for range b.N {
		for seed := range uint64(perFamily) {
			p := clashing(seed)
			begin := cpuTime()
			rows, status, err := Conflict(p, Second)
			took = append(took, (cpuTime()-begin).Seconds()*1e3)
			require.NoError(b, err)
			require.Equal(b, Infeasible, status)
			require.NotEmpty(b, rows)
		}
	}
	report(b, took)
}

// clashing is a dish of 40 lines with an at-least limit put so high that it
// can't be met beside the at-most limits, though it can by itself.
func clashing(seed uint64) Problem {
	p := families[1].sized(40, 8).make(seed)
	low := p.Rows[0]
	low.Name = "at most " + low.Name
	low = turned(low)
	var least float64
	for g := range low.Mid {
		least += slices.Min(low.Mid[g])
	}
	low.Bound = least * 0.97
	p.Rows = append(p.Rows, low)
	for r := range p.Rows[:3] {
		p.Rows[r].Bound *= 0.98
	}
	return p
}
