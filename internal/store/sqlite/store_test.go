package sqlite

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/recipe"
)

// fixedTime has nanoseconds and a named zone, both of which must survive.
var fixedTime = time.Date(2026, 3, 1, 9, 30, 0, 123456789, time.FixedZone("UTC+2", 7200))

func fixedNow() time.Time { return fixedTime }

func mustOpen(t *testing.T, path string) *Store {
	t.Helper()
	s, err := Open(path, fixedNow)
	require.NoError(t, err)
	t.Cleanup(func() { _ = s.Close() })
	return s
}

func newStore(t *testing.T) *Store {
	t.Helper()
	return mustOpen(t, filepath.Join(t.TempDir(), "kitchen.db"))
}

func mustHousehold(t *testing.T, s *Store, name string) household.Household {
	t.Helper()
	h, err := s.CreateHousehold(t.Context(), household.Household{Name: name})
	require.NoError(t, err)
	return h
}

func mustRecipe(t *testing.T, s *Store, householdID int64, title string) recipe.Version {
	t.Helper()
	v, err := s.CreateRecipe(t.Context(), householdID, title, recipe.Version{Text: title + "\n\n1 cup water"})
	require.NoError(t, err)
	return v
}

func TestOpen(t *testing.T) {
	t.Run("a path with URI characters and letters beyond ASCII is one file", func(t *testing.T) {
		dir := t.TempDir()
		path := filepath.Join(dir, "küche ?#%41 50%.db")
		s := mustOpen(t, path)
		mustHousehold(t, s, "Harbour Street")
		require.NoError(t, s.Close())
		_, err := os.Stat(path)
		require.NoError(t, err)
		hs, err := mustOpen(t, path).ListHouseholds(t.Context())
		require.NoError(t, err)
		assert.Len(t, hs, 1)
		assert.NoFileExists(t, filepath.Join(dir, "küche "), "the path was cut at the question mark")
	})
	t.Run("a relative path works", func(t *testing.T) {
		t.Chdir(t.TempDir())
		mustOpen(t, "here.db")
		assert.FileExists(t, "here.db")
	})
	t.Run("only the owner may read the file", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "kitchen.db")
		mustHousehold(t, mustOpen(t, path), "Harbour Street")
		for _, name := range []string{path, path + "-wal"} {
			info, err := os.Stat(name)
			require.NoError(t, err)
			assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), name)
		}
	})
	t.Run("no path is refused", func(t *testing.T) {
		_, err := Open("", fixedNow)
		assert.ErrorContains(t, err, "no path given")
	})
	t.Run("a folder that is not there is refused", func(t *testing.T) {
		folder := filepath.Join(t.TempDir(), "missing")
		_, err := Open(filepath.Join(folder, "kitchen.db"), fixedNow)
		assert.ErrorContains(t, err, fmt.Sprintf("there is no folder %q; make it first", folder))
		assert.NoDirExists(t, folder)
	})
	t.Run("a text file is refused and left alone", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "notes.txt")
		text := []byte("This is a shopping list and certainly no database, however long it may be.")
		require.NoError(t, os.WriteFile(path, text, 0o600))
		_, err := Open(path, fixedNow)
		assert.ErrorContains(t, err, "not an SQLite database")
		after, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, text, after)
	})
	t.Run("every connection has foreign keys on and the write-ahead log", func(t *testing.T) {
		s := newStore(t)
		pool, err := s.db.DB()
		require.NoError(t, err)
		for range 3 {
			conn, err := pool.Conn(t.Context()) // kept, so that the next one is fresh
			require.NoError(t, err)
			defer conn.Close()
			var keys, synchronous int
			var mode string
			require.NoError(t, conn.QueryRowContext(t.Context(), "PRAGMA foreign_keys").Scan(&keys))
			require.NoError(t, conn.QueryRowContext(t.Context(), "PRAGMA journal_mode").Scan(&mode))
			require.NoError(t, conn.QueryRowContext(t.Context(), "PRAGMA synchronous").Scan(&synchronous))
			assert.Equal(t, 1, keys)
			assert.Equal(t, "wal", mode)
			assert.Equal(t, 2, synchronous, "FULL: a commit is on the disk before it is acknowledged")
		}
	})
}
