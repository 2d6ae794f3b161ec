package kitchen_test

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
	"potwright/internal/product"
	"potwright/internal/recipe"
	"potwright/internal/spread"
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

	require.NoError(t, storeOf(k).RememberChoice(ctx, h.ID, "chicken broth", recipe.Correction{FoodID: "sr:14411"}, ""))
	chosen := swept(t, k, h.ID)
	assert.NotEqual(t, shared, chosen, "what a phrase means")

	p, err := storeOf(k).SaveProduct(ctx, h.ID, product.Product{Label: product.Label{Name: "quay broth", Panel: product.US, Serving: "1 cup (240 g)",
		Figures: map[string]string{"sodium_mg": "900", "energy_kcal": "10"}}}, "")
	require.NoError(t, err)
	require.NoError(t, storeOf(k).RememberChoice(ctx, h.ID, "chicken broth", recipe.Correction{FoodID: p.FoodID()}, ""))
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

// TestNoAnswerOutlivesWhatItRestsOn asks twice for each of several tables and wishes,
// in turn, and holds every answer against one of a kitchen without a memory.
func TestNoAnswerOutlivesWhatItRestsOn(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	k.Memory = kitchen.NewMemory(100, 100)
	fresh := *k
	fresh.Memory = nil
	list, err := k.Store.ListRecipes(ctx, h.ID)
	require.NoError(t, err)
	first, second := list[0].LatestID, list[1].LatestID
	hungry, alone := h, h
	hungry.Members = slices.Clone(h.Members)
	had := household.Had{Told: true}
	had.Day.All[composition.Sodium].Range = spread.Exact(900)
	hungry.Members[0].Had = &had
	alone.Members = h.Members[:1]
	for range 2 {
		for _, asked := range []struct {
			name    string
			version int64
			table   household.Household
			wishes  adaptation.Wishes
		}{
			{"everyone", first, h, adaptation.Wishes{}},
			{"another dish", second, h, adaptation.Wishes{}},
			{"one alone", first, alone, adaptation.Wishes{}},
			{"one who had something before", first, hungry, adaptation.Wishes{}},
			{"a locked line", first, h, adaptation.Wishes{Lock: []int{0}}},
			{"few changes", first, h, adaptation.Wishes{MaxChanges: 1}},
			{"another aim", first, h, adaptation.Wishes{Aim: adaptation.LeastEffort}},
			{"a proof", first, h, adaptation.Wishes{Certificate: true}},
		} {
			answer := func(k *kitchen.Kitchen) adaptation.Answer {
				_, a, err := k.Open(ctx, h.ID, asked.version)
				require.NoError(t, err)
				ans, err := k.Adapt(ctx, a, asked.table, asked.wishes)
				require.NoError(t, err)
				ans.Elapsed, ans.Options = 0, nil
				return ans
			}
			got, expected := answer(k), answer(&fresh)
			assert.Equal(t, len(expected.Plates), len(got.Plates), asked.name)
			assert.Equal(t, expected.Plates, got.Plates, asked.name)
			assert.Equal(t, recipe.Text(expected.Recipe), recipe.Text(got.Recipe), asked.name)
			assert.Equal(t, expected.Certificate, got.Certificate, asked.name)
		}
	}
}
