package choice

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestSolveEqualsTryingEveryChoiceOfTightFamilies(t *testing.T) {
	for _, f := range families {
		for _, cone := range []bool{false, true} {
			for seed := range uint64(25) {
				f.cone, f.fine, f.rows = cone, seed%2 == 0, 4+int(seed%5)
				p := f.sized(6, 4).make(seed)
				sol, err := Solve(p, 0)
				require.NoError(t, err)
				require.Equal(t, bruteForce(p), sol.Chosen, "%s, seed %d", f, seed)
			}
		}
	}
}

func TestAnAnswerCarriesItsProof(t *testing.T) {
	for seed := range uint64(6) {
		for _, p := range []Problem{portions(seed, true), families[1].sized(20, 8).make(seed)} {
			sol, err := Solve(p, 0)
			require.NoError(t, err)
			require.Equal(t, Optimal, sol.Status)
			require.True(t, plainHolds(p, sol.Chosen))
			require.Equal(t, plainCost(p, sol.Chosen), sol.Cost)
			require.Equal(t, sol.Cost[0], sol.Bound)
		}
	}
}

func TestOrderOfGroupsAndRowsDoesNotChangeTheCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		seed := rapid.Uint64().Draw(t, "order")
		r := rand.New(rand.NewPCG(seed, 1))
		a, err := Solve(p, 0)
		require.NoError(t, err)
		b, err := Solve(shuffled(p, r), 0)
		require.NoError(t, err)
		require.Equal(t, a.Status, b.Status)
		require.Equal(t, a.Cost, b.Cost)
	})
}

func shuffled(p Problem, r *rand.Rand) Problem {
	order := r.Perm(len(p.Groups))
	to := make([]int, len(order))
	q := Problem{}
	for i, g := range order {
		to[g] = i
		q.Groups = append(q.Groups, p.Groups[g])
	}
	for _, i := range r.Perm(len(p.Rows)) {
		row := Row{Bound: p.Rows[i].Bound}
		for _, g := range order {
			row.Mid = append(row.Mid, p.Rows[i].Mid[g])
			if p.Rows[i].Loads != nil {
				row.Loads = append(row.Loads, p.Rows[i].Loads[g])
			}
		}
		q.Rows = append(q.Rows, row)
	}
	for _, set := range p.Apart {
		var moved []Pick
		for _, k := range set {
			moved = append(moved, Pick{to[k.Group], k.Option})
		}
		q.Apart = append(q.Apart, moved)
	}
	return q
}

func TestOneMoreRowNeverLowersTheCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		before, err := Solve(p, 0)
		require.NoError(t, err)
		p.Rows = append(p.Rows, drawRow(t, p))
		after, err := Solve(p, 0)
		require.NoError(t, err)
		if after.Status == Optimal {
			require.Equal(t, Optimal, before.Status)
			require.GreaterOrEqual(t, slices.Compare(after.Cost, before.Cost), 0)
		}
	})
}

func TestABudgetIsKeptAndNeverClaimsAProof(t *testing.T) {
	p := families[2].sized(14, 6).make(3)
	best, err := Solve(p, 0)
	require.NoError(t, err)
	for work := Budget(1); work < best.Work+2; work += 1 + work/3 {
		sol, err := Solve(p, work)
		require.NoError(t, err)
		require.LessOrEqual(t, sol.Nodes, best.Nodes)
		require.LessOrEqual(t, sol.Bound, best.Cost[0])
		require.NotEqual(t, Infeasible, sol.Status)
		if sol.Chosen != nil {
			require.True(t, plainHolds(p, sol.Chosen))
		}
		if sol.Status == Optimal {
			require.Equal(t, best.Chosen, sol.Chosen)
		}
	}
}

func TestAStoppedSearchStopsAtTheSameNodeEachTime(t *testing.T) {
	p := families[2].sized(14, 6).make(3)
	first, err := Solve(p, Second/10_000)
	require.NoError(t, err)
	require.Equal(t, Stopped, first.Status)
	again, err := Solve(p, Second/10_000)
	require.NoError(t, err)
	assert.Equal(t, first, again)
}

func TestMalformedProblemsSayWhatAndWhere(t *testing.T) {
	two := []Group{{Options: []Option{{Cost: []int64{1}}, {Cost: []int64{2}}}}}
	for _, c := range []struct {
		name, want string
		p          Problem
	}{
		{"a group without options", "group 0: has no option", Problem{Groups: []Group{{}}}},
		{"levels that differ", "group 0, option 1: 2 cost levels, expected 1",
			Problem{Groups: []Group{{Options: []Option{{Cost: []int64{1}}, {Cost: []int64{1, 2}}}}}}},
		{"costs past exact sums", "cost level 0", Problem{Groups: []Group{{Options: []Option{{Cost: []int64{math.MinInt64}}, {Cost: []int64{math.MaxInt64}}}}}}},
		{"a row of another shape", "row 0 (salt): mid has 0 groups, expected 1", Problem{Groups: two, Rows: []Row{{Name: "salt"}}}},
		{"too few mids", "row 0 (salt): group 0: mid has 1 options, expected 2",
			Problem{Groups: two, Rows: []Row{{Name: "salt", Mid: [][]float64{{1}}}}}},
		{"a mid that is no number", "group 0, option 1: mid is NaN",
			Problem{Groups: two, Rows: []Row{{Mid: [][]float64{{1, math.NaN()}}}}}},
		{"an endless bound", "bound is +Inf", Problem{Groups: two, Rows: []Row{{Bound: math.Inf(1)}}}},
		{"loads of another shape", "loads have 2 groups, expected 1",
			Problem{Groups: two, Rows: []Row{{Mid: [][]float64{{1, 1}}, Loads: make([][][]Load, 2)}}}},
		{"a load that is no number", "group 0, option 0, factor 3: load is -Inf",
			Problem{Groups: two, Rows: []Row{{Mid: [][]float64{{1, 1}}, Loads: [][][]Load{{{{3, math.Inf(-1)}}, nil}}}}}},
		{"a pick that is not there", "apart set 0: there is no option 2 of group 0",
			Problem{Groups: two, Apart: [][]Pick{{{0, 2}}}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Solve(c.p, 0)
			require.ErrorContains(t, err, c.want)
		})
	}
}

func TestAProblemWithoutGroupsIsSolvedByNoChoice(t *testing.T) {
	sol, err := Solve(Problem{}, 0)
	require.NoError(t, err)
	assert.Equal(t, Optimal, sol.Status)
	assert.Empty(t, sol.Chosen)
	sol, err = Solve(Problem{Rows: []Row{{Bound: -1}}}, 0)
	require.NoError(t, err)
	assert.Equal(t, Infeasible, sol.Status)
}

func TestExtremeCountsOptionsThatOnlyLowerTheRowAskedFor(t *testing.T) {
	// Found by drawing: equal costs and an option that is lower in the row alone.
	p := Problem{
		Groups: []Group{{Options: []Option{{Cost: []int64{0}}, {Cost: []int64{0}}}}, {Options: []Option{{Cost: []int64{0}}}}},
		Rows:   []Row{{Mid: [][]float64{{0, -1}, {-1}}}},
	}
	least, _, err := Extreme(p, 0, 0)
	require.NoError(t, err)
	assert.InDelta(t, -2, least, 1e-12)
}

func TestOptionsThatHardlyDifferInARowAreNotMistakenForAConflict(t *testing.T) {
	// Found by drawing: mids that differ by 1e-155 beside a load under a shared factor.
	free := []Option{{Cost: []int64{0}}}
	p := Problem{
		Groups: []Group{{Options: free}, {Options: free}, {Options: []Option{free[0], free[0]}}},
		Rows: []Row{{
			Bound: -0.5,
			Mid:   [][]float64{{-1}, {-1}, {0, -1.8645851828000517e-155}},
			Loads: [][][]Load{{nil}, {{{2, 1.5}}}, {nil, {{2, -1}}}},
		}},
	}
	rows, status, err := Conflict(p, 0)
	require.NoError(t, err)
	assert.Equal(t, Optimal, status)
	assert.Nil(t, rows)
	sol, err := Solve(p, 0)
	require.NoError(t, err)
	assert.Equal(t, []int{0, 0, 0}, sol.Chosen)
}

func TestExtremeOfAllButZeroNumbersEnds(t *testing.T) {
	// Found by drawing: scaling a row of denormal numbers overflowed.
	p := Problem{
		Groups: []Group{{Options: []Option{{Cost: []int64{0}}}}},
		Rows:   []Row{{Mid: [][]float64{{5e-324}}}},
	}
	least, sol, err := Extreme(p, 0, 0)
	require.NoError(t, err)
	assert.Equal(t, Optimal, sol.Status)
	assert.InDelta(t, 0, least, 1e-12)
}
