package sqlite

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
	"potwright/internal/store"
)

// stocked is a store with a household and a recipe, and its path.
func stocked(t *testing.T) (*Store, string, recipe.Version) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "kitchen.db")
	s := mustOpen(t, path)
	h := mustHousehold(t, s, "Harbour Street")
	return s, path, mustRecipe(t, s, h.ID, "Chowder")
}

func TestBackup(t *testing.T) {
	s, path, v := stocked(t)
	to := filepath.Join(t.TempDir(), "copy's.db")
	require.NoError(t, s.Backup(t.Context(), to))

	before, err := os.ReadFile(to)
	require.NoError(t, err)
	c, err := Verify(t.Context(), to)
	require.NoError(t, err)
	newest, err := NewestSchema()
	require.NoError(t, err)
	assert.Equal(t, store.Condition{Schema: newest, Households: 1, Recipes: 1, Versions: 1}, c)
	got, err := mustOpen(t, to).FindVersion(t.Context(), 1, v.ID)
	require.NoError(t, err)
	assert.Equal(t, v, got)

	assert.ErrorIs(t, s.Backup(t.Context(), path), fs.ErrExist, "the data file itself is not written over")
	info, err := os.Stat(to)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	assert.NotEmpty(t, before)
}

func TestABackupThatCannotBeFinishedLeavesNothing(t *testing.T) {
	s, _, _ := stocked(t)
	dir := t.TempDir()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	require.Error(t, s.Backup(ctx, filepath.Join(dir, "copy.db")))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left)
	assert.ErrorIs(t, s.Backup(t.Context(), filepath.Join(dir, "missing", "copy.db")), fs.ErrNotExist)
}

func TestABackupTakenWhileOthersWriteIsWhole(t *testing.T) {
	s, _, v := stocked(t)
	stop := make(chan struct{})
	var writer sync.WaitGroup
	writer.Go(func() {
		for {
			select {
			case <-stop:
				return
			default:
				_, err := s.AddVersion(t.Context(), 1, "", recipe.Version{RecipeID: v.RecipeID, ParentID: v.ID})
				assert.NoError(t, err)
			}
		}
	})
	dir := t.TempDir()
	for i := range 5 {
		to := filepath.Join(dir, backupName(i, fixedTime))
		require.NoError(t, s.Backup(t.Context(), to))
		_, err := Verify(t.Context(), to)
		require.NoError(t, err)
	}
	close(stop)
	writer.Wait()
}

func TestVerifyChangesNothing(t *testing.T) {
	s, path, _ := stocked(t)
	_, err := Verify(t.Context(), path)
	require.NoError(t, err, "while it is in use")
	require.NoError(t, s.Close())
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	_, err = Verify(t.Context(), path)
	require.NoError(t, err)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, before, after)
	left, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, left, 1, "no side file is left")
}

func TestKeepBackups(t *testing.T) {
	now := fixedTime
	path := filepath.Join(t.TempDir(), "kitchen.db")
	s, err := Open(path, func() time.Time { return now })
	require.NoError(t, err)
	defer s.Close()
	take := func(keep int) string {
		t.Helper()
		made, err := s.KeepBackups(t.Context(), keep)
		require.NoError(t, err)
		return made
	}
	list := func() int {
		copies, err := backupsOf(path)
		require.NoError(t, err)
		return len(copies)
	}

	assert.Empty(t, take(0), "none are wanted")
	first := take(3)
	assert.FileExists(t, first)
	assert.Empty(t, take(3), "one a day is enough")
	now = now.Add(23 * time.Hour)
	assert.Empty(t, take(3))
	for range 4 {
		now = now.Add(24 * time.Hour)
		assert.FileExists(t, take(3))
	}
	assert.Equal(t, 3, list(), "the oldest are dropped")
	assert.NoFileExists(t, first)

	now = now.AddDate(-2, 0, 0) // the clock goes backwards
	late := take(3)
	assert.FileExists(t, late)
	assert.Equal(t, 3, list())
	assert.Equal(t, late, LastGoodBackup(t.Context(), path), "the order is that of taking, not of the clock")
	assert.Empty(t, take(3))

	require.NoError(t, os.WriteFile(filepath.Join(BackupFolder(path), "my notes.txt"), nil, 0o600))
	now = now.AddDate(0, 0, 1)
	take(1)
	assert.Equal(t, 1, list())
	assert.FileExists(t, filepath.Join(BackupFolder(path), "my notes.txt"), "other files are left alone")
}
