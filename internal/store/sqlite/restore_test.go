package sqlite

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
)

func TestRestore(t *testing.T) {
	s, path, v := stocked(t)
	backup := filepath.Join(t.TempDir(), "backup.db")
	require.NoError(t, s.Backup(t.Context(), backup))
	later, err := s.AddVersion(t.Context(), 1, "", recipe.Version{RecipeID: v.RecipeID, ParentID: v.ID, Note: "later"})
	require.NoError(t, err)

	_, err = Restore(t.Context(), backup, path, fixedTime)
	require.ErrorIs(t, err, ErrInUse)
	_, err = s.FindVersion(t.Context(), 1, later.ID)
	require.NoError(t, err, "a refused restore changes nothing")

	require.NoError(t, s.Close())
	aside, err := Restore(t.Context(), backup, path, fixedTime)
	require.NoError(t, err)
	restored := mustOpen(t, path)
	vs, err := restored.ListVersions(t.Context(), 1, v.RecipeID)
	require.NoError(t, err)
	assert.Equal(t, []recipe.Version{v}, vs)
	vs, err = mustOpen(t, aside).ListVersions(t.Context(), 1, v.RecipeID)
	require.NoError(t, err)
	assert.Equal(t, []recipe.Version{v, later}, vs, "what was replaced is whole")
	require.NoError(t, restored.Close())

	second, err := Restore(t.Context(), backup, path, fixedTime)
	require.NoError(t, err)
	assert.NotEqual(t, aside, second, "the file kept aside before is not written over")
	assert.FileExists(t, aside)
}

func TestRestoreWhereNothingStands(t *testing.T) {
	s, _, v := stocked(t)
	dir := t.TempDir()
	backup, path := filepath.Join(dir, "backup.db"), filepath.Join(dir, "new.db")
	require.NoError(t, s.Backup(t.Context(), backup))
	aside, err := Restore(t.Context(), backup, path, fixedTime)
	require.NoError(t, err)
	assert.Empty(t, aside)
	_, err = mustOpen(t, path).FindVersion(t.Context(), 1, v.ID)
	assert.NoError(t, err)
}

// A log that no longer fits its file, left by a kill, must not be played into the
// restored one.
func TestRestoreOverADamagedFileKeepsItsLogAside(t *testing.T) {
	s, path, v := stocked(t)
	backup := filepath.Join(t.TempDir(), "backup.db")
	require.NoError(t, s.Backup(t.Context(), backup))
	log, err := os.ReadFile(path + logSuffix)
	require.NoError(t, err)
	require.NotEmpty(t, log)
	require.NoError(t, s.Close())
	require.NoError(t, os.WriteFile(path, []byte("no database"), 0o600))
	require.NoError(t, os.WriteFile(path+logSuffix, log, 0o600))

	aside, err := Restore(t.Context(), backup, path, fixedTime)
	require.NoError(t, err)
	kept, err := os.ReadFile(aside + logSuffix)
	require.NoError(t, err)
	assert.Equal(t, log, kept)
	vs, err := mustOpen(t, path).ListVersions(t.Context(), 1, v.RecipeID)
	require.NoError(t, err)
	assert.Equal(t, []recipe.Version{v}, vs)
}

func TestRestoreRefusesWhatIsNotWhole(t *testing.T) {
	s, path, v := stocked(t)
	require.NoError(t, s.Close())
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	dir := t.TempDir()
	for name, c := range map[string]struct {
		content []byte
		want    string
	}{
		"text":        {[]byte("a shopping list"), "not an SQLite database"},
		"half":        {whole[:len(whole)/2], "can't be used"},
		"overwritten": {append(append([]byte{}, whole[:4096]...), make([]byte, len(whole)-4096)...), "can't be used"},
		"empty":       {nil, "empty"},
	} {
		backup := filepath.Join(dir, name+".db")
		require.NoError(t, os.WriteFile(backup, c.content, 0o600))
		_, err := Restore(t.Context(), backup, path, fixedTime)
		require.ErrorContains(t, err, c.want, name)
		assert.ErrorContains(t, err, "nothing was changed", name)
	}
	left, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, left, 1)
	_, err = mustOpen(t, path).FindVersion(t.Context(), 1, v.ID)
	assert.NoError(t, err)
}
