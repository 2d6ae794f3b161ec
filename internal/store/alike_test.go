package store_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// Lists are in the order of their folded names' bytes, whatever language a server is
// set to: under most, "z" would stand after "é" and blanks not count.
func TestListsAreInOneOrderEverywhere(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		for _, name := range []string{"éclair", "Zest", "a b", "ab", "A-b", "_x", "Öl", "10", "9"} {
			mustHousehold(t, s, name)
		}
		hs, err := s.ListHouseholds(t.Context())
		require.NoError(t, err)
		var names []string
		for _, h := range hs {
			names = append(names, h.Name)
		}
		assert.Equal(t, []string{"10", "9", "_x", "a b", "A-b", "ab", "Zest", "éclair", "Öl"}, names)

		v := mustRecipe(t, s, hs[0].ID, "Soup")
		require.NoError(t, s.SetTags(t.Context(), hs[0].ID, v.RecipeID, []string{"für Gäste", "Zest", "a", "B"}, ""))
		tags, err := s.ListTags(t.Context(), hs[0].ID)
		require.NoError(t, err)
		assert.Equal(t, []string{"B", "Zest", "a", "für Gäste"}, tags)
	})
}

func TestWordsAreFoundAlikeEverywhere(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "H")
		soup := mustRecipe(t, s, h.ID, `Pea SOUP, 50% less_salt \ "thin"`)
		mustRecipe(t, s, h.ID, "Bread")
		for words, want := range map[string]int{"soup": 1, "sOUP pea": 1, "bread soup": 0, "water": 2, "50%": 1, "s_u": 0, "less_": 1, `\`: 1, `"thin"`: 1, "%": 1} {
			list, all, err := s.FindRecipes(t.Context(), h.ID, kitchen.RecipeQuery{Words: words, Most: 10})
			require.NoError(t, err, words)
			assert.Equal(t, want, all, words)
			assert.Len(t, list, want, words)
		}
		require.NoError(t, s.SetTags(t.Context(), h.ID, soup.RecipeID, []string{"Quick"}, ""))
		_, all, err := s.FindRecipes(t.Context(), h.ID, kitchen.RecipeQuery{Words: "quick", Most: 10})
		require.NoError(t, err)
		assert.Equal(t, 1, all)
		for from, want := range map[int]string{0: "Bread", 1: soup.Text[:8]} {
			list, all, err := s.FindRecipes(t.Context(), h.ID, kitchen.RecipeQuery{From: from, Most: 1})
			require.NoError(t, err)
			require.Len(t, list, 1)
			assert.Equal(t, 2, all)
			assert.Contains(t, list[0].Title, want)
		}
	})
}

// A browser and a client may send bytes that are no text; a save must not fail for it.
func TestBytesThatAreNoTextDoNotStopASave(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, err := s.CreateHousehold(t.Context(), household.Household{Name: "Quay\x00 Lane"})
		require.NoError(t, err)
		v, err := s.CreateRecipe(t.Context(), h.ID, "So\xffup", recipe.Version{Text: "Soup\x00\n\n1 cup water \xf0\x9f", Corrections: []recipe.LineCorrection{{Words: "1 cup\x00 water", Correction: recipe.Correction{FoodID: "a\x00b"}}}})
		require.NoError(t, err)
		got, err := s.FindVersion(t.Context(), h.ID, v.ID)
		require.NoError(t, err)
		assert.Contains(t, got.Text, "1 cup water")
		assert.Equal(t, v.Corrections, got.Corrections)
	})
}

// Ids are 64 bits wide, and what is written under the largest is read again.
func TestIdsAreAsWideAsTheyAreInGo(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		const large = 1 << 53
		exec(t, s, "INSERT INTO households (id, name, name_key) VALUES (9007199254740992, 'H', 'h')")
		v := mustRecipe(t, s, large, "Soup")
		list, err := s.ListRecipes(t.Context(), large)
		require.NoError(t, err)
		require.Len(t, list, 1)
		assert.Equal(t, v.ID, list[0].LatestID)
	})
}
