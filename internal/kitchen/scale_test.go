package kitchen_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/demo"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/kitchen"
	"potwright/internal/testkit"
)

// sizeOf is the amount of a line in millilitres, grams or pieces.
func sizeOf(r ingredient.Reading) float64 {
	if r.Amount.Unit.Size > 0 {
		return r.Amount.Quantity.Mid() * r.Amount.Unit.Size
	}
	return r.Amount.Quantity.Mid()
}

// The text of a scaled dish, read afresh, has the figures of the dish times the
// factor: exactly as far as its amounts are, which are rounded to what a kitchen
// measures; a line without an amount stays as it is.
func TestAScaledDishReadAfreshHasTheFiguresTimesTheFactor(t *testing.T) {
	k := testkit.Kitchen(t)
	dishes := map[string]kitchen.Analysis{}
	for _, name := range demo.Dishes() {
		dishes[name] = demoDish(t, k, name)
	}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(demo.Dishes()).Draw(t, "dish")
		servings := rapid.Float64Range(2, 40).Draw(t, "servings")
		servings = math.Round(servings*2) / 2
		was := dishes[name]
		scaled, err := was.Scaled(servings)
		require.NoError(t, err)
		got, err := k.Read(scaled.Text, nil, scaled.Corrections)
		require.NoError(t, err)
		require.Len(t, got.Pot.Lines, len(was.Pot.Lines))
		assert.InDelta(t, servings, got.Pot.Servings, 1e-9)
		assert.Equal(t, was.Recipe.Steps, got.Recipe.Steps)
		var meant, sum float64
		for i, lp := range got.Pot.Lines {
			old := was.Pot.Lines[i]
			k := 1.0
			if old.Matched.Reading.HasAmount {
				k = sizeOf(lp.Matched.Reading) / sizeOf(old.Matched.Reading)
				left := old.Matched.Reading.Text == lp.Matched.Reading.Text
				assert.True(t, left || math.Abs(k/scaled.Factor-1) < 0.36, "%q and %q", old.Matched.Reading.Text, lp.Matched.Reading.Text)
				if left && math.Abs(1/scaled.Factor-1) > 0.36 {
					assert.Contains(t, strings.Join(scaled.Notes, "\n"), old.Matched.Reading.Text, "what is left is said")
					continue
				}
				meant += scaled.Factor * old.Panel[composition.Energy].Mid
				sum += lp.Panel[composition.Energy].Mid
			} else {
				assert.Equal(t, old.Matched.Reading.Text, lp.Matched.Reading.Text)
			}
			if old.Matched.State == foodmatch.Unread {
				continue
			}
			assert.Equal(t, old.Matched.Items[0].Food.ID, lp.Matched.Items[0].Food.ID, lp.Matched.Reading.Text)
			// USDA's own spoons and cups of a food differ: grated parmesan is 5 g a
			// tablespoon and 100 g a cup, which is 6.25.
			off := 0.01
			if lp.Matched.Reading.Amount.Unit != old.Matched.Reading.Amount.Unit {
				off = 0.25
			}
			assert.InEpsilon(t, 1+k*old.Grams.Mid, 1+lp.Grams.Mid, off, "%q and %q", old.Matched.Reading.Text, lp.Matched.Reading.Text)
		}
		assert.InEpsilon(t, meant, sum, 0.1, "the energy of what has an amount, %s for %v", name, servings)
	})
}

func TestANumberOfServingsMustBeOne(t *testing.T) {
	a := demoDish(t, testkit.Kitchen(t), "stir-fry")
	for _, servings := range []float64{0, -1, math.NaN(), math.Inf(1), 1001} {
		_, err := a.Scaled(servings)
		assert.ErrorContains(t, err, "no number of servings")
	}
	same, err := a.Scaled(a.Recipe.Servings)
	require.NoError(t, err)
	assert.Empty(t, same.Notes)
}
