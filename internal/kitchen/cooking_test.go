package kitchen_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/cooking"
	"potwright/internal/household"
	"potwright/internal/testkit"
)

const drained = `Pasta with wine sauce
Makes about 8 cups
Serves 4
Ingredients
1 lb spaghetti
2 tablespoons salt
6 quarts water
1 cup dry white wine
4 slices bacon
1 cup chicken broth
1/2 cup grated parmesan cheese
Method
1. Bring the water and salt to a boil. Add the spaghetti, boil 10 minutes and drain.
2. Fry the bacon 5 minutes; drain off the fat.
3. Add the wine and broth and simmer 30 minutes. Stir in the spaghetti and cheese.
`

// The handbook figures: 14 % of the salt of the cooking water (Bianchi et al.
// 2019), 30 % of the pasta's potassium and 35 % of the alcohol (USDA retention
// factors, Release 6) stay.
func TestAnAnalysisCountsWhatCookingTakes(t *testing.T) {
	k := testkit.Kitchen(t)
	bare := *k
	bare.Cooking = nil
	a, err := k.Read(drained, nil, nil)
	require.NoError(t, err)
	raw, err := bare.Read(drained, nil, nil)
	require.NoError(t, err)
	share := func(line int, n composition.Nutrient) float64 {
		return a.Pot.Lines[line].Panel[n].Mid / raw.Pot.Lines[line].Panel[n].Mid
	}
	assert.InDelta(t, 0.14, share(1, composition.Sodium), 1e-9)
	assert.InDelta(t, 0.30, share(0, composition.Potassium), 1e-9)
	assert.InDelta(t, 0.35, share(3, composition.Alcohol), 1e-9)
	assert.Less(t, share(4, composition.Fat), 0.5, "bacon's fat was poured off")
	assert.InDelta(t, 1, share(5, composition.Sodium), 1e-9, "broth stays in the sauce")
	assert.InDelta(t, 8*236.588, a.Pot.YieldMillilitres.Mid, 0.1, "the cook's own measure")
	assert.Equal(t, 4.0, a.Recipe.Servings)
	doc := a.Document()
	assert.Equal(t, string(cooking.Boiled), doc.Lines[0].Cooked.Treatment)
	assert.InDelta(t, 8*236.588, doc.Yield.Millilitres.Mid, 0.1)
}

func TestAnAdaptedDishIsCookedAsItsOwnTextSays(t *testing.T) {
	k := testkit.Kitchen(t)
	a, err := k.Read(drained, nil, nil)
	require.NoError(t, err)
	most := 500.0
	h := household.Household{Name: "two", MealShare: 1, Members: []household.Member{
		{Name: "A", Limits: []household.Limit{{Nutrient: composition.Sodium, AtMost: &most, Per: household.PerMeal, SetBy: household.Clinician}}},
	}}
	ans, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{})
	require.NoError(t, err)
	require.True(t, ans.Fits, "%v", ans.Conflicts)
	require.NotEmpty(t, ans.Changes)
	for _, p := range ans.Plates {
		assert.LessOrEqual(t, p.Panel[composition.Sodium].High, most)
	}
}

func TestWithoutAMethodTheReasonIsNoted(t *testing.T) {
	a, err := testkit.Kitchen(t).Read("Greens\nServes 2\nIngredients\n10 oz spinach\n1 tablespoon oil\n", nil, nil)
	require.NoError(t, err)
	assert.Contains(t, a.Document().Notes, a.Plan.Notes[0])
	assert.Nil(t, a.Document().Lines[0].Cooked)
}
