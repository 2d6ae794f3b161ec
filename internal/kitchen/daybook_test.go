package kitchen_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/portion"
	"potwright/internal/recipe"
	"potwright/internal/spread"
	"potwright/internal/testkit"
)

const eatenText = "Beans\n\nServes 4\n\nIngredients\n2 cups cooked kidney beans\n1 tsp salt\n1 onion, chopped\n\nMethod\nSimmer for 20 minutes."

func TestADishEntryIsTheMembersPlate(t *testing.T) {
	k := testkit.Kitchen(t)
	a, err := k.Read(eatenText, nil, nil)
	require.NoError(t, err)
	m := household.Member{ID: 3, Name: "Ana", Plan: &household.Plan{Unit: "choice", Allowance: 4, Per: household.PerMeal,
		Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 1.0 / 15}, Free: []string{"non_starchy_vegetable"}}}
	h := household.Household{Members: []household.Member{m}}

	e := k.DishEntry(h, m, recipe.Version{ID: 7}, a, spread.Exact(0.5))
	assert.Equal(t, int64(7), e.VersionID)
	assert.Equal(t, "Beans", e.Title)
	assert.Equal(t, k.Meal(h, m, []kitchen.Serving{{Analysis: a, Portion: 0.5}}).Panel, e.Panel, "the plate as the table judges it")
	require.NotNil(t, e.Counted, "the onion is free")
	assert.Less(t, e.Counted[composition.Carbohydrate].Mid, e.Panel[composition.Carbohydrate].Mid)

	share, ok := portion.ShareOfGrams(a.Pot, e.Grams.Mid)
	require.True(t, ok)
	weighed := k.DishEntry(h, m, recipe.Version{ID: 7}, a, share)
	assert.InDelta(t, e.Panel[composition.Sodium].Mid, weighed.Panel[composition.Sodium].Mid, 1e-9)
	assert.Greater(t, weighed.Panel[composition.Sodium].High, e.Panel[composition.Sodium].High, "what the pot weighs is not known as well as what is in it")

	m.Plan = nil
	assert.Nil(t, k.DishEntry(h, m, recipe.Version{ID: 7}, a, spread.Exact(0.5)).Counted)
	assert.Zero(t, k.DishEntry(h, m, recipe.Version{ID: 7}, a, spread.Exact(0)).Panel)
}

// USDA SR28, NDB 09003, apples, raw, with skin: 52 kcal and 1 mg of sodium in 100 g.
func TestAFoodEntryIsTheTablesFood(t *testing.T) {
	k := testkit.Kitchen(t)
	apple, ok := k.Table.ByID("sr:09003")
	require.True(t, ok)
	e := k.FoodEntry(household.Member{ID: 3}, apple, spread.Exact(150))
	assert.InDelta(t, 78, e.Panel[composition.Energy].Mid, 0.5)
	assert.Equal(t, "sr:09003", e.FoodID)
	free := household.Member{Plan: &household.Plan{Weights: map[composition.Nutrient]float64{composition.Energy: 1}, Free: apple.Kinds}}
	counted := k.FoodEntry(free, apple, spread.Exact(150)).Counted
	require.NotNil(t, counted)
	assert.Zero(t, counted[composition.Energy].Mid)
}

func TestAMeasureIsAsExactAsItsSource(t *testing.T) {
	assert.Equal(t, spread.Exact(20).Mid, kitchen.MeasuredGrams(composition.Measure{Amount: 2, Grams: 40}, 1).Mid)
	r := kitchen.MeasuredGrams(composition.Measure{Amount: 1, Grams: 100, SD: 5}, 2)
	assert.InDelta(t, 200+2*5*spread.Z90, r.High, 1e-9)
	guessed := kitchen.MeasuredGrams(composition.Measure{Amount: 1, Grams: 100}, 1)
	assert.InDelta(t, 110, guessed.High, 1e-9)
}
