package store_test

import (
	"context"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
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

		require.NoError(t, here.RememberChoice(t.Context(), h.ID, "broth", recipe.Correction{FoodID: "sr:1"}, ""))
		changed("an own save")
		assert.NotEqual(t, other, revisionOf(t, elsewhere), "the same save, seen by the other")
		require.NoError(t, elsewhere.ForgetChoice(t.Context(), h.ID, "broth", ""))
		changed("a save by another program")
		exec(t, here, "UPDATE recipes SET title = 'Harbour chowder'")
		changed("a statement from outside")

		before := revisionOf(t, here)
		_, err := here.FindVersion(t.Context(), h.ID, v.ID)
		require.NoError(t, err)
		require.Error(t, here.Refuse(t.Context(), h.ID+1, "low-salt-broth", true))
		assert.Equal(t, before, revisionOf(t, here), "nothing was saved")
	})
}

// TestWhatRestsOnARecipeOutlivesTheSavesOfOthers holds whichever program saves.
func TestWhatRestsOnARecipeOutlivesTheSavesOfOthers(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		here := on.newStore(t)
		elsewhere := on.mustOpen(t, here.place, fixedNow)
		h := mustHousehold(t, here, "Harbour Street")
		soup, bread := mustRecipe(t, here, h.ID, "Soup"), mustRecipe(t, here, h.ID, "Bread")
		of := func(recipeID int64) string {
			r, err := here.RevisionOf(t.Context(), recipeID)
			require.NoError(t, err)
			return r
		}
		further := func(s *kept, v recipe.Version) {
			t.Helper()
			v.ParentID = v.ID
			_, err := s.AddVersion(t.Context(), h.ID, "", v)
			require.NoError(t, err)
		}
		tag := func(s *kept, recipeID int64) error {
			return s.SetTags(t.Context(), h.ID, recipeID, []string{fmt.Sprint(of(recipeID))}, "")
		}
		for what, c := range map[string]struct {
			save              func() error
			none, soup, bread bool // what a save must show for
		}{
			"a version": {func() error { further(here, soup); return nil }, false, true, false},
			"tags":      {func() error { return tag(here, bread.RecipeID) }, false, false, true},
			"wishes": {func() error {
				return here.SaveWishes(t.Context(), h.ID, soup.RecipeID, adaptation.Wishes{MaxChanges: 2}, "")
			}, false, true, false},
			"another recipe": {func() error { mustRecipe(t, here, h.ID, "Pie"); return nil }, false, false, false},
			"what a phrase means": {func() error {
				return here.RememberChoice(t.Context(), h.ID, "broth", recipe.Correction{FoodID: "sr:1"}, "")
			}, true, true, true},
			"a version by another program":                   {func() error { further(elsewhere, soup); return nil }, false, true, false},
			"tags by another program":                        {func() error { return tag(elsewhere, bread.RecipeID) }, false, false, true},
			"a household's name by a statement from outside": {func() error { exec(t, here, "UPDATE households SET name = 'Quay'"); return nil }, true, true, true},
			"titles by a statement from outside":             {func() error { exec(t, here, "UPDATE recipes SET title = 'Pot'"); return nil }, false, true, true},
		} {
			none, ofSoup, ofBread, all := of(0), of(soup.RecipeID), of(bread.RecipeID), revisionOf(t, here)
			require.NoError(t, c.save(), what)
			assert.Equal(t, c.none, none != of(0), what)
			assert.Equal(t, c.soup, ofSoup != of(soup.RecipeID), what)
			assert.Equal(t, c.bread, ofBread != of(bread.RecipeID), what)
			assert.NotEqual(t, all, revisionOf(t, here), what)
		}
	})
}

// TestSavesAreToldApartInTheMidstOfOthers has two programs save, each many times, while
// others ask: nobody is told that nothing was saved where the other has.
func TestSavesAreToldApartInTheMidstOfOthers(t *testing.T) {
	eachEngineAlways(t, func(t *testing.T, on engine) {
		here := on.newStore(t)
		elsewhere := on.mustOpen(t, here.place, fixedNow)
		h := mustHousehold(t, here, "Harbour Street")
		soup, bread := mustRecipe(t, here, h.ID, "Soup"), mustRecipe(t, here, h.ID, "Bread")
		var busy sync.WaitGroup
		stop := make(chan struct{})
		end := sync.OnceFunc(func() { close(stop); busy.Wait() })
		defer end()
		busy.Go(func() {
			for v := soup; ; {
				select {
				case <-stop:
					return
				default:
				}
				v.ParentID = soup.ID
				_, err := here.AddVersion(t.Context(), h.ID, "", v)
				assert.NoError(t, err)
				time.Sleep(2 * time.Millisecond) // SQLite's lock is not fair: the other must find it free
			}
		})
		busy.Go(func() {
			for {
				select {
				case <-stop:
					return
				default:
					_, err := here.RevisionOf(t.Context(), bread.RecipeID)
					assert.NoError(t, err)
				}
			}
		})
		for n := range 20 {
			before, err := here.RevisionOf(t.Context(), bread.RecipeID)
			require.NoError(t, err)
			require.NoError(t, elsewhere.SetTags(t.Context(), h.ID, bread.RecipeID, []string{fmt.Sprint(n)}, ""))
			after, err := here.RevisionOf(t.Context(), bread.RecipeID)
			require.NoError(t, err)
			assert.NotEqual(t, before, after)
		}
		end()
		before, err := here.RevisionOf(t.Context(), bread.RecipeID)
		require.NoError(t, err)
		for range 20 {
			_, err := here.AddVersion(t.Context(), h.ID, "", recipe.Version{RecipeID: soup.RecipeID, ParentID: soup.ID})
			require.NoError(t, err)
		}
		after, err := here.RevisionOf(t.Context(), bread.RecipeID)
		require.NoError(t, err)
		assert.Equal(t, before, after, "of another recipe alone")
	})
}

// TestWhoeverLeavesIsTheirOwnError ends the context of a question and of a save before
// and while they are asked.
func TestWhoeverLeavesIsTheirOwnError(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "Harbour Street")
		v := mustRecipe(t, s, h.ID, "Soup")
		for n := range 30 {
			ctx, cancel := context.WithTimeout(t.Context(), time.Duration(n)*50*time.Microsecond)
			_, err := s.FindVersion(ctx, h.ID, v.ID)
			if err != nil {
				assert.ErrorIs(t, err, context.DeadlineExceeded)
			}
			if err := s.SetTags(ctx, h.ID, v.RecipeID, []string{fmt.Sprint(n)}, ""); err != nil {
				assert.ErrorIs(t, err, context.DeadlineExceeded)
			}
			cancel()
		}
		require.NoError(t, s.SetTags(t.Context(), h.ID, v.RecipeID, []string{"after"}, ""), "the store goes on")
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

// TestEveryTableNotesItsSaves finds for each table what notes that rows of it were put
// in, changed or taken out.
func TestEveryTableNotesItsSaves(t *testing.T) {
	events := map[string]string{
		"sqlite":   "SELECT tbl_name || ' ' || CASE WHEN sql LIKE '%AFTER INSERT ON%' THEN 'INSERT' WHEN sql LIKE '%AFTER UPDATE ON%' THEN 'UPDATE' ELSE 'DELETE' END FROM sqlite_schema WHERE type = 'trigger' AND sql LIKE '%INSERT INTO saving%'",
		"postgres": "SELECT event_object_table || ' ' || event_manipulation FROM information_schema.triggers WHERE trigger_schema = current_schema() AND action_statement LIKE '%note_save%'",
	}
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		noted := texts(t, s.pool, events[on.name])
		for _, table := range texts(t, s.pool, on.tables) {
			for _, event := range []string{"INSERT", "UPDATE", "DELETE"} {
				if table != "saves" && (table != "versions" || event == "INSERT") { // a version is never changed
					assert.Contains(t, noted, table+" "+event)
				}
			}
		}
	})
}
