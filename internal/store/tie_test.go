package store_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
	"potwright/internal/store"
)

// numberedSchema is the last schema that kept corrections by the number of their line.
const numberedSchema = 11

// A database of before is brought up to date once: what a number meant is told by the
// changes made to the same text, and what nothing tells is kept as a stray.
func TestCorrectionsKeptByNumberAreTiedToWords(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		place := on.place(t)
		on.writeReleased(t, place, numberedSchema)
		pool := on.mustPool(t, place)
		run := func(id, parent, number int, body, fixes, changes string) {
			_, err := pool.ExecContext(t.Context(), fmt.Sprintf(`INSERT INTO versions (id, recipe_id, parent_id, number, saved_at, body, fixes, changes)
				VALUES (%d, 7, %d, %d, '2024-03-03T10:00:00.000000000Z', '%s', '%s', '%s')`, id, parent, number, body, fixes, changes))
			require.NoError(t, err)
		}
		const soup = "Soup\n\n1 can beans\n2 cups broth\n1 onion\n"
		corrected := `[{"line":0,"from":"2 cups broth","to":["2 cups broth"]}]` // "1 can beans" was no ingredient then
		run(40, 12, 3, soup, "{}", "[]")
		run(41, 40, 4, soup, `{"0":{"food_id":"sr:2"}}`, corrected)
		run(42, 41, 5, soup, `{"0":{"food_id":"sr:2"},"1":{"skip":true}}`, "null")
		run(43, 42, 6, "Soup\n\n1 can beans\n", `{"0":{"skip":true},"4":{"skip":true}}`, "[]")
		run(44, 43, 7, "Soup\n\n1 can beans\n", `{"x":{}}`, "[]")
		require.NoError(t, pool.Close())

		s := on.mustOpen(t, place, fixedNow)
		broth := recipe.LineCorrection{Words: "2 cups broth", Correction: recipe.Correction{FoodID: "sr:2"}}
		skip := recipe.Correction{Skip: true}
		for id, want := range map[int64][]recipe.LineCorrection{
			12: {{Words: "½ cup peas", Correction: recipe.Correction{FoodID: "sr:11304"}}},
			40: nil, 41: {broth}, 42: {broth, {At: 2, Correction: skip}},
			43: {{Words: "1 can beans", Correction: skip}, {At: 5, Correction: skip}},
		} {
			v, err := s.FindVersion(t.Context(), 1, id)
			require.NoError(t, err)
			assert.Equal(t, want, v.Corrections, "version %d", id)
			written, err := s.FindWritten(t.Context(), 1, []int64{id})
			require.NoError(t, err)
			assert.Equal(t, want, written[id].Corrections, "version %d", id)
		}
		_, err := s.FindVersion(t.Context(), 1, 44)
		require.ErrorContains(t, err, "table versions, row 44: fixes is damaged", "one that is damaged does not keep the others shut")
		_, err = s.pool.ExecContext(t.Context(), "UPDATE versions SET corrections = '[]' WHERE id = 41")
		require.ErrorContains(t, err, "a saved version is never changed")
		_, err = s.pool.ExecContext(t.Context(), "UPDATE versions SET corrections = '[]', body = 'other' WHERE id = 44")
		require.ErrorContains(t, err, "a saved version is never changed")
	})
}

// A program of before may still have the database open and save by number.
func TestAVersionSavedByNumberAfterwardsIsRead(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "H")
		v := mustRecipe(t, s, h.ID, "Soup")
		exec(t, s, fmt.Sprintf(`INSERT INTO versions (id, recipe_id, parent_id, number, saved_at, body, fixes)
			VALUES (99, %d, %d, 2, '2024-03-03T10:00:00.000000000Z', 'Soup

1 can beans
2 cups broth', '{"1":{"skip":true}}')`, v.RecipeID, v.ID))
		got, err := s.FindVersion(t.Context(), h.ID, 99)
		require.NoError(t, err)
		assert.Equal(t, []recipe.LineCorrection{{Words: "2 cups broth", Correction: recipe.Correction{Skip: true}}}, got.Corrections)
	})
}

func TestAMigrationHasAStepForItsNumberAlone(t *testing.T) {
	for _, e := range engines() {
		ms, err := store.Migrations(os.DirFS(e.name))
		require.NoError(t, err)
		assert.Equal(t, "0012_corrections_by_words.sql", ms[numberedSchema].Name, "what ties corrections runs with this one")
	}
}
