package store_test

import (
	"database/sql"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/measure"
	"potwright/internal/recipe"
	"potwright/internal/store"
	"potwright/internal/store/sqlite"
)

// TestEveryReleasedSchemaIsBroughtUpToDateWithItsData starts from each number in
// turn. testdata/schema/NNNN.sql puts rows into what migration NNNN added; a
// migration without one fails here.
func TestEveryReleasedSchemaIsBroughtUpToDateWithItsData(t *testing.T) {
	newest, err := sqlite.NewestSchema()
	require.NoError(t, err)
	eachEngine(t, func(t *testing.T, on engine) {
		for at := 1; at <= newest; at++ {
			if testing.Short() && at%5 != 1 {
				continue // the long run starts from each
			}
			t.Run(fmt.Sprintf("from schema %d", at), func(t *testing.T) {
				place := on.place(t)
				before, columns := on.writeReleased(t, place, at)
				s := on.mustOpen(t, place, fixedNow)
				assert.Equal(t, before, rowsOf(t, s.pool, columns), "every row and column is as it was")
				checkReleased(t, s, at)
			})
		}
	})
}

// An engine's migrations lead through the same tables and columns as another's, so that
// one number means the same everywhere.
func TestASchemaHasTheSameTablesInEveryEngine(t *testing.T) {
	of := map[string]map[string][]string{}
	names := map[string][]string{}
	eachEngine(t, func(t *testing.T, on engine) {
		of[on.name] = on.columnsOf(t, on.newStore(t).pool)
		ms, err := store.Migrations(os.DirFS(on.name))
		require.NoError(t, err)
		for _, m := range ms {
			names[on.name] = append(names[on.name], m.Name)
		}
	})
	for _, e := range engines() {
		if of[e.name] != nil { // it was not skipped
			assert.Equal(t, of["sqlite"], of[e.name])
			assert.Equal(t, names["sqlite"], names[e.name])
		}
	}
}

// writeReleased makes, as a release with that schema did, a database with rows in all
// of its tables, and gives them.
func (e engine) writeReleased(t *testing.T, place string, at int) (rows, columns map[string][]string) {
	t.Helper()
	pool := e.mustPool(t, place)
	run := func(statements string) {
		_, err := pool.ExecContext(t.Context(), statements)
		require.NoError(t, err)
	}
	ms, err := store.Migrations(os.DirFS(e.name))
	require.NoError(t, err)
	for _, m := range ms[:at] {
		run(m.SQL)
		run(fmt.Sprintf(e.record, m.Number))
	}
	for _, m := range ms[:at] {
		rows, err := os.ReadFile(fmt.Sprintf("testdata/schema/%04d.sql", m.Number))
		require.NoError(t, err, "migration %d needs rows to be tested with", m.Number)
		run(strings.ReplaceAll(string(rows), "X'", e.bytes))
	}
	run(e.settle)
	columns = e.columnsOf(t, pool)
	rows = rowsOf(t, pool, columns)
	require.NoError(t, pool.Close())
	return rows, columns
}

// checkReleased reads the rows as the program does.
func checkReleased(t *testing.T, s *kept, at int) {
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
	assert.Equal(t, []recipe.LineCorrection{{Words: "½ cup peas", Correction: recipe.Correction{FoodID: "sr:11304"}}}, vs[1].Corrections)
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
	photos, err := s.ListPhotos(t.Context(), 1, 7)
	require.NoError(t, err)
	assert.Equal(t, at >= 9, len(photos) == 2 && photos[0].Main && photos[1].OnCard)
}

// columnsOf are the columns of a database's tables.
func (e engine) columnsOf(t *testing.T, pool *sql.DB) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for _, table := range texts(t, pool, e.tables) {
		rows, err := pool.QueryContext(t.Context(), "SELECT * FROM "+table+" LIMIT 0")
		require.NoError(t, err)
		out[table], err = rows.Columns()
		require.NoError(t, err)
		require.NoError(t, rows.Close())
	}
	return out
}

// rowsOf is what columns of tables hold: by table a text a row, in order.
func rowsOf(t *testing.T, pool *sql.DB, columns map[string][]string) map[string][]string {
	t.Helper()
	out := map[string][]string{}
	for table, names := range columns {
		out[table] = rowsIn(t, pool, table, names)
		require.NotEmpty(t, out[table], "testdata/schema holds no row of %s", table)
	}
	return out
}

func rowsIn(t *testing.T, pool *sql.DB, table string, names []string) []string {
	t.Helper()
	rows, err := pool.QueryContext(t.Context(), "SELECT "+strings.Join(names, ", ")+" FROM "+table)
	require.NoError(t, err)
	defer rows.Close()
	var out []string
	for rows.Next() {
		values := make([]any, len(names))
		into := make([]any, len(names))
		for i := range values {
			into[i] = &values[i]
		}
		require.NoError(t, rows.Scan(into...))
		var b strings.Builder
		for i, name := range names {
			value := values[i]
			switch value { // SQLite has no type for these
			case true:
				value = 1
			case false:
				value = 0
			}
			fmt.Fprintf(&b, "%s=%v ", name, value)
		}
		out = append(out, b.String())
	}
	require.NoError(t, rows.Err())
	slices.Sort(out)
	return out
}
