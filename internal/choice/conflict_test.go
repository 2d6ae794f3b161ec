package choice

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestConflictIsIrreducible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		for range rapid.IntRange(0, 3).Draw(t, "more rows") {
			p.Rows = append(p.Rows, drawRow(t, p))
		}
		rows, status, err := Conflict(p, 0)
		require.NoError(t, err)
		if bruteForce(p) != nil {
			require.Equal(t, Optimal, status)
			require.Nil(t, rows)
			return
		}
		require.Equal(t, Infeasible, status)
		require.True(t, slices.IsSorted(rows))
		require.Nil(t, bruteForce(only(p, rows)), "the rows conflict")
		for i := range rows {
			less := slices.Delete(slices.Clone(rows), i, i+1)
			require.NotNil(t, bruteForce(only(p, less)), "row %d can be spared", rows[i])
		}
	})
}

func only(p Problem, rows []int) Problem {
	all := p.Rows
	p.Rows = nil
	for _, r := range rows {
		p.Rows = append(p.Rows, all[r])
	}
	return p
}

func TestConflictThatRunsOutOfBudgetSaysStopped(t *testing.T) {
	f := families[3].sized(12, 6)
	f.impossible = true
	p := f.make(1)
	for work := Budget(1); work < 2_000_000; work += 1 + work/3 {
		rows, status, err := Conflict(p, work)
		require.NoError(t, err)
		if rows == nil {
			require.NotEqual(t, Infeasible, status)
			continue
		}
		sol, err := Solve(only(p, rows), 0)
		require.NoError(t, err)
		require.Equal(t, Infeasible, sol.Status)
	}
}

func TestAConflictOfFortyLinesIsIrreducible(t *testing.T) {
	for seed := range uint64(8) {
		p := clashing(seed)
		rows, status, err := Conflict(p, 0)
		require.NoError(t, err)
		require.Equal(t, Infeasible, status)
		for i := range rows {
			sol, err := Solve(only(p, slices.Delete(slices.Clone(rows), i, i+1)), Second/20)
			require.NoError(t, err)
			require.NotNil(t, sol.Chosen, "seed %d: row %d can be spared", seed, rows[i])
		}
	}
}
