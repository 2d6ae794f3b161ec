package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

func revisionOf(t *testing.T, s *kept) string {
	t.Helper()
	r, err := s.Revision(t.Context())
	require.NoError(t, err)
	return r
}

func TestTheRevisionTellsWhateverAnyProgramSaves(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		here := on.newStore(t)
		elsewhere := on.mustOpen(t, here.place, fixedNow)
		h := mustHousehold(t, here, "Harbour Street")
		v := mustRecipe(t, here, h.ID, "Chowder")
		seen := map[string]bool{}
		changed := func(what string) {
			t.Helper()
			r := revisionOf(t, here)
			assert.False(t, seen[r], what)
			seen[r] = true
		}
		changed("at first")
		other := revisionOf(t, elsewhere)

		require.NoError(t, here.RememberChoice(t.Context(), h.ID, "broth", recipe.Correction{FoodID: "sr:1"}))
		changed("an own save")
		assert.NotEqual(t, other, revisionOf(t, elsewhere), "the same save, seen by the other")
		require.NoError(t, elsewhere.ForgetChoice(t.Context(), h.ID, "broth"))
		changed("a save by another program")
		exec(t, here, "UPDATE recipes SET title = 'Harbour chowder'")
		changed("a statement from outside")

		if on.name == "sqlite" { // others use the same server beside this test
			before := revisionOf(t, here)
			_, err := here.FindVersion(t.Context(), h.ID, v.ID)
			require.NoError(t, err)
			require.Error(t, here.Refuse(t.Context(), h.ID+1, "low-salt-broth", true))
			assert.Equal(t, before, revisionOf(t, here), "nothing was saved")
		}
	})
}

func TestWordsAreFoundInWhatAnotherProgramSaved(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		here := on.newStore(t)
		elsewhere := on.mustOpen(t, here.place, fixedNow)
		h := mustHousehold(t, here, "Harbour Street")
		found := func(words string) int {
			t.Helper()
			list, all, err := here.FindRecipes(t.Context(), h.ID, kitchen.RecipeQuery{Words: words, Most: 5})
			require.NoError(t, err)
			assert.Len(t, list, min(all, 5))
			return all
		}
		assert.Equal(t, 0, found("leek"))
		v := mustRecipe(t, elsewhere, h.ID, "Leek pie")
		assert.Equal(t, 1, found("leek"))
		v.ParentID, v.Text = v.ID, "Leek pie\n\n1 cup ÉPEAUTRE"
		_, err := elsewhere.AddVersion(t.Context(), h.ID, "Tart", v)
		require.NoError(t, err)
		assert.Equal(t, 0, found("water"), "in an earlier version alone")
		assert.Equal(t, 1, found("tart épeautre"))
		assert.Equal(t, 0, found("quick"))
		require.NoError(t, elsewhere.SetTags(t.Context(), h.ID, v.RecipeID, []string{"Quick"}, ""))
		assert.Equal(t, 1, found("quick"))
		assert.Equal(t, 0, func() int {
			_, all, err := here.FindRecipes(t.Context(), mustHousehold(t, here, "Mill Row").ID, kitchen.RecipeQuery{Words: "tart", Most: 5})
			require.NoError(t, err)
			return all
		}(), "another household's")
	})
}
