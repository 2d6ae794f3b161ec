package store_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
	"potwright/internal/product"
	"potwright/internal/recipe"
	"potwright/internal/store/sqlite"
)

// notHeld are the tables whose rows stay where they are, with the reason.
var notHeld = map[string]string{
	"accounts": "an archive is handed on; who may come in is decided where it is taken in, and no hash of a passphrase leaves",
	"sessions": "a sign-in holds on one server alone",
	"tokens":   "a client is let in by the server that made its token",
	"links":    "an address leads to one server alone",
	"saves":    "it numbers what was saved in one database",
}

// TestEveryTableComesBackFromHoldings walks the schema: what testdata/schema puts
// into each table must be there after everything is taken out and taken in again, by
// the same engine or another. Ids are new; every other column is the same, row by row.
func TestEveryTableComesBackFromHoldings(t *testing.T) {
	newest, err := sqlite.NewestSchema()
	require.NoError(t, err)
	eachEngine(t, func(t *testing.T, from engine) {
		place := from.place(t)
		_, columns := from.writeReleased(t, place, newest)
		old := from.mustOpen(t, place, fixedNow)
		for table, names := range columns {
			columns[table] = slices.DeleteFunc(names, func(name string) bool {
				return name == "id" || strings.HasSuffix(name, "_id") || name == "fixes" // which come back as corrections
			})
			if _, stays := notHeld[table]; stays {
				delete(columns, table)
			}
		}
		hs, err := old.ListHouseholds(t.Context())
		require.NoError(t, err)
		var all []kitchen.Holdings
		for _, h := range hs {
			held, err := old.Holdings(t.Context(), h.ID)
			require.NoError(t, err)
			all = append(all, held)
		}
		before := rowsOf(t, old.pool, columns)
		eachEngine(t, func(t *testing.T, to engine) {
			fresh := to.newStore(t)
			_, err := fresh.TakeHoldings(t.Context(), all)
			require.NoError(t, err)
			for table, rows := range rowsOf(t, fresh.pool, columns) {
				assert.Equal(t, before[table], rows, "table %s: give kitchen.Holdings a part for what is missing", table)
			}
		})
	})
}

func TestTakenHoldingsAreTheSame(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, err := s.CreateHousehold(t.Context(), fullHousehold())
		require.NoError(t, err)
		_, err = s.SaveProduct(t.Context(), h.ID, product.Product{Label: product.Label{Name: "gone", Panel: product.US}}, "")
		require.NoError(t, err)
		p, err := s.SaveProduct(t.Context(), h.ID, product.Product{Label: product.Label{Name: "plain tomatoes", Panel: product.US}}, "")
		require.NoError(t, err)
		require.NoError(t, s.DeleteProduct(t.Context(), h.ID, 1)) // so that ids will differ
		require.NoError(t, s.RememberChoice(t.Context(), h.ID, "tomatoes", recipe.Correction{FoodID: p.FoodID()}, ""))
		first := mustRecipe(t, s, h.ID, "Soup")
		mustRecipe(t, s, h.ID, "Bread")
		second := fullVersion()
		second.RecipeID, second.ParentID = first.RecipeID, first.ID
		second.Corrections = append(second.Corrections, recipe.LineCorrection{Words: "1 can tomatoes", Correction: recipe.Correction{FoodID: p.FoodID()}})
		_, err = s.AddVersion(t.Context(), h.ID, "Better soup", second)
		require.NoError(t, err)
		held, err := s.Holdings(t.Context(), h.ID)
		require.NoError(t, err)

		fresh := on.newStore(t)
		taken, err := fresh.TakeHoldings(t.Context(), []kitchen.Holdings{held})
		require.NoError(t, err)
		got, err := fresh.Holdings(t.Context(), taken[0].ID)
		require.NoError(t, err)
		assert.Equal(t, "own:1", got.Choices["tomatoes"].FoodID, "the product has a new id")
		list, err := fresh.ListRecipes(t.Context(), taken[0].ID)
		require.NoError(t, err)
		assert.Equal(t, "Better soup", list[0].Title, "what was saved last stays first in the list")
		assert.Equal(t, "own:1", got.Recipes[1].Versions[1].Corrections[3].FoodID)
		assert.Equal(t, withoutIDs(held), withoutIDs(got))
	})
}

// foodsOf are corrections of lines that name foods.
func foodsOf(ids ...string) (out []recipe.LineCorrection) {
	for i, id := range ids {
		out = append(out, recipe.LineCorrection{Words: fmt.Sprint(i+1, " cups"), Correction: recipe.Correction{FoodID: id}})
	}
	return out
}

// withoutIDs is the holdings with ids as an archive numbers them.
func withoutIDs(h kitchen.Holdings) kitchen.Holdings {
	h.Household.ID, h.Album = 0, nil
	for i := range h.Household.Members {
		h.Household.Members[i].ID = int64(i)
	}
	own := map[string]string{}
	for i := range h.Products {
		own[h.Products[i].FoodID()] = fmt.Sprint("product ", i)
		h.Products[i].ID = int64(i)
	}
	renamed := func(c recipe.Correction) recipe.Correction {
		if id, ok := own[c.FoodID]; ok {
			c.FoodID = id
		}
		return c
	}
	for phrase, c := range h.Choices {
		h.Choices[phrase] = renamed(c)
	}
	for _, r := range h.Recipes {
		numbers := map[int64]int64{}
		for i := range r.Versions {
			v := &r.Versions[i]
			numbers[v.ID] = int64(v.Number)
			v.ID, v.RecipeID, v.ParentID = int64(v.Number), 0, numbers[v.ParentID]
			for line, c := range v.Corrections {
				v.Corrections[line].Correction = renamed(c.Correction)
			}
		}
	}
	return h
}

func TestHoldingsAreTakenWholeOrNotAtAll(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		good := kitchen.Holdings{Recipes: []kitchen.HeldRecipe{{Title: "Soup", Versions: []recipe.Version{{ID: 1, Number: 1}}}}}
		good.Household.Name = "Quay Lane"
		for name, bad := range map[string]kitchen.Holdings{
			"a name taken":               good,
			"two versions of a number":   {Recipes: []kitchen.HeldRecipe{{Versions: []recipe.Version{{ID: 1, Number: 1}, {ID: 2, Number: 1}}}}},
			"a parent that is not there": {Recipes: []kitchen.HeldRecipe{{Versions: []recipe.Version{{ID: 1, Number: 1}, {ID: 2, Number: 2, ParentID: 9}}}}},
		} {
			if bad.Household.Name == "" {
				bad.Household.Name = "Other"
			}
			_, err := s.TakeHoldings(t.Context(), []kitchen.Holdings{good, bad})
			require.ErrorContains(t, err, "nothing was saved", name)
			hs, err := s.ListHouseholds(t.Context())
			require.NoError(t, err)
			assert.Empty(t, hs, name)
		}
	})
}

func TestTakeRecipes(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "H")
		own, err := s.SaveProduct(t.Context(), h.ID, product.Product{Label: product.Label{Name: "Plain  Tomatoes", Panel: product.EU}}, "")
		require.NoError(t, err)
		given := kitchen.Holdings{
			Products: []product.Product{{ID: 40, Label: product.Label{Name: "plain tomatoes", Panel: product.US}}, {ID: 41, Label: product.Label{Name: "oat bread", Panel: product.US}}},
			Recipes:  []kitchen.HeldRecipe{{Title: "Soup", Versions: []recipe.Version{{ID: 1, Number: 1, Corrections: foodsOf("own:40", "own:41", "sr:1")}}}},
		}
		ids, err := s.TakeRecipes(t.Context(), h.ID, given)
		require.NoError(t, err)
		vs, err := s.ListVersions(t.Context(), h.ID, ids[0])
		require.NoError(t, err)
		ps, err := s.ListProducts(t.Context(), h.ID)
		require.NoError(t, err)
		require.Len(t, ps, 2, "the household's own tomatoes stand for the others")
		assert.Equal(t, foodsOf(own.FoodID(), ps[0].FoodID(), "sr:1"), vs[0].Corrections)
		_, err = s.TakeRecipes(t.Context(), 99, given)
		assert.ErrorIs(t, err, kitchen.ErrNotFound)
	})
}
