package recipe_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/recipe"
)

// A US cup is 236.588 ml (NIST Handbook 44, Appendix C).
func TestWhatTheFinishedDishWeighsOrFills(t *testing.T) {
	for line, want := range map[string]struct{ grams, ml float64 }{
		"Makes 1800 g":                     {1800, 0},
		"Makes 1800g":                      {1800, 0},
		"Makes about 8 cups":               {0, 8 * 236.588},
		"Makes 1.8 kg":                     {1800, 0},
		"Yield: 6 cups (8 servings)":       {0, 6 * 236.588},
		"Yields 2 quarts":                  {0, 8 * 236.588},
		"Makes 64 fl oz":                   {0, 8 * 236.588},
		"Makes 4 servings":                 {},
		"Makes 4 servings, 1 cup each":     {},
		"Yield: 1 cup per serving":         {},
		"Makes 12 muffins":                 {},
		"Serves 6; makes 8 cups":           {0, 8 * 236.588},
		"Makes 4 servings; makes 900 g":    {900, 0},
		"Makes 1 cup each":                 {},
		"Makes 99999999999999999999 cups ": {},
	} {
		r, err := recipe.Parse("Dish\n" + line + "\n1 cup rice\n2 cups water\n")
		require.NoError(t, err, line)
		if want.grams == 0 {
			assert.Nil(t, r.MakesGrams, line)
		} else if assert.NotNil(t, r.MakesGrams, line) {
			assert.InDelta(t, want.grams, r.MakesGrams.Mid, 0.01, line)
			assert.Less(t, r.MakesGrams.Low, want.grams, line)
			assert.Greater(t, r.MakesGrams.High, want.grams, line)
		}
		if want.ml == 0 {
			assert.Nil(t, r.MakesMillilitres, line)
		} else if assert.NotNil(t, r.MakesMillilitres, line) {
			assert.InDelta(t, want.ml, r.MakesMillilitres.Mid, 0.01, line)
		}
	}
}

func TestServingsMayStandBehindATime(t *testing.T) {
	for line, want := range map[string]float64{
		"Prep 20 min. Makes about 8 cups (6 servings)": 6,
		"Prep time: 20 minutes. Serves 5":              5,
		"Cook 1 hour, serves 8":                        8,
		"Makes 4 servings, 1 cup each":                 4,
		"Total: 40 min. Yield: 12 rolls.":              12,
	} {
		r, err := recipe.Parse("Dish\n" + line + "\n\n1 cup rice\n2 cups water\n")
		require.NoError(t, err, line)
		assert.Equal(t, want, r.Servings, line)
		assert.False(t, r.ServingsAssumed, line)
		assert.Len(t, r.Lines, 2, line)
	}
}

func TestServingsAndMeasureMayStandOnTwoLines(t *testing.T) {
	r, err := recipe.Parse("Dish\nMakes about 8 cups\nServes 6\n\n1 cup rice\n2 cups water\n")
	require.NoError(t, err)
	assert.Equal(t, 6.0, r.Servings)
	require.NotNil(t, r.MakesMillilitres)
	again, err := recipe.Parse(recipe.Text(r))
	require.NoError(t, err)
	assert.Equal(t, r.Servings, again.Servings)
	assert.Equal(t, r.MakesMillilitres, again.MakesMillilitres, "kept with the recipe's text")
}

func TestTheMeasureIsKeptThroughTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amount := rapid.SampledFrom([]string{"1", "1 1/2", "8", "2.5", "1800", "4-5", "about 6"}).Draw(t, "amount")
		unit := rapid.SampledFrom([]string{"g", "kg", "cups", "quarts", "ml", "lb", "servings", "muffins", "fl oz"}).Draw(t, "unit")
		r, err := recipe.Parse("Dish\nMakes " + amount + " " + unit + "\n1 cup rice\n")
		require.NoError(t, err)
		again, err := recipe.Parse(recipe.Text(r))
		require.NoError(t, err)
		assert.Equal(t, r.MakesGrams, again.MakesGrams)
		assert.Equal(t, r.MakesMillilitres, again.MakesMillilitres)
		for _, m := range []bool{r.MakesGrams == nil || r.MakesGrams.Valid(), r.MakesMillilitres == nil || r.MakesMillilitres.Valid()} {
			assert.True(t, m)
		}
	})
}
