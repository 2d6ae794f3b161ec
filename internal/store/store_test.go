package store_test

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

func TestReopenKeepsEverything(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		place := on.place(t)
		s := on.mustOpen(t, place, fixedNow)
		h := mustHousehold(t, s, "Harbour Street")
		v := mustRecipe(t, s, h.ID, "Chowder")
		require.NoError(t, s.RememberChoice(t.Context(), h.ID, "broth", recipe.Correction{FoodID: "pw:1"}, ""))
		require.NoError(t, s.Close())

		again := on.mustOpen(t, place, fixedNow)
		got, err := again.FindVersion(t.Context(), h.ID, v.ID)
		require.NoError(t, err)
		assert.Equal(t, v, got)
		choices, err := again.Choices(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Equal(t, map[string]recipe.Correction{"broth": {FoodID: "pw:1"}}, choices)
	})
}

func TestCancelledContext(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		_, err := s.CreateHousehold(ctx, household.Household{Name: "Late"})
		assert.ErrorIs(t, err, context.Canceled)
		_, err = s.ListHouseholds(ctx)
		assert.ErrorIs(t, err, context.Canceled)
		mustHousehold(t, s, "Next") // the write token was given back
	})
}

func TestClosedStoreFailsWithoutPanic(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		require.NoError(t, s.Close())
		_, err := s.ListHouseholds(t.Context())
		assert.Error(t, err)
		assert.NotErrorIs(t, err, kitchen.ErrNotFound)
	})
}

func TestAClockThatGoesBackwardsKeepsTheOrderOfSaving(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		now := fixedTime
		s := on.mustOpen(t, on.place(t), func() time.Time { return now })
		h := mustHousehold(t, s, "H")
		soup := mustRecipe(t, s, h.ID, "Soup")
		now = now.AddDate(-3, 0, 0)
		bread := mustRecipe(t, s, h.ID, "Bread")
		now = now.AddDate(-3, 0, 0)
		second, err := s.AddVersion(t.Context(), h.ID, "", recipe.Version{RecipeID: soup.RecipeID, ParentID: soup.ID})
		require.NoError(t, err)
		assert.Equal(t, 2, second.Number)
		list, err := s.ListRecipes(t.Context(), h.ID)
		require.NoError(t, err)
		require.Len(t, list, 2)
		assert.Equal(t, []int64{soup.RecipeID, bread.RecipeID}, []int64{list[0].ID, list[1].ID}, "the one saved last first")
		assert.Equal(t, second.ID, list[0].LatestID)
	})
}
