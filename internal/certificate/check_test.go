package certificate

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// supper is broth and cheese under one sodium limit: 600 + 400 mg as they are,
// 100 and 250 mg swapped, with loads of 3 and 4 mg, so √(3² + 4²) = 5.
func supper(bound float64) Certificate {
	return Certificate{
		Problem: Problem{
			Groups: []Group{
				{Name: "broth", Options: []Option{{Name: "kept"}, {Name: "without salt", Cost: 2}}},
				{Name: "cheese", Options: []Option{{Name: "kept"}, {Name: "milder", Cost: 3}}},
			},
			Rows: []Row{{
				Name: "sodium", Bound: bound, Mid: [][]float64{{600, 100}, {400, 250}},
				Loads: [][][]Load{{{{1, 3}}, {{1, 3}}}, {{{2, 4}}, {{2, 4}}}},
			}},
		},
		Chosen: []int{1, 0},
		// 500 mg fewer for 2: a factor of 2/500 takes both options of the broth to 2.
		Proof: &Node{Steps: []Step{{Cost: true, Cuts: []Cut{{
			Row: 0, Factor: 0.004, Own: []Weight{{0, 0.6}, {1, 0.8}},
		}}}}},
	}
}

func TestASmallProofByHandIsAccepted(t *testing.T) {
	// The bound: 0.004·(600+400+5) − 0.004·505 = 2 > 2 − 1.
	c := supper(505)
	report, err := Check(c)
	require.NoError(t, err)
	assert.Equal(t, int64(2), report.Cost)
	require.Len(t, report.Closed, 1)
	assert.InDelta(t, 2, report.Closed[0].Bound, 1e-6)
	var b strings.Builder
	require.NoError(t, Write(&b, c, report))
	assert.Contains(t, b.String(), "sodium: comes to 505, at most 505 is allowed")
	assert.Contains(t, b.String(), "100 (97 to 103)  broth")
	assert.Contains(t, b.String(), "every other choice that keeps all limits changes at least 2")
}

func TestWhatDoesNotStandIsRefused(t *testing.T) {
	for _, c := range []struct {
		name, want string
		spoil      func(*Certificate)
	}{
		{"a choice that breaks a limit", "row 0 (sodium): comes to 1005", func(c *Certificate) { c.Chosen = []int{0, 0} }},
		{"a limit passed by the doubts alone", "comes to 505", func(c *Certificate) { c.Rows[0].Bound = 504.9 }},
		{"a choice of an option that is not there", "there is no option 7", func(c *Certificate) { c.Chosen[1] = 7 }},
		{"a choice with too few groups", "the choice has 1 groups, expected 2", func(c *Certificate) { c.Chosen = c.Chosen[:1] }},
		{"a choice that is not the least", "not closed by its steps", func(c *Certificate) { c.Chosen = []int{1, 1} }},
		{"a claim that nothing fits", "not closed by its steps", func(c *Certificate) { c.Chosen = nil }},
		{"no proof", "the proof ends before", func(c *Certificate) { c.Proof = nil }},
		{"a proof without steps", "not closed by its steps", func(c *Certificate) { c.Proof.Steps = nil }},
		{"a factor below zero", "its factor is -1", func(c *Certificate) { c.Proof.Steps[0].Cuts[0].Factor = -1 }},
		{"a row that is not there", "there is no row 3", func(c *Certificate) { c.Proof.Steps[0].Cuts[0].Row = 3 }},
		{"weights longer than 1", "a norm of 1.6", func(c *Certificate) { c.Proof.Steps[0].Cuts[0].Own[0].Of = 1.4 }},
		{"a weight of no group", "a weight is at group 5", func(c *Certificate) { c.Proof.Steps[0].Cuts[0].Own[0].At = 5 }},
		{"a set that is not there", "there is no apart set 0", func(c *Certificate) { c.Proof.Steps[0].Cuts[0].Row = -1 }},
		{"figures of another shape", "expected figures for 2 groups", func(c *Certificate) { c.Rows[0].Mid = c.Rows[0].Mid[:1] }},
		{"a pick that is not there", "apart set 0: there is no option 9", func(c *Certificate) { c.Apart = [][]Pick{{{0, 9}}} }},
		{"two of an apart set", "apart set 0: 2 of it are chosen", func(c *Certificate) { c.Apart = [][]Pick{{{0, 1}, {1, 0}}} }},
		{"a cost past exact sums", "expected a size of at most", func(c *Certificate) { c.Groups[0].Options[0].Cost = 1 << 60 }},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := supper(505)
			c.spoil(&s)
			_, err := Check(s)
			require.ErrorContains(t, err, c.want)
		})
	}
}

func TestABranchMustBeProvedOnBothSides(t *testing.T) {
	c := supper(505)
	closing := c.Proof.Steps
	c.Proof = &Node{Group: 1, First: []int{1}, In: &Node{Steps: closing}, Out: &Node{Steps: closing}}
	report, err := Check(c)
	require.NoError(t, err)
	assert.Len(t, report.Closed, 2)
	c.Proof.Out = &Node{}
	_, err = Check(c)
	require.ErrorContains(t, err, "not closed by its steps")
}

// FuzzCheck: whatever a file holds, the checker says yes or no and does not panic.
func FuzzCheck(f *testing.F) {
	text, err := json.Marshal(supper(505))
	require.NoError(f, err)
	f.Add(text)
	f.Add([]byte(`{"groups":[{"options":[]}],"proof":{}}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		var c Certificate
		if json.Unmarshal(text, &c) == nil {
			_, _ = Check(c)
		}
	})
}

// A plate of half a serving: the lines bring 300 of a serving, so 150, with loads
// of 30 and 40 that add in quadrature to 50 a serving, so up to 175.
func TestSumsByLineMustAgreeWithTheRecipe(t *testing.T) {
	c := Certificate{Problem: Problem{
		Groups: []Group{
			{Name: "broth", Options: []Option{{Name: "kept"}}},
			{Name: "salt", Options: []Option{{Name: "kept"}}},
			{Name: "portion", Options: []Option{{Name: "0.5 of a serving"}}},
		},
		Rows: []Row{{Name: "sodium", Bound: 0, Mid: [][]float64{{100}, {200}, {-400}},
			Loads: [][][]Load{{{{Factor: 0, Half: 30}}}, {{{Factor: 1, Half: 40}}}, nil},
			Plate: &Plate{Member: "Ada", Weights: map[string]float64{"sodium_mg": 1}, Group: 2, Shares: []float64{0.5}}}},
	}, Chosen: []int{0, 0, 0}}
	says := func(mid, end float64) func(Plate, float64) (Figure, error) {
		return func(p Plate, share float64) (Figure, error) {
			assert.Equal(t, "Ada", p.Member)
			assert.Equal(t, 0.5, share)
			return Figure{Mid: mid, End: end}, nil
		}
	}
	assert.NoError(t, c.Agrees(says(150, 175)))
	assert.ErrorContains(t, c.Agrees(says(151, 175)), "its lines come to 150")
	assert.ErrorContains(t, c.Agrees(says(150, 180)), "the recipe to 150 (180)")
	c.Rows[0].Plate.Group = 7
	assert.ErrorContains(t, c.Agrees(says(150, 175)), "of no group")
	c.Chosen = nil
	assert.Error(t, c.Agrees(says(150, 175)))
}
