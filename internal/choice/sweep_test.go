package choice

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sweptAfter solves with no sweep in the first few nodes.
func sweptAfter(p Problem, nodes int) Solution {
	s := newSearch(p, &meter{})
	s.sweep.after = nodes
	return s.lexicographic()
}

func TestASweepFromTheFirstNodeEqualsTryingEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		require.Equal(t, bruteForce(p), sweptAfter(p, 0).Chosen)
	})
	for seed := range uint64(300) {
		p := hard(seed)
		require.Equal(t, bruteForce(p), sweptAfter(p, 0).Chosen, "seed %d", seed)
	}
}

func TestSweepsChangeNoAnswer(t *testing.T) {
	with, without := 0, 0
	for _, f := range families {
		f = f.sized(14, 5)
		for seed := range uint64(12) {
			f.cone, f.fine, f.impossible = seed%2 == 1, seed%3 == 0, seed%4 == 2
			p := f.make(seed)
			want := sweptAfter(p, math.MaxInt)
			got := sweptAfter(p, 0)
			require.Equal(t, want.Status, got.Status, "%s, seed %d", f, seed)
			require.Equal(t, want.Chosen, got.Chosen, "%s, seed %d", f, seed)
			require.Equal(t, want.Bound, got.Bound, "%s, seed %d", f, seed)
			with, without = with+got.Nodes, without+want.Nodes
		}
	}
	require.Less(t, with, without, "sweeps spare nodes")
}

func TestALaneHoldsWhatIsLeftOfItsLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rapid.Float64Range(0, 1e9).Draw(t, "room")
		l := lane{scale: laneScale(room)}
		parts := rapid.SliceOfN(rapid.Float64Range(0, 1), 1, 40).Draw(t, "parts")
		var sum float64
		for _, part := range parts {
			sum += part
		}
		var taken uint64
		for _, part := range parts {
			taken += l.take(room * part / max(sum, 1))
		}
		require.LessOrEqual(t, taken, uint64(laneTop))
		require.LessOrEqual(t, l.take(math.MaxFloat64), uint64(laneTop))
	})
}

func TestListsOfHalvesChangeNoAnswer(t *testing.T) {
	f := families[3].sized(14, 5)
	for seed := range uint64(12) {
		f.fine, f.impossible = seed == 3, seed == 2
		sameWithoutLists(t, f.make(seed))
	}
	with, without := 0, 0
	for seed := range uint64(4) {
		lists, none := sameWithoutLists(t, families[3].sized(40, 8).make(8+seed))
		with, without = with+lists, without+none
	}
	require.Less(t, with, without, "where many choices are left, lists spare nodes")
}

// sameWithoutLists solves with and without lists of halves and returns the nodes.
func sameWithoutLists(t *testing.T, p Problem) (with, without int) {
	s := newSearch(p, &meter{})
	require.True(t, s.m.paired, "rows come in pairs")
	s.m.paired = false
	want, got := s.lexicographic(), sweptAfter(p, 0)
	require.Equal(t, want.Status, got.Status)
	require.Equal(t, want.Chosen, got.Chosen)
	require.Equal(t, want.Bound, got.Bound)
	return got.Nodes, want.Nodes
}

func TestListsOfHalvesHoldEveryChoiceThatFits(t *testing.T) {
	f := families[3].sized(7, 4)
	f.rows, f.high = 2, 0.01
	tried := 0
	for seed := range uint64(40) {
		p := f.make(seed)
		s := newSearch(p, &meter{})
		s.goal = s.costGoal(make([]float64, s.m.n))
		s.setLimit(math.Inf(1))
		n := s.at(0)
		require.True(t, s.propagate(n))
		s.lambda = s.lambda[:0]
		require.True(t, s.bound(n))
		s.goal.value = func(chosen []int) float64 {
			tried++
			return math.Inf(1)
		}
		if slices.Max(n.count) == 1 {
			continue
		}
		done, can := s.halved(n, 1)
		require.True(t, done && can, "seed %d", seed)
		everyChoice(p, func(chosen []int) {
			if plainHolds(p, chosen) {
				tried--
			}
		})
	}
	require.GreaterOrEqual(t, tried, 0, "figures are rounded down, so some that do not fit may be among them")
	require.Less(t, tried, 40)
}
