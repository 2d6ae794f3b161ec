package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

func TestChoices(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, other := mustHousehold(t, s, "H"), mustHousehold(t, s, "Other")
		grams := spread.Exact(240)
		require.NoError(t, s.RememberChoice(t.Context(), h.ID, "broth", recipe.Correction{FoodID: "sr:1"}, ""))
		require.NoError(t, s.RememberChoice(t.Context(), h.ID, "broth", recipe.Correction{FoodID: "sr:2", Grams: &grams}, ""))
		require.NoError(t, s.RememberChoice(t.Context(), h.ID, "crème fraîche", recipe.Correction{Skip: true}, ""))

		got, err := s.Choices(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Equal(t, map[string]recipe.Correction{
			"broth": {FoodID: "sr:2", Grams: &grams}, "crème fraîche": {Skip: true},
		}, got, "the later choice takes the place of the earlier")

		got, err = s.Choices(t.Context(), other.ID)
		require.NoError(t, err)
		assert.Empty(t, got, "another household's choices")
		assert.NotNil(t, got)

		require.NoError(t, s.ForgetChoice(t.Context(), other.ID, "broth", ""))
		require.NoError(t, s.ForgetChoice(t.Context(), h.ID, "crème fraîche", ""))
		require.NoError(t, s.ForgetChoice(t.Context(), h.ID, "never kept", ""))
		got, err = s.Choices(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Equal(t, map[string]recipe.Correction{"broth": {FoodID: "sr:2", Grams: &grams}}, got)

		assert.ErrorIs(t, s.RememberChoice(t.Context(), 99, "broth", recipe.Correction{}, ""), kitchen.ErrNotFound)
		assert.ErrorContains(t, s.RememberChoice(t.Context(), h.ID, "", recipe.Correction{}, ""), "no food phrase")
	})
}

func TestWishes(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, other := mustHousehold(t, s, "H"), mustHousehold(t, s, "Other")
		soup := mustRecipe(t, s, h.ID, "Soup").RecipeID

		got, err := s.Wishes(t.Context(), h.ID, soup)
		require.NoError(t, err)
		assert.Equal(t, adaptation.Wishes{}, got, "none saved yet")

		want := adaptation.Wishes{
			Lock: []int{0, 3}, Refuse: []adaptation.Pick{{Line: -1, Rule: "salt-omit"}},
			Insist: []adaptation.Pick{{Line: 2, Rule: "broth-low"}}, MaxChanges: 2,
		}
		require.NoError(t, s.SaveWishes(t.Context(), h.ID, soup, adaptation.Wishes{Lock: []int{9}}, ""))
		require.NoError(t, s.SaveWishes(t.Context(), h.ID, soup, want, ""))
		got, err = s.Wishes(t.Context(), h.ID, soup)
		require.NoError(t, err)
		assert.Equal(t, want, got)

		for name, id := range map[string][2]int64{
			"a recipe that is not there": {h.ID, 99}, "another household's recipe": {other.ID, soup},
		} {
			_, err = s.Wishes(t.Context(), id[0], id[1])
			assert.ErrorIs(t, err, kitchen.ErrNotFound, name)
			assert.ErrorIs(t, s.SaveWishes(t.Context(), id[0], id[1], want, ""), kitchen.ErrNotFound, name)
		}
	})
}
