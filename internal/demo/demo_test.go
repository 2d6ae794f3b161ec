package demo_test

import (
	"bytes"
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/demo"
	"potwright/internal/household"
	"potwright/internal/ruleset"
	"potwright/internal/testkit"
)

func people(t testing.TB) household.Household {
	t.Helper()
	text, err := os.ReadFile("household.yaml")
	require.NoError(t, err)
	h, err := ruleset.ReadHousehold(bytes.NewReader(text), "household.yaml")
	require.NoError(t, err)
	return h
}

// Every demo dish breaks someone's limit or need as written, and one pot can be
// made to suit all four, proved to change it least.
func TestEveryDemoDishNeedsAndHasAnAdaptation(t *testing.T) {
	k, h := testkit.Kitchen(t), people(t)
	require.NoError(t, h.Validate(k.Needs))
	for _, name := range demo.Dishes() {
		t.Run(name, func(t *testing.T) {
			text, err := demo.Dish(name)
			require.NoError(t, err)
			a, err := k.Read(text, nil, nil)
			require.NoError(t, err)
			assert.Empty(t, a.Recipe.Notes)
			assert.False(t, k.Check(a, h).Fits, "as written")
			ans, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{})
			require.NoError(t, err)
			assert.True(t, ans.Fits, "%v", ans.Conflicts)
			assert.Equal(t, adaptation.Optimal, ans.Proof)
			assert.NotEmpty(t, ans.Changes)
		})
	}
}

// BenchmarkAdapt is the whole computation of one adaptation: options read,
// search, proof, method rewritten, and the result read afresh and judged.
func BenchmarkAdapt(b *testing.B) {
	k, h := testkit.Kitchen(b), people(b)
	for _, name := range demo.Dishes() {
		b.Run(name, func(b *testing.B) {
			text, err := demo.Dish(name)
			require.NoError(b, err)
			a, err := k.Read(text, nil, nil)
			require.NoError(b, err)
			for b.Loop() {
				_, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{})
				require.NoError(b, err)
			}
		})
	}
}
