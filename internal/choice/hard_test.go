package choice

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTwoThousandSmallProblemsEqualTryingEveryChoice draws small hard problems:
// bounds within a few hundredths of a hidden choice, or just past it, on both
// sides, linear and cones, with costs that tie often, and options that exclude
// one another. The seeds in testdata/failed.txt are those that ever failed.
func TestTwoThousandSmallProblemsEqualTryingEveryChoice(t *testing.T) {
	seeds := kept(t)
	problems := uint64(2000)
	if testing.Short() {
		problems = 300
	}
	for seed := range problems {
		seeds = append(seeds, seed)
	}
	for _, seed := range seeds {
		p := hard(seed)
		want := bruteForce(p)
		sol, err := Solve(p, 0)
		require.NoError(t, err)
		require.Equal(t, want, sol.Chosen, "seed %d", seed)
		if want == nil {
			require.Equal(t, Infeasible, sol.Status, "seed %d", seed)
			continue
		}
		require.Equal(t, Optimal, sol.Status, "seed %d", seed)
		require.Equal(t, plainCost(p, want), sol.Cost, "seed %d", seed)
	}
}

// kept are seeds that failed once, one a line; # starts a comment.
func kept(t *testing.T) []uint64 {
	text, err := os.ReadFile(filepath.Join("testdata", "failed.txt"))
	require.NoError(t, err)
	var seeds []uint64
	for line := range strings.Lines(string(text)) {
		word, _, _ := strings.Cut(line, "#")
		if word = strings.TrimSpace(word); word == "" {
			continue
		}
		seed, err := strconv.ParseUint(word, 10, 64)
		require.NoError(t, err, "testdata/failed.txt: %q", line)
		seeds = append(seeds, seed)
	}
	return seeds
}

func hard(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 17))
	f := families[r.IntN(len(families))].sized(2+r.IntN(5), 2+r.IntN(3))
	f.rows = 1 + r.IntN(8)
	f.cone, f.fine, f.impossible = r.IntN(2) == 0, r.IntN(2) == 0, r.IntN(6) == 0
	p := f.make(seed)
	if r.IntN(3) == 0 { // costs that tie
		for g := range p.Groups {
			for o := range p.Groups[g].Options {
				p.Groups[g].Options[o].Cost[0] /= 4
			}
		}
	}
	for range r.IntN(3) {
		var set []Pick
		for range 2 + r.IntN(2) {
			g := r.IntN(len(p.Groups))
			set = append(set, Pick{g, r.IntN(len(p.Groups[g].Options))})
		}
		p.Apart = append(p.Apart, set)
	}
	if r.IntN(4) == 0 && !f.cone { // whole figures, so that sums meet bounds exactly
		for i := range p.Rows {
			for g := range p.Rows[i].Mid {
				for o, v := range p.Rows[i].Mid[g] {
					p.Rows[i].Mid[g][o] = float64(int(4 * v))
				}
			}
			hidden := make([]int, len(p.Groups))
			for g := range hidden {
				hidden[g] = r.IntN(len(p.Groups[g].Options))
			}
			p.Rows[i].Bound = p.Rows[i].Value(hidden)
		}
	}
	return p
}

func TestLockingTheAnswersOwnChoicesGivesTheAnswer(t *testing.T) {
	for seed := range uint64(200) {
		p := hard(seed)
		sol, err := Solve(p, 0)
		require.NoError(t, err)
		if sol.Chosen == nil {
			continue
		}
		r := rand.New(rand.NewPCG(seed, 3))
		for g, o := range sol.Chosen {
			if r.IntN(2) == 0 {
				p.Rows = append(p.Rows, locked(p, g, o))
			}
		}
		again, err := Solve(p, 0)
		require.NoError(t, err)
		require.Equal(t, sol.Chosen, again.Chosen, "seed %d", seed)
	}
}

// locked is a row that only option o of group g keeps.
func locked(p Problem, g, o int) Row {
	row := Row{Name: fmt.Sprintf("group %d stays", g)}
	for i, group := range p.Groups {
		of := make([]float64, len(group.Options))
		for k := range of {
			if i == g && k != o {
				of[k] = 1
			}
		}
		row.Mid = append(row.Mid, of)
	}
	return row
}

func TestScalingARowChangesNothing(t *testing.T) {
	for seed := range uint64(200) {
		p := hard(seed)
		sol, err := Solve(p, 0)
		require.NoError(t, err)
		for i := range p.Rows {
			p.Rows[i] = p.Rows[i].times(1024)
		}
		again, err := Solve(p, 0)
		require.NoError(t, err)
		require.Equal(t, sol.Chosen, again.Chosen, "seed %d", seed)
	}
}

// times is a row with every figure multiplied.
func (r Row) times(f float64) Row {
	out := Row{Name: r.Name, Bound: f * r.Bound}
	for g := range r.Mid {
		var mid []float64
		for _, v := range r.Mid[g] {
			mid = append(mid, f*v)
		}
		out.Mid = append(out.Mid, mid)
	}
	for g := range r.Loads {
		var of [][]Load
		for _, loads := range r.Loads[g] {
			var grown []Load
			for _, l := range loads {
				grown = append(grown, Load{l.Factor, f * l.Half})
			}
			of = append(of, grown)
		}
		out.Loads = append(out.Loads, of)
	}
	return out
}
