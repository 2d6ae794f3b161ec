package sqlite

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/measure"
	"potwright/internal/store"
)

// TestEveryReleasedSchemaIsBroughtUpToDateWithItsData starts from each number in
// turn. testdata/schema/NNNN.sql puts rows into what migration NNNN added; a
// migration without one fails here.
func TestEveryReleasedSchemaIsBroughtUpToDateWithItsData(t *testing.T) {
	newest, err := NewestSchema()
	require.NoError(t, err)
	for at := 1; at <= newest; at++ {
		t.Run(fmt.Sprintf("from schema %d", at), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "kitchen.db")
			before := writeReleased(t, path, at)

			s := mustOpen(t, path)
			version, _ := schemaOf(t, s)
			assert.Equal(t, newest, version)
			after := rowsOf(t, s, before)
			assert.Equal(t, before, after, "every row and column is as it was")
			checkReleased(t, s, at)

			kept := LastGoodBackup(t.Context(), path)
			if at == newest {
				assert.Empty(t, kept, "nothing was changed, so nothing was copied")
				return
			}
			c, err := Verify(t.Context(), kept)
			require.NoError(t, err)
			assert.Equal(t, store.Condition{Schema: at, Households: 2, Recipes: 2, Versions: 3}, c, "the file was copied before it was changed")
		})
	}
}

// writeReleased makes a file of a schema with rows in all of its tables.
func writeReleased(t *testing.T, path string, at int) map[string][]string {
	t.Helper()
	s, err := open(path, fixedNow)
	require.NoError(t, err)
	require.NoError(t, s.migrate(t.Context(), at))
	for n := 1; n <= at; n++ {
		rows, err := os.ReadFile(fmt.Sprintf("../testdata/schema/%04d.sql", n))
		require.NoError(t, err, "migration %d needs rows to be tested with", n)
		exec(t, s, string(rows))
	}
	pool, err := s.db.DB()
	require.NoError(t, err)
	tables, err := texts(t.Context(), pool, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
	require.NoError(t, err)
	columns := map[string][]string{}
	for _, table := range tables {
		names, err := texts(t.Context(), pool, fmt.Sprintf("SELECT '''' || name || '='' || quote(' || name || ')' FROM pragma_table_info('%s')", table))
		require.NoError(t, err)
		for _, name := range names {
			columns[table+" "+name] = nil
		}
	}
	before := rowsOf(t, s, columns)
	require.NoError(t, s.Close())
	return before
}

// rowsOf is what the columns hold, "TABLE EXPRESSION" to a text a row.
func rowsOf(t *testing.T, s *Store, columns map[string][]string) map[string][]string {
	t.Helper()
	pool, err := s.db.DB()
	require.NoError(t, err)
	out := map[string][]string{}
	for key := range columns {
		table, column, _ := strings.Cut(key, " ")
		out[key], err = texts(t.Context(), pool, "SELECT "+column+" FROM "+table+" ORDER BY rowid")
		require.NoError(t, err)
		assert.NotEmpty(t, out[key], "testdata/schema holds no row of %s", table)
	}
	return out
}

// checkReleased reads the rows as the program does.
func checkReleased(t *testing.T, s *Store, at int) {
	t.Helper()
	hs, err := s.ListHouseholds(t.Context())
	require.NoError(t, err)
	require.Len(t, hs, 2)
	require.Len(t, hs[0].Members, 2)
	assert.Equal(t, "Zoë", hs[0].Members[0].Name)
	assert.Equal(t, measure.US, hs[0].Measures, "what a household was before it could say")
	assert.Equal(t, at >= 4, hs[1].Measures == measure.UK)
	assert.Equal(t, at >= 5, len(hs[0].Members[0].Cautions) == 1)
	vs, err := s.ListVersions(t.Context(), 1, 7)
	require.NoError(t, err)
	require.Len(t, vs, 2)
	assert.Equal(t, "sr:11304", vs[1].Fixes[0].FoodID)
	choices, err := s.Choices(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, at >= 2, choices["crème"].Skip)
	w, err := s.Wishes(t.Context(), 1, 7)
	require.NoError(t, err)
	assert.Equal(t, at >= 2, w.MaxChanges == 2)
	ps, err := s.ListProducts(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, at >= 3, len(ps) == 1)
	eaten, err := s.ListEntries(t.Context(), 1, "2024-03-01", "2024-03-31")
	require.NoError(t, err)
	assert.Equal(t, at >= 6, len(eaten) == 2)
	stock, err := s.ListContainers(t.Context(), 1)
	require.NoError(t, err)
	assert.Equal(t, at >= 6, len(stock) == 1)
	made, err := s.ListMade(t.Context(), 1, 7)
	require.NoError(t, err)
	assert.Equal(t, at >= 6, len(made) == 1 && made[0].Remark == "too thin")
}
