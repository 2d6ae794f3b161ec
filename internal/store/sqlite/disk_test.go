package sqlite

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// alone leaves the store one connection besides the one that watches, and runs
// statements on it: pragmas belong to a connection.
func alone(t *testing.T, s *Store, statements ...string) {
	t.Helper()
	pool, err := s.db.DB()
	require.NoError(t, err)
	pool.SetMaxIdleConns(0)
	pool.SetMaxIdleConns(1)
	pool.SetMaxOpenConns(pool.Stats().InUse + 1)
	exec(t, s, statements...)
}

// SQLite itself says that there is no room, as it does on a full disk, once the file
// may not grow (sqlite.org/pragma.html#pragma_max_page_count).
func TestAFullDiskSavesNothingHalfAndLosesNothing(t *testing.T) {
	s, path, v := stocked(t)
	var pages int
	require.NoError(t, s.db.Raw("PRAGMA page_count").Scan(&pages).Error)
	alone(t, s, fmt.Sprintf("PRAGMA max_page_count = %d", pages))
	long := recipe.Version{RecipeID: v.RecipeID, ParentID: v.ID, Text: strings.Repeat("1 cup water\n", 50_000)}
	_, err := s.AddVersion(t.Context(), 1, "Renamed", long)
	require.ErrorIs(t, err, kitchen.ErrNoRoom)
	assert.ErrorContains(t, err, "the disk is full: free some space and do it again; nothing was saved")
	sum, err := s.FindRecipe(t.Context(), 1, v.RecipeID)
	require.NoError(t, err)
	assert.Equal(t, "Chowder", sum.Title, "nothing of the save stays")
	assert.Equal(t, 1, sum.Versions)
	alone(t, s, "PRAGMA max_page_count = 100000")
	_, err = s.AddVersion(t.Context(), 1, "", long)
	require.NoError(t, err, "with room it is saved")
	_, err = Verify(t.Context(), path)
	assert.NoError(t, err)
}

func TestAReadOnlyFileSaysSo(t *testing.T) {
	s, _, v := stocked(t)
	alone(t, s, "PRAGMA query_only = 1")
	_, err := s.AddVersion(t.Context(), 1, "", recipe.Version{RecipeID: v.RecipeID, ParentID: v.ID})
	require.ErrorIs(t, err, kitchen.ErrReadOnly)
	_, err = s.FindVersion(t.Context(), 1, v.ID)
	assert.NoError(t, err, "it can still be read")
}

// The codes are those of sqlite.org/rescode.html; a full disk gave 4874 when a file on
// it was opened (a file system of 400 kB that was filled up).
func TestWhatTheDiskRefusesIsToldInWords(t *testing.T) {
	for code, want := range map[int]error{13: kitchen.ErrNoRoom, 4874: kitchen.ErrNoRoom, 10: nil, 778: nil, 8: kitchen.ErrReadOnly, 1544: kitchen.ErrReadOnly,
		14: kitchen.ErrReadOnly, 5: kitchen.ErrBusy, 517: kitchen.ErrBusy, 11: nil} {
		assert.Equal(t, want, wordsOfCode(code), code)
	}
	for cause, want := range map[error]error{syscall.ENOSPC: kitchen.ErrNoRoom, syscall.EROFS: kitchen.ErrReadOnly, os.ErrPermission: kitchen.ErrReadOnly} {
		err := inWords(&os.PathError{Op: "open", Path: "kitchen.db", Err: cause})
		require.ErrorIs(t, err, want)
		assert.ErrorIs(t, err, cause)
	}
	assert.Equal(t, os.ErrNotExist, inWords(os.ErrNotExist), "what nothing is known of stays as it is")
}

func TestAFolderThatMayNotBeWrittenIsTold(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("the superuser may write everywhere")
	}
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o500))
	defer func() { _ = os.Chmod(dir, 0o700) }()
	_, err := Open(filepath.Join(dir, "kitchen.db"), fixedNow)
	assert.ErrorIs(t, err, os.ErrPermission)
	assert.ErrorContains(t, err, dir)
}

func TestALockedFileIsToldAndSavesNothing(t *testing.T) {
	s, path, v := stocked(t)
	other := mustOpen(t, path)
	pool, err := other.db.DB()
	require.NoError(t, err)
	held, err := pool.BeginTx(t.Context(), nil) // takes the write lock at once
	require.NoError(t, err)
	alone(t, s, "PRAGMA busy_timeout = 50")
	change := recipe.Version{RecipeID: v.RecipeID, ParentID: v.ID}
	_, err = s.AddVersion(t.Context(), 1, "", change)
	require.ErrorIs(t, err, kitchen.ErrBusy)
	assert.ErrorContains(t, err, "another program holds the data")
	require.NoError(t, held.Rollback())
	_, err = s.AddVersion(t.Context(), 1, "", change)
	assert.NoError(t, err)
}
