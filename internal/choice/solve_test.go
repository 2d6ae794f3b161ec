package choice

import (
	"maps"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// plainCost, plainValue and plainHolds are written from the words of the
// contract alone, as a check on the code under test.
func plainCost(p Problem, chosen []int) []int64 {
	cost := make([]int64, len(p.Groups[0].Options[0].Cost))
	for g, o := range chosen {
		for l := range cost {
			cost[l] += p.Groups[g].Options[o].Cost[l]
		}
	}
	return cost
}

func plainValue(row Row, chosen []int) float64 {
	var mid float64
	sums := map[int]float64{}
	for g, o := range chosen {
		mid += row.Mid[g][o]
		if row.Loads != nil {
			for _, load := range row.Loads[g][o] {
				sums[load.Factor] += load.Half
			}
		}
	}
	var squares float64
	for _, f := range slices.Sorted(maps.Keys(sums)) {
		squares += sums[f] * sums[f]
	}
	return mid + math.Sqrt(squares)
}

func plainHolds(p Problem, chosen []int) bool {
	for _, row := range p.Rows {
		if plainValue(row, chosen)-row.Bound > Tolerance*math.Max(1, math.Abs(row.Bound)) {
			return false
		}
	}
	for _, set := range p.Apart {
		taken := map[Pick]bool{}
		for _, k := range set {
			if chosen[k.Group] == k.Option {
				taken[k] = true
			}
		}
		if len(taken) > 1 {
			return false
		}
	}
	return true
}

func TestSolveEqualsTryingEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		want := bruteForce(p)
		got, err := Solve(p, 0)
		require.NoError(t, err)
		if want == nil {
			require.Equal(t, Infeasible, got.Status)
			require.Nil(t, got.Chosen)
			return
		}
		require.Equal(t, Optimal, got.Status)
		require.Equal(t, want, got.Chosen)
		require.Equal(t, plainCost(p, want), got.Cost)
		require.Equal(t, got.Cost[0], got.Bound)
	})
}
