package cli_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/demo"
	"potwright/internal/kitchen"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
)

// filled makes a data file with the invented household and gives its holdings.
func filled(t *testing.T, path string) kitchen.Holdings {
	t.Helper()
	store, err := sqlite.Open(path, time.Now)
	require.NoError(t, err)
	k := *testkit.Kitchen(t)
	k.Store = store
	require.NoError(t, demo.Fill(t.Context(), &k))
	h, err := store.Holdings(t.Context(), 1)
	require.NoError(t, err)
	h = testkit.WithFiles(t, h)
	require.NoError(t, store.Close())
	return h
}

func held(t *testing.T, path string, id int64) kitchen.Holdings {
	t.Helper()
	store, err := sqlite.Open(path, time.Now)
	require.NoError(t, err)
	defer store.Close()
	h, err := store.Holdings(t.Context(), id)
	require.NoError(t, err)
	return testkit.WithFiles(t, h)
}

func TestEverythingGoesThroughAnArchiveUnchanged(t *testing.T) {
	dir := t.TempDir()
	old, fresh, zip := filepath.Join(dir, "old.db"), filepath.Join(dir, "new.db"), filepath.Join(dir, "kitchen.zip")
	want := filled(t, old)
	status, out, errs := run(t, "export", "--data", old, zip)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "holds 1 household with 5 recipes")
	status, out, errs = run(t, "import", "--data", fresh, zip)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "with 4 members and 5 recipes")
	assert.NotContains(t, out, "note:")
	assert.Equal(t, want, held(t, fresh, 1), "in an empty file even the ids are the same")

	status, out, errs = run(t, "import", "--data", fresh, zip)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, `(2)"`, "a second time it gets a name of its own")
	status, _, errs = run(t, "export", "--data", old, zip)
	assert.Equal(t, 2, status)
	assert.Contains(t, errs, "was left as it is")
	status, _, errs = run(t, "export", "--data", old, "--household", "Nobody", filepath.Join(dir, "x.zip"))
	assert.Equal(t, 2, status)
	assert.Contains(t, errs, "expected one of")
}

func TestABackupBringsADamagedFileBack(t *testing.T) {
	dir := t.TempDir()
	data, copied := filepath.Join(dir, "kitchen.db"), filepath.Join(dir, "copy.db")
	want := filled(t, data)
	status, out, errs := run(t, "backup", "--data", data, copied)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "is whole: 1 household, 5 recipes, 5 versions")
	status, _, errs = run(t, "backup", "--data", data, copied)
	assert.Equal(t, 2, status)
	assert.Contains(t, errs, "was left as it is")

	store, err := sqlite.Open(data, time.Now)
	require.NoError(t, err)
	daily, err := store.KeepBackups(t.Context(), sqlite.DefaultKeep)
	require.NoError(t, err)
	require.NoError(t, store.Close())
	require.NoError(t, os.WriteFile(data, []byte("something else wrote here, and a good deal more than a line of it, so that a header could stand in it"), 0o600))
	status, _, errs = run(t, "serve", "--data", data)
	assert.Equal(t, 1, status)
	assert.Contains(t, errs, "the file is not an SQLite database")
	assert.Contains(t, errs, "potwright restore --data "+data+" "+daily)

	status, out, errs = run(t, "restore", "--data", data, daily)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "what was there before is kept as "+data+".replaced-")
	assert.Equal(t, want, held(t, data, 1))
}
