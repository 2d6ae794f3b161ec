package portion_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

func TestAWeighedPortionIsAShareOfTheFinishedDish(t *testing.T) {
	pot := nutrient.Pot{Servings: 6, YieldGrams: spread.Range{Low: 1500, Mid: 1800, High: 2000}, YieldMillilitres: spread.Exact(1800)}
	share, ok := portion.ShareOfGrams(pot, 300)
	require.True(t, ok)
	assert.InDelta(t, 1, share.Mid, 1e-12)
	assert.InDelta(t, 0.9, share.Low, 1e-12, "a dish of 2,000 g makes 300 g less of a serving")
	assert.InDelta(t, 1.2, share.High, 1e-12)
	share, ok = portion.ShareOfMillilitres(pot, 150)
	require.True(t, ok)
	assert.Equal(t, spread.Exact(0.5), share)
	_, ok = portion.ShareOfGrams(nutrient.Pot{Servings: 6}, 300)
	assert.False(t, ok, "a dish of unknown weight")
}
