package recipe_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
	"potwright/internal/spread"
)

const bread = `Soda bread

Makes 2 loaves (8 servings)

Ingredients
500 g flour
1 1/2 tsp baking soda
salt to taste

For the crust:
1 (15 oz) can oats
1 pinch saffron

Method

1. Bake at 200 °C for 40 minutes.

2. Stir 2 tablespoons of the oats into the flour.
`

func TestARecipeForAnotherTableKeepsItsWordsAndItsTimes(t *testing.T) {
	was, err := recipe.Parse(bread)
	require.NoError(t, err)
	was.Lines[0].Fix = &recipe.Correction{FoodID: "sr:20081", Grams: &spread.Range{Low: 490, Mid: 500, High: 510}}
	got, s := recipe.Scaled(was, 4)
	assert.Equal(t, 0.5, s.Factor)
	text := recipe.Text(got)
	again, err := recipe.Parse(text)
	require.NoError(t, err)
	assert.InDelta(t, 4, again.Servings, 1e-9, text)
	var lines []string
	for _, l := range again.Lines {
		lines = append(lines, l.Reading.Text)
	}
	assert.Equal(t, []string{"250 g flour", "3/4 tsp baking soda", "salt to taste", "1/2 (15 oz) can oats", "1 pinch saffron"}, lines)
	assert.Equal(t, "For the crust", again.Lines[3].Section)
	assert.Equal(t, was.Steps, again.Steps)
	assert.Equal(t, []int{4}, s.Left, "half a pinch is not measured")
	assert.Equal(t, []int{1}, s.Amounts)
	assert.InDelta(t, 250, got.Lines[0].Fix.Grams.Mid, 1e-9)
	assert.InDelta(t, 500, was.Lines[0].Fix.Grams.Mid, 1e-9, "the recipe given is left as it was")
}

func TestWhatARecipeMakesIsScaledWithIt(t *testing.T) {
	for yield, want := range map[string]float64{"Serves 4": 10, "Makes 12 muffins": 6, "Serves 4-6": 15, "Makes 6 cups (4 servings)": 2, "Yield: about 8 cups (6 servings)": 9, "": 7} {
		was, err := recipe.Parse("Soup\n" + yield + "\n\nIngredients\n2 cups broth\n1 cup beans\n")
		require.NoError(t, err)
		got, _ := recipe.Scaled(was, want)
		again, err := recipe.Parse(recipe.Text(got))
		require.NoError(t, err)
		assert.InDelta(t, want, again.Servings, 0.01*want, yield)
	}
}
