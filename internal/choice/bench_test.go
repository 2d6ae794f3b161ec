package choice

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkSolve reports the median and the largest time over the problems of a
// family, in milliseconds; problems not done in 3 s are counted as stopped.
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
	b.Run("portions", func(b *testing.B) {
		measure(b, func(seed uint64) Problem { return portions(seed, false) })
	})
	b.Run("portions 3 levels", func(b *testing.B) {
		measure(b, func(seed uint64) Problem { return portions(seed, true) })
	})
}

func measure(b *testing.B, build func(seed uint64) Problem) {
	const problems = 10
	var took []float64
	var stopped float64
	for range b.N {
		for seed := range uint64(problems) {
			p := build(seed)
			begin := time.Now()
			sol, err := Solve(p, Budget{Time: 3 * time.Second}, time.Now)
			took = append(took, time.Since(begin).Seconds()*1e3)
			require.NoError(b, err)
			if sol.Status == Stopped {
				stopped++
			}
		}
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2], "ms-median")
	b.ReportMetric(took[len(took)-1], "ms-max")
	b.ReportMetric(stopped/float64(b.N), "stopped")
	b.ReportMetric(0, "ns/op")
}
