package sqlite

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestADamagedFileIsNamedAtTheStartAndItsBackupOffered(t *testing.T) {
	for name, c := range map[string]struct {
		harm func(t *testing.T, path string)
		want string
	}{
		"its header is overwritten":                       {func(t *testing.T, path string) { overwrite(t, path, 0, 100) }, "not an SQLite database"},
		"its first page is overwritten":                   {func(t *testing.T, path string) { overwrite(t, path, 0, 4096) }, "not an SQLite database"},
		"its first page is nothing but zeros":             {func(t *testing.T, path string) { zero(t, path, 4096) }, "not an SQLite database"},
		"its first page is overwritten behind its name":   {func(t *testing.T, path string) { overwrite(t, path, 16, 4080) }, "can't be used"},
		"its first page is overwritten behind its header": {func(t *testing.T, path string) { overwrite(t, path, 100, 3996) }, "can't be used"},
		"a page is overwritten":                           {func(t *testing.T, path string) { overwrite(t, path, 4096, 4096) }, "can't be used"},
		"its end is lost": {func(t *testing.T, path string) {
			info, err := os.Stat(path)
			require.NoError(t, err)
			require.NoError(t, os.Truncate(path, info.Size()/2))
		}, "can't be used"},
		"it is empty": {func(t *testing.T, path string) { require.NoError(t, os.Truncate(path, 0)) }, "it is empty, but backups"},
		"it is gone":  {func(t *testing.T, path string) { require.NoError(t, os.Remove(path)) }, "not there any more, but backups"},
		"a table is gone": {func(t *testing.T, path string) {
			s, err := open(path, fixedNow)
			require.NoError(t, err)
			exec(t, s, "DROP TABLE wishes")
			require.NoError(t, s.Close())
		}, "it lacks table wishes"},
		"the trigger that keeps versions is gone": {func(t *testing.T, path string) {
			s, err := open(path, fixedNow)
			require.NoError(t, err)
			exec(t, s, "DROP TRIGGER versions_are_never_deleted")
			require.NoError(t, s.Close())
		}, "it lacks trigger versions_are_never_deleted"},
	} {
		t.Run(name, func(t *testing.T) {
			s, path, v := stocked(t)
			backup, err := s.KeepBackups(t.Context(), DefaultKeep)
			require.NoError(t, err)
			require.NoError(t, s.Close())
			c.harm(t, path)
			before, _ := os.ReadFile(path)

			_, err = Open(path, fixedNow)
			var d *DamagedError
			require.ErrorAs(t, err, &d)
			assert.ErrorContains(t, err, c.want)
			assert.Equal(t, path, d.Path)
			assert.Equal(t, backup, d.Backup)
			after, _ := os.ReadFile(path)
			assert.Equal(t, before, after, "it is left as it is")

			_, err = Restore(t.Context(), d.Backup, path, fixedTime)
			require.NoError(t, err)
			_, err = mustOpen(t, path).FindVersion(t.Context(), 1, v.ID)
			assert.NoError(t, err)
		})
	}
}

func overwrite(t *testing.T, path string, from, n int) {
	t.Helper()
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	for i := range n {
		b[from+i] = byte(i*7 + 1)
	}
	require.NoError(t, os.WriteFile(path, b, 0o600))
}

func zero(t *testing.T, path string, n int) {
	t.Helper()
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteAt(make([]byte, n), 0)
	require.NoError(t, err)
	require.NoError(t, f.Close())
}

func TestABackupThatIsDamagedItselfIsNotOffered(t *testing.T) {
	s, path, _ := stocked(t)
	good, err := s.keepCopy(t.Context())
	require.NoError(t, err)
	bad, err := s.keepCopy(t.Context())
	require.NoError(t, err)
	overwrite(t, bad, 4096, 4096)
	assert.Equal(t, good, LastGoodBackup(t.Context(), path))
	overwrite(t, good, 0, 16)
	assert.Empty(t, LastGoodBackup(t.Context(), path))
}

// TestDamageAnywhereIsNeverAPanic flips bytes all over the file.
func TestDamageAnywhereIsNeverAPanic(t *testing.T) {
	s, path, _ := stocked(t)
	require.NoError(t, s.Close())
	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	dir := t.TempDir()
	step := 4099 // a prime next to the size of a page
	if testing.Short() {
		step = 16411
	}
	for at := 0; at < len(whole); at += step {
		harmed := append([]byte{}, whole...)
		for i := at; i < min(at+64, len(harmed)); i++ {
			harmed[i] ^= 0x5a
		}
		p := filepath.Join(dir, fmt.Sprintf("%d.db", at))
		require.NoError(t, os.WriteFile(p, harmed, 0o600))
		s, err := Open(p, fixedNow)
		if err != nil {
			continue
		}
		_, err = s.ListHouseholds(t.Context())
		t.Log(at, err) // a byte of a text is no damage that SQLite can know of
		require.NoError(t, s.Close())
	}
}
