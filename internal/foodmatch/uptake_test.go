package foodmatch_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
)

func weighed(t *testing.T, text string) foodmatch.Item {
	t.Helper()
	table, err := fooddata.Load()
	require.NoError(t, err)
	m := foodmatch.Weigh(ingredient.Read(text), table, nil, nil)
	require.NotEmpty(t, m.Items, text)
	return m.Items[0]
}

// Bianchi et al. 2019, Food Chemistry 271:479: 454 g of spaghetti boiled in
// 5.68 L with 36 g of salt, drained: 140 g cooked hold about 247 mg sodium, of
// which under 5 mg are the pasta's own. A pound gives about 7 to 8 servings of
// 140 g cooked.
func TestPastaTakesUpASmallPartOfTheSaltInItsWater(t *testing.T) {
	item := weighed(t, "36 g salt, for the pasta water")
	perGram := item.Food.Nutrients[composition.Sodium].Mid / 100
	const servings, measured = 7.5, 247.0
	assert.InDelta(t, measured, item.Grams.Mid*perGram/servings, 0.10*measured)
	assert.Less(t, item.Grams.Low*perGram/servings, measured)
	assert.Greater(t, item.Grams.High*perGram/servings, measured)
	assert.InDelta(t, 36, weighed(t, "36 g salt").Grams.Mid, 1e-9, "salt for the dish counts whole")
}

func TestMostOfADeepFryersFatIsPouredOff(t *testing.T) {
	whole, fried := weighed(t, "2 cups vegetable oil").Grams, weighed(t, "2 cups vegetable oil, for deep frying").Grams
	assert.Less(t, fried.High, 0.5*whole.Mid)
	assert.Positive(t, fried.Low)
}

func TestAWholeBirdIsBoughtWithItsBones(t *testing.T) {
	// USDA SR28 05006: 32 % refuse (bones).
	assert.InDelta(t, 1361*0.68, weighed(t, "3 lb chicken, cut up").Grams.Mid, 0.03*1361)
	assert.InDelta(t, 454, weighed(t, "1 lb boneless skinless chicken breast").Grams.Mid, 1)
}
