package choice

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestKBestEqualsTryingEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		distance := rapid.IntRange(1, 3).Draw(t, "distance")
		var counted []int
		if rapid.Bool().Draw(t, "only some groups count") {
			counted = rapid.SliceOfDistinct(rapid.IntRange(0, len(p.Groups)-1), rapid.ID[int]).Draw(t, "counted")
		}
		found, status, err := KBest(p, 4, counted, distance, 0)
		require.NoError(t, err)
		rest := p
		for _, sol := range found {
			require.Equal(t, Optimal, sol.Status)
			require.Equal(t, bruteForce(rest), sol.Chosen)
			rest.Rows = append(slices.Clone(rest.Rows), rest.away(sol.Chosen, counted, distance))
		}
		if len(found) == 4 {
			require.Equal(t, Optimal, status)
			return
		}
		require.Equal(t, Infeasible, status)
		require.Nil(t, bruteForce(rest))
	})
}
