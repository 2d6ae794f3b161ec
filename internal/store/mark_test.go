package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/daybook"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/recipe"
)

func TestASaveOverWhatSomeoneElseSavedIsRefused(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s, ctx := on.newStore(t), t.Context()
		h := mustHousehold(t, s, "Harbour Street")
		read, err := s.FindHousehold(ctx, h.ID)
		require.NoError(t, err)
		seen := kitchen.MarkOf(read)
		h.MealShare = 0.4
		_, err = s.SaveHousehold(ctx, h, seen)
		require.NoError(t, err)
		h.MealShare = 0.5
		_, err = s.SaveHousehold(ctx, h, seen)
		assert.ErrorIs(t, err, kitchen.ErrChanged)
		kept, err := s.FindHousehold(ctx, h.ID)
		require.NoError(t, err)
		assert.InDelta(t, 0.4, kept.MealShare, 0, "nothing of the second is saved")
		_, err = s.SaveHousehold(ctx, h, kitchen.MarkOf(kept))
		assert.NoError(t, err, "once seen, it may be replaced")

		p := mustProduct(t, s, h.ID, "quay broth")
		seen = kitchen.MarkOf(p)
		p.Label.Serving = "120 mL"
		_, err = s.SaveProduct(ctx, h.ID, p, seen)
		require.NoError(t, err)
		_, err = s.SaveProduct(ctx, h.ID, p, seen)
		assert.ErrorIs(t, err, kitchen.ErrChanged)

		soup, none := mustRecipe(t, s, h.ID, "Soup").RecipeID, kitchen.MarkOf(adaptation.Wishes{})
		require.NoError(t, s.SaveWishes(ctx, h.ID, soup, adaptation.Wishes{MaxChanges: 2}, none))
		assert.ErrorIs(t, s.SaveWishes(ctx, h.ID, soup, adaptation.Wishes{MaxChanges: 3}, none), kitchen.ErrChanged)

		p1 := mustPhoto(t, s, h.ID, soup, "pot")
		p1.Caption = "the pot"
		require.NoError(t, s.SavePhoto(ctx, h.ID, p1, kitchen.MarkOf(light(mustPhotoOf(t, s, h.ID, soup)))))
		p1.Caption = "the plate"
		assert.ErrorIs(t, s.SavePhoto(ctx, h.ID, p1, kitchen.MarkOf(light(p1))), kitchen.ErrChanged)

		nothing, broth := kitchen.MarkOf(recipe.Correction{}), recipe.Correction{FoodID: "sr:1"}
		require.NoError(t, s.RememberChoice(ctx, h.ID, "broth", broth, nothing))
		assert.ErrorIs(t, s.RememberChoice(ctx, h.ID, "broth", recipe.Correction{Skip: true}, nothing), kitchen.ErrChanged)
		require.NoError(t, s.RememberChoice(ctx, h.ID, "broth", recipe.Correction{Skip: true}, kitchen.MarkOf(broth)))
		assert.ErrorIs(t, s.ForgetChoice(ctx, h.ID, "broth", kitchen.MarkOf(broth)), kitchen.ErrChanged)
		require.NoError(t, s.ForgetChoice(ctx, h.ID, "broth", kitchen.MarkOf(recipe.Correction{Skip: true})))
		require.NoError(t, s.ForgetChoice(ctx, h.ID, "broth", nothing), "nothing was expected, and nothing is there")

		tags, err := s.TagsOf(ctx, h.ID, soup)
		require.NoError(t, err)
		require.NoError(t, s.SetTags(ctx, h.ID, soup, []string{"quick"}, kitchen.MarkOf(tags)))
		assert.ErrorIs(t, s.SetTags(ctx, h.ID, soup, []string{"slow"}, kitchen.MarkOf(tags)), kitchen.ErrChanged)
	})
}

func mustPhotoOf(t *testing.T, s *kept, householdID, recipeID int64) photo.Photo {
	t.Helper()
	list, err := s.ListPhotos(t.Context(), householdID, recipeID)
	require.NoError(t, err)
	return list[0]
}

func TestAnEntryMovedMeanwhileIsNeitherMovedNorRemoved(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s, ctx := on.newStore(t), t.Context()
		h, e := day(t, s, "Quay Lane")
		saved, err := s.AddEntries(ctx, h.ID, []daybook.Entry{e})
		require.NoError(t, err)
		seen, moved := kitchen.MarkOf(saved[0]), saved[0]
		moved.Date = "2026-03-04"
		require.NoError(t, s.ChangeEntry(ctx, h.ID, moved, seen))
		other := saved[0]
		other.Date = "2026-03-05"
		assert.ErrorIs(t, s.ChangeEntry(ctx, h.ID, other, seen), kitchen.ErrChanged)
		assert.ErrorIs(t, s.DeleteEntry(ctx, h.ID, other.ID, seen), kitchen.ErrChanged)
		assert.NoError(t, s.DeleteEntry(ctx, h.ID, other.ID, kitchen.MarkOf(moved)))
	})
}
