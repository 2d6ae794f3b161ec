package choice

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func without(p Problem, row int) Problem {
	p.Rows = slices.Delete(slices.Clone(p.Rows), row, row+1)
	return p
}

func TestExtremeEqualsTryingEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		p.Rows = append(p.Rows, drawRow(t, p))
		row := rapid.IntRange(0, len(p.Rows)-1).Draw(t, "row")
		others := without(p, row)
		run := Extreme
		if rapid.Bool().Draw(t, "alone") {
			others.Rows, run = nil, ExtremeAlone
		}
		want := math.Inf(1)
		everyChoice(p, func(chosen []int) {
			if plainHolds(others, chosen) {
				want = min(want, plainValue(p.Rows[row], chosen))
			}
		})
		least, sol, err := run(p, row, 0)
		require.NoError(t, err)
		if math.IsInf(want, 1) {
			require.Equal(t, Infeasible, sol.Status)
			require.Equal(t, want, least)
			return
		}
		require.Equal(t, Optimal, sol.Status)
		require.True(t, plainHolds(others, sol.Chosen))
		require.InDelta(t, least, plainValue(p.Rows[row], sol.Chosen), 1e-12*max(1, math.Abs(least)))
		require.InDelta(t, want, least, 2*Tolerance*max(1, math.Abs(p.Rows[row].Bound)))
	})
}
