package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/kitchen"
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

		tags, err := s.TagsOf(ctx, h.ID, soup)
		require.NoError(t, err)
		require.NoError(t, s.SetTags(ctx, h.ID, soup, []string{"quick"}, kitchen.MarkOf(tags)))
		assert.ErrorIs(t, s.SetTags(ctx, h.ID, soup, []string{"slow"}, kitchen.MarkOf(tags)), kitchen.ErrChanged)
	})
}
