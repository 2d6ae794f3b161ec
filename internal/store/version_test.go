package store_test

import (
	"fmt"
	"maps"
	"math"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

// fullVersion has something in every field a caller sets.
func fullVersion() recipe.Version {
	grams := spread.Range{Low: 1.0 / 3, Mid: 1, High: 2}
	return recipe.Version{
		Note: "less salt — für Zoë 🍲", Text: "Crème de pois\n\n½ cup peas\n\n1. Cook.\n",
		Corrections: []recipe.LineCorrection{
			{Words: "½ cup peas", Correction: recipe.Correction{FoodID: "sr:11304", Grams: &grams}},
			{Words: "salt", Nth: 2, Of: 3, Correction: recipe.Correction{Skip: true}}, {At: 5, Correction: recipe.Correction{Skip: true}},
		},
		Changes: []recipe.Change{
			{Line: 0, From: "1 cup peas", To: []string{"½ cup peas"}, RuleID: "peas-less", Why: []string{"fibre"}, For: []string{"Zoë"}},
			{Line: -1, From: "", To: []string{"1 lemon"}},
		},
		PanelJSON: `{"sodium_mg":{"low":1,"mid":2,"high":3}}`, PlatesJSON: "[]",
	}
}

func TestCreateRecipe(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		t.Run("the first version is read back as given", func(t *testing.T) {
			s := on.newStore(t)
			h := mustHousehold(t, s, "H")
			given := fullVersion()
			given.ParentID, given.Number = 99, 7 // a first version has no parent
			v, err := s.CreateRecipe(t.Context(), h.ID, "Crème de pois", given)
			require.NoError(t, err)
			want := fullVersion()
			want.ID, want.RecipeID, want.Number, want.SavedAt = v.ID, v.RecipeID, 1, fixedTime.UTC()
			assert.Equal(t, want, v)
			got, err := s.FindVersion(t.Context(), h.ID, v.ID)
			require.NoError(t, err)
			assert.Equal(t, v, got)
			second := mustRecipe(t, s, h.ID, "Soup")
			written, err := s.FindWritten(t.Context(), h.ID, []int64{second.ID, v.ID})
			require.NoError(t, err)
			assert.Equal(t, map[int64]recipe.Written{v.ID: {Text: v.Text, Corrections: v.Corrections}, second.ID: {Text: second.Text, Corrections: second.Corrections}}, written)
		})
		t.Run("a household that is not there is not found", func(t *testing.T) {
			_, err := on.newStore(t).CreateRecipe(t.Context(), 5, "Soup", recipe.Version{})
			assert.ErrorIs(t, err, kitchen.ErrNotFound)
		})
		t.Run("a version that cannot be written leaves no recipe behind", func(t *testing.T) {
			s := on.newStore(t)
			h := mustHousehold(t, s, "H")
			endless := spread.Exact(math.Inf(1))
			bad := recipe.Version{Corrections: []recipe.LineCorrection{{Words: "salt", Correction: recipe.Correction{Grams: &endless}}}}
			_, err := s.CreateRecipe(t.Context(), h.ID, "Soup", bad)
			require.Error(t, err)
			list, err := s.ListRecipes(t.Context(), h.ID)
			require.NoError(t, err)
			assert.Empty(t, list)
		})
	})
}

func TestFindAndListRecipes(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, other := mustHousehold(t, s, "H"), mustHousehold(t, s, "Other")
		list, err := s.ListRecipes(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Empty(t, list)

		soup, bread := mustRecipe(t, s, h.ID, "Soup"), mustRecipe(t, s, h.ID, "Bread")
		second, err := s.AddVersion(t.Context(), h.ID, "", recipe.Version{RecipeID: soup.RecipeID, ParentID: soup.ID})
		require.NoError(t, err)
		at := fixedTime.UTC()
		want := []kitchen.RecipeSummary{ // the one saved last first
			{ID: soup.RecipeID, Title: "Soup", Versions: 2, LatestID: second.ID, CreatedAt: at, SavedAt: at},
			{ID: bread.RecipeID, Title: "Bread", Versions: 1, LatestID: bread.ID, CreatedAt: at, SavedAt: at},
		}
		list, err = s.ListRecipes(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Equal(t, want, list)
		one, err := s.FindRecipe(t.Context(), h.ID, soup.RecipeID)
		require.NoError(t, err)
		assert.Equal(t, want[0], one)

		_, err = s.FindRecipe(t.Context(), h.ID, 99)
		assert.ErrorIs(t, err, kitchen.ErrNotFound)
		_, err = s.FindRecipe(t.Context(), other.ID, soup.RecipeID)
		assert.ErrorIs(t, err, kitchen.ErrNotFound, "another household's recipe")
		list, err = s.ListRecipes(t.Context(), other.ID)
		require.NoError(t, err)
		assert.Empty(t, list)
	})
}

func TestAddVersion(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, other := mustHousehold(t, s, "H"), mustHousehold(t, s, "Other")
		soup, bread := mustRecipe(t, s, h.ID, "Soup"), mustRecipe(t, s, h.ID, "Bread")

		t.Run("a tree is kept with its parents and numbers", func(t *testing.T) {
			want := []recipe.Version{soup}
			for _, parent := range []int{0, 0, 1, 2} { // indices into want
				v := fullVersion()
				v.RecipeID, v.ParentID = soup.RecipeID, want[parent].ID
				got, err := s.AddVersion(t.Context(), h.ID, "", v)
				require.NoError(t, err)
				assert.Equal(t, len(want)+1, got.Number)
				assert.Equal(t, v.ParentID, got.ParentID)
				want = append(want, got)
			}
			got, err := s.ListVersions(t.Context(), h.ID, soup.RecipeID)
			require.NoError(t, err)
			assert.Equal(t, want, got)
		})
		for name, c := range map[string]struct {
			household int64
			v         recipe.Version
		}{
			"a recipe that is not there":         {h.ID, recipe.Version{RecipeID: 99, ParentID: soup.ID}},
			"another household's recipe":         {other.ID, recipe.Version{RecipeID: soup.RecipeID, ParentID: soup.ID}},
			"no parent":                          {h.ID, recipe.Version{RecipeID: soup.RecipeID}},
			"a parent that is not there":         {h.ID, recipe.Version{RecipeID: soup.RecipeID, ParentID: 99}},
			"a parent that is of another recipe": {h.ID, recipe.Version{RecipeID: soup.RecipeID, ParentID: bread.ID}},
		} {
			t.Run(name+" is not found", func(t *testing.T) {
				_, err := s.AddVersion(t.Context(), c.household, "", c.v)
				assert.ErrorIs(t, err, kitchen.ErrNotFound)
			})
		}
		t.Run("another household sees no version", func(t *testing.T) {
			_, err := s.FindVersion(t.Context(), other.ID, soup.ID)
			assert.ErrorIs(t, err, kitchen.ErrNotFound)
			_, err = s.FindWritten(t.Context(), other.ID, []int64{soup.ID})
			require.ErrorIs(t, err, kitchen.ErrNotFound)
			vs, err := s.ListVersions(t.Context(), other.ID, soup.RecipeID)
			require.NoError(t, err)
			assert.Empty(t, vs)
		})
		t.Run("a version that is not there is not found", func(t *testing.T) {
			_, err := s.FindVersion(t.Context(), h.ID, 99)
			require.ErrorIs(t, err, kitchen.ErrNotFound)
			_, err = s.FindWritten(t.Context(), h.ID, []int64{soup.ID, 99})
			assert.ErrorIs(t, err, kitchen.ErrNotFound)
		})
	})
}

func TestVersionsAreNeverOverwritten(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "H")
		v := mustRecipe(t, s, h.ID, "Soup")
		refused := map[string]string{
			"UPDATE versions SET body = 'x'":              "never changed",
			"UPDATE versions SET note = note":             "never changed",
			"DELETE FROM versions":                        "never deleted",
			"DELETE FROM recipes":                         "foreign key",
			"INSERT INTO versions SELECT * FROM versions": "unique",
			"INSERT INTO versions SELECT * FROM versions WHERE true ON CONFLICT (id) DO UPDATE SET body = 'x'": "never changed",
		}
		maps.Copy(refused, on.more)
		for statement, words := range refused {
			_, err := s.pool.ExecContext(t.Context(), statement)
			require.Error(t, err, statement)
			assert.Contains(t, strings.ToLower(err.Error()), words, statement)
		}
		got, err := s.FindVersion(t.Context(), h.ID, v.ID)
		require.NoError(t, err)
		assert.Equal(t, v, got)
	})
}

// Two stores on one place stand for two processes: they share no Go lock.
func TestConcurrentWritersLoseNothing(t *testing.T) {
	eachEngineAlways(t, func(t *testing.T, on engine) {
		place := on.place(t)
		stores := []*kept{on.mustOpen(t, place, fixedNow), on.mustOpen(t, place, fixedNow)}
		h := mustHousehold(t, stores[0], "H")
		first := mustRecipe(t, stores[0], h.ID, "Soup")
		const writers, each = 4, 50

		var wg sync.WaitGroup
		errs := make(chan error, 2*writers*each)
		for w := range writers {
			s := stores[w%len(stores)]
			wg.Go(func() {
				for i := range each {
					note := fmt.Sprintf("writer %d, version %d", w, i)
					_, err := s.AddVersion(t.Context(), h.ID, "", recipe.Version{RecipeID: first.RecipeID, ParentID: first.ID, Note: note})
					errs <- err
					_, err = s.ListVersions(t.Context(), h.ID, first.RecipeID) // readers do not wait
					errs <- err
				}
			})
		}
		wg.Wait()
		close(errs)
		for err := range errs {
			require.NoError(t, err)
		}

		vs, err := stores[1].ListVersions(t.Context(), h.ID, first.RecipeID)
		require.NoError(t, err)
		require.Len(t, vs, 1+writers*each)
		notes := map[string]bool{}
		for i, v := range vs {
			assert.Equal(t, i+1, v.Number)
			notes[v.Note] = true
		}
		assert.Len(t, notes, 1+writers*each)
	})
}

// The model is a map of recipes to versions by household; the store must agree
// with it at the end of every run, and each answer on the way.
func TestVersionsAgreeWithModel(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		houses := []int64{mustHousehold(t, s, "A").ID, mustHousehold(t, s, "B").ID}
		rapid.Check(t, func(t *rapid.T) {
			ctx := t.Context()
			type key struct{ house, recipe int64 }
			model := map[key][]recipe.Version{}
			var keys []key
			text := rapid.Map(rapid.String(), func(s string) string { return strings.ReplaceAll(s, "\x00", "") }) // no engine needs to keep it
			draw := func() recipe.Version {
				return recipe.Version{Text: text.Draw(t, "text"), Note: text.Draw(t, "note"), PanelJSON: text.Draw(t, "panel")}
			}
			t.Repeat(map[string]func(*rapid.T){
				"create": func(t *rapid.T) {
					house := rapid.SampledFrom(houses).Draw(t, "house")
					v, err := s.CreateRecipe(ctx, house, text.Draw(t, "title"), draw())
					require.NoError(t, err)
					k := key{house, v.RecipeID}
					keys = append(keys, k)
					model[k] = []recipe.Version{v}
				},
				"add": func(t *rapid.T) {
					if len(keys) == 0 {
						t.Skip("no recipe yet")
					}
					k, from := rapid.SampledFrom(keys).Draw(t, "recipe"), rapid.SampledFrom(keys).Draw(t, "parent's recipe")
					house := rapid.SampledFrom(houses).Draw(t, "house")
					v := draw()
					v.RecipeID = k.recipe
					v.ParentID = rapid.SampledFrom(model[from]).Draw(t, "parent").ID
					got, err := s.AddVersion(ctx, house, "", v)
					if house != k.house || from != k {
						require.ErrorIs(t, err, kitchen.ErrNotFound)
						return
					}
					require.NoError(t, err)
					require.Equal(t, len(model[k])+1, got.Number)
					v.ID, v.Number, v.SavedAt = got.ID, got.Number, got.SavedAt
					require.Equal(t, v, got)
					model[k] = append(model[k], got)
				},
			})
			for k, want := range model {
				got, err := s.ListVersions(ctx, k.house, k.recipe)
				require.NoError(t, err)
				require.Equal(t, want, got)
			}
		})
	})
}
