package choice

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/certificate"
)

func TestEveryAnswerHasAProofThatTheCheckerAccepts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		sol, err := Solve(p, 0)
		require.NoError(t, err)
		c, err := Certify(p, sol.Chosen, 0)
		require.NoError(t, err)
		report, err := certificate.Check(c)
		require.NoError(t, err)
		if sol.Chosen != nil {
			require.Equal(t, sol.Cost[0], report.Cost)
		}
	})
}

func TestLoadsTooSmallToSquareLeaveAProof(t *testing.T) {
	// Found by drawing: the square of the load has hardly a figure left.
	free := []Option{{Cost: []int64{0}}, {Cost: []int64{0}}, {Cost: []int64{0}}}
	p := Problem{
		Groups: []Group{{Options: free[:2]}, {Options: free[:1]}, {Options: free}},
		Rows: []Row{{
			Bound: -11.375,
			Mid:   [][]float64{{-10, -1}, {-1}, {0, -1, 0}},
			Loads: [][][]Load{{{{0, 2.91354771365005e-157}}, nil}, nil, {nil, {{0, 2}}, nil}},
		}},
	}
	sol, err := Solve(p, 0)
	require.NoError(t, err)
	c, err := Certify(p, sol.Chosen, 0)
	require.NoError(t, err)
	_, err = certificate.Check(c)
	require.NoError(t, err)
}

func TestLoadsThatCancelLeaveTheirFactorToOneGroup(t *testing.T) {
	// Found by drawing: the checker took the factor for the first group's own.
	free := []Option{{Cost: []int64{0}}}
	p := Problem{
		Groups: []Group{{Options: free}, {Options: free}},
		Rows: []Row{{
			Bound: -2,
			Mid:   [][]float64{{-1}, {-1}},
			Loads: [][][]Load{{{{1, 1}}}, {{{1, 2}, {1, -2}}}},
		}},
	}
	c, err := Certify(p, nil, 0)
	require.NoError(t, err)
	_, err = certificate.Check(c)
	require.NoError(t, err)
}

func TestProofsOfTightFamiliesAreAccepted(t *testing.T) {
	for _, f := range families {
		for _, cone := range []bool{false, true} {
			for seed := range uint64(4) {
				f.cone, f.impossible = cone, seed == 3
				p := f.sized(12, 5).make(seed)
				sol, err := Solve(p, 0)
				require.NoError(t, err)
				c, err := Certify(p, sol.Chosen, 0)
				require.NoError(t, err, "%s, seed %d", f, seed)
				_, err = certificate.Check(c)
				require.NoError(t, err, "%s, seed %d", f, seed)
			}
		}
	}
}

// TestTheCheckerAcceptsNothingFalse spoils problems, answers and proofs at
// random: whatever is still accepted must be true when every choice is tried.
func TestTheCheckerAcceptsNothingFalse(t *testing.T) {
	accepted, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		sol, err := Solve(p, 0)
		require.NoError(t, err)
		c, err := Certify(p, sol.Chosen, 0)
		require.NoError(t, err)
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "spoil"), 5))
		q := copied(p)
		c = spoiled(t, c, &q, r)
		if _, err := certificate.Check(c); err != nil {
			refused++
			return
		}
		accepted++
		best := bruteForce(q)
		if c.Chosen == nil {
			require.Nil(t, best)
			return
		}
		require.True(t, plainHolds(q, c.Chosen))
		require.Equal(t, plainCost(q, best)[0], plainCost(q, c.Chosen)[0])
	})
	require.Positive(t, accepted)
	require.Positive(t, refused)
}

func copied(p Problem) Problem {
	q := p
	q.Groups, q.Rows = nil, slices.Clone(p.Rows)
	for _, group := range p.Groups {
		var g Group
		for _, o := range group.Options {
			g.Options = append(g.Options, Option{Cost: slices.Clone(o.Cost)})
		}
		q.Groups = append(q.Groups, g)
	}
	return q
}

// spoiled changes one thing of a certificate, and of the problem with it.
func spoiled(t *rapid.T, c certificate.Certificate, q *Problem, r *rand.Rand) certificate.Certificate {
	text, err := json.Marshal(c)
	require.NoError(t, err)
	c = certificate.Certificate{}
	require.NoError(t, json.Unmarshal(text, &c))
	nodes := every(c.Proof)
	n := nodes[r.IntN(len(nodes))]
	switch g := r.IntN(len(c.Groups)); r.IntN(6) {
	case 0:
		o := r.IntN(len(c.Groups[g].Options))
		cost := int64(r.IntN(9) - 3)
		c.Groups[g].Options[o].Cost, q.Groups[g].Options[o].Cost[0] = cost, cost
	case 1:
		if len(c.Rows) > 0 {
			i := r.IntN(len(c.Rows))
			bound := c.Rows[i].Bound * (0.5 + r.Float64())
			c.Rows[i].Bound, q.Rows[i].Bound = bound, bound
		}
	case 2:
		if c.Chosen != nil {
			c.Chosen[g] = r.IntN(len(c.Groups[g].Options))
		}
	case 3:
		c.Chosen = nil
	case 4:
		if len(n.Steps) > 0 {
			n.Steps = n.Steps[:len(n.Steps)-1]
		}
	case 5:
		for i := range n.Steps {
			for k := range n.Steps[i].Cuts {
				cut := &n.Steps[i].Cuts[k]
				cut.Factor *= 2 * r.Float64()
				cut.Row = r.IntN(len(c.Rows)+1) - 1
				cut.Split = r.IntN(2) == 0
			}
		}
	}
	return c
}

func every(n *certificate.Node) []*certificate.Node {
	if n == nil {
		return nil
	}
	return append(append([]*certificate.Node{n}, every(n.In)...), every(n.Out)...)
}

func TestAFalseClaimIsNotCertified(t *testing.T) {
	p := families[0].sized(6, 4).make(1)
	best := bruteForce(p)
	_, err := Certify(p, nil, 0)
	require.ErrorContains(t, err, "the claim is not true")
	worse := slices.Clone(best)
	everyChoice(p, func(chosen []int) {
		if plainHolds(p, chosen) && plainCost(p, chosen)[0] > plainCost(p, best)[0] {
			worse = slices.Clone(chosen)
		}
	})
	_, err = Certify(p, worse, 0)
	require.ErrorContains(t, err, "the claim is not true")
}
