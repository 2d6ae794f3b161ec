package sqlite

import (
	"database/sql"
	"fmt"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func newStatements(t *testing.T) *statements {
	t.Helper()
	dsn, err := dataSource(filepath.Join(t.TempDir(), "data.db"), pragmas)
	require.NoError(t, err)
	pool, err := sql.Open("sqlite", dsn)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, pool.Close()) })
	return &statements{DB: pool}
}

func TestManyAskAtOnceAndNoMoreStatementsAreKeptThanMayBe(t *testing.T) {
	s := newStatements(t)
	var asking sync.WaitGroup
	for range 4 {
		asking.Go(func() {
			for n := range keptStatements + 10 {
				var got int
				assert.NoError(t, s.QueryRowContext(t.Context(), fmt.Sprintf("SELECT %d + ?", n), 1).Scan(&got))
				assert.Equal(t, n+1, got)
			}
		})
	}
	asking.Wait()
	assert.LessOrEqual(t, len(s.kept), keptStatements+3, "each of the four may add one at once")
}

func TestAKeptQuestionSeesWhatBecameOfItsTable(t *testing.T) {
	s := newStatements(t)
	columns := func() []string {
		rows, err := s.QueryContext(t.Context(), "SELECT * FROM jars")
		require.NoError(t, err)
		defer func() { require.NoError(t, rows.Close()) }()
		names, err := rows.Columns()
		require.NoError(t, err)
		require.False(t, rows.Next())
		require.NoError(t, rows.Err())
		return names
	}
	for _, text := range []string{"CREATE TABLE jars (a)", "ALTER TABLE jars ADD b"} {
		_, err := s.ExecContext(t.Context(), text)
		require.NoError(t, err)
		columns()
	}
	assert.Equal(t, []string{"a", "b"}, columns())
	_, err := s.QueryContext(t.Context(), "SELECT c FROM jars")
	assert.ErrorContains(t, err, "no such column: c")
	assert.Len(t, s.kept, 1, "what can't be asked is not kept")
}
