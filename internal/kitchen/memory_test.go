package kitchen_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

// swept is what a sweep finds, with and without what was found before: both must be
// the same, and so must the analyses that Open gives.
func swept(t *testing.T, k *kitchen.Kitchen, householdID int64) (all []kitchen.Swept) {
	t.Helper()
	fresh := *k
	fresh.Memory = nil
	var anew []kitchen.Swept
	for s, err := range fresh.Sweep(context.Background(), householdID, kitchen.SweepOptions{}) {
		require.NoError(t, err)
		anew = append(anew, s)
	}
	for range 2 { // the second time from what was found the first time
		all = nil
		for s, err := range k.Sweep(context.Background(), householdID, kitchen.SweepOptions{}) {
			require.NoError(t, err)
			all = append(all, s)
		}
		require.Equal(t, anew, all)
	}
	for _, s := range all {
		_, kept, err := k.Open(context.Background(), householdID, s.Recipe.LatestID)
		require.NoError(t, err)
		_, read, err := fresh.Open(context.Background(), householdID, s.Recipe.LatestID)
		require.NoError(t, err)
		require.Equal(t, read.Pot, kept.Pot, s.Recipe.Title)
		require.Equal(t, read.Keeping(), kept.Keeping())
	}
	return all
}

// TestNoVerdictOutlivesWhatItRestsOn changes one after another everything a verdict
// rests on: each time the new verdict is told at once.
func TestNoVerdictOutlivesWhatItRestsOn(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	k.Memory = kitchen.NewMemory(100, 100)
	before := swept(t, k, h.ID)

	h.Members[0].Limits = []household.Limit{{Nutrient: 0, AtMost: new(float64), Per: household.PerMeal, SetBy: household.OwnChoice}}
	h, err := storeOf(k).SaveHousehold(ctx, h, "")
	require.NoError(t, err)
	limited := swept(t, k, h.ID)
	assert.NotEqual(t, before, limited, "a limit")

	h.MealShare = 0.05
	h, err = storeOf(k).SaveHousehold(ctx, h, "")
	require.NoError(t, err)
	shared := swept(t, k, h.ID)
	assert.NotEqual(t, limited, shared, "a meal's share of the day")

	require.NoError(t, storeOf(k).RememberChoice(ctx, h.ID, "chicken broth", recipe.Correction{FoodID: "sr:14411"}))
	chosen := swept(t, k, h.ID)
	assert.NotEqual(t, shared, chosen, "what a phrase means")

	p, err := storeOf(k).SaveProduct(ctx, h.ID, product.Product{Label: product.Label{Name: "quay broth", Panel: product.US, Serving: "1 cup (240 g)",
		Figures: map[string]string{"sodium_mg": "900", "energy_kcal": "10"}}}, "")
	require.NoError(t, err)
	require.NoError(t, storeOf(k).RememberChoice(ctx, h.ID, "chicken broth", recipe.Correction{FoodID: p.FoodID()}))
	tied := swept(t, k, h.ID)
	assert.NotEqual(t, chosen, tied, "a product")
	p.Label.Figures["sodium_mg"] = "40"
	_, err = storeOf(k).SaveProduct(ctx, h.ID, p, "")
	require.NoError(t, err)
	relabelled := swept(t, k, h.ID)
	assert.NotEqual(t, tied, relabelled, "a product's label")

	h.Measures = measure.UK
	_, err = storeOf(k).SaveHousehold(ctx, h, "")
	require.NoError(t, err)
	assert.NotEqual(t, relabelled, swept(t, k, h.ID), "whose cups and spoons")
}

func TestVerdictsAreBounded(t *testing.T) {
	k, h := stored(t)
	k.Memory = kitchen.NewMemory(2, 2)
	swept(t, k, h.ID) // five dishes through a memory for two
}
