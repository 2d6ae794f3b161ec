package choice

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestExtremeEqualsTryingEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		p.Rows = append(p.Rows, drawRow(t, p))
		row := rapid.IntRange(0, len(p.Rows)-1).Draw(t, "row")
		apart := p
		apart.Rows = nil
		want := math.Inf(1)
		everyChoice(p, func(chosen []int) {
			if plainHolds(apart, chosen) {
				want = min(want, plainValue(p.Rows[row], chosen))
			}
		})
		least, sol, err := Extreme(p, row, 0)
		require.NoError(t, err)
		if math.IsInf(want, 1) {
			require.Equal(t, Infeasible, sol.Status)
			require.Equal(t, want, least)
			return
		}
		require.Equal(t, Optimal, sol.Status)
		require.True(t, plainHolds(apart, sol.Chosen))
		require.InDelta(t, least, plainValue(p.Rows[row], sol.Chosen), 1e-12*max(1, math.Abs(least)))
		require.InDelta(t, want, least, 2*Tolerance*max(1, math.Abs(p.Rows[row].Bound)))
	})
}
