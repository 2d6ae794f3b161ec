package cli_test

import (
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
	"potwright/internal/store/postgres"
	"potwright/internal/testkit"
)

func TestEverythingMovesBetweenAFileAndPostgreSQLUnchanged(t *testing.T) {
	server, dir := testkit.Postgres(t), t.TempDir()
	file, fresh := filepath.Join(dir, "old.db"), filepath.Join(dir, "new.db")
	want := filled(t, file)
	for i, move := range [][2]string{{file, server}, {server, fresh}} {
		zip := filepath.Join(dir, string(rune('a'+i))+".zip")
		status, out, errs := run(t, "export", "--data", move[0], zip)
		require.Equal(t, 0, status, errs)
		assert.Contains(t, out, "holds 1 household with 5 recipes")
		status, out, errs = run(t, "import", "--data", move[1], zip)
		require.Equal(t, 0, status, errs)
		assert.Contains(t, out, "with 4 members and 5 recipes")
		assert.NotContains(t, out, "note:")
	}
	assert.Equal(t, want, heldByServer(t, server))
	assert.Equal(t, want, held(t, fresh, 1))

	t.Setenv("POTWRIGHT_DATA", server)
	status, out, errs := run(t, "diagnose")
	require.Equal(t, 0, status, errs)
	assert.Regexp(t, `database: PostgreSQL \d+.*, schema \d+ \(this program knows \d+\)\nholds: 1 household, 5 recipes, 5 versions`, out)
	assert.NotContains(t, out, testkit.PostgresPassword)
	status, out, errs = run(t, "sweep")
	assert.Contains(t, []int{0, 3}, status, errs)
	assert.NotEmpty(t, out)
	status, _, errs = run(t, "backup", filepath.Join(dir, "copy.db"))
	assert.Equal(t, 2, status)
	assert.Contains(t, errs, "pg_dump")
	assert.Contains(t, errs, "potwright export")
	status, _, errs = run(t, "restore", file)
	assert.Equal(t, 2, status)
	assert.Contains(t, errs, "pg_restore")
}

func heldByServer(t *testing.T, at string) kitchen.Holdings {
	t.Helper()
	store, err := postgres.Open(at, time.Now)
	require.NoError(t, err)
	defer store.Close()
	h, err := store.Holdings(t.Context(), 1)
	require.NoError(t, err)
	return testkit.WithFiles(t, h)
}

func TestWhatIsWrongWithADatabaseIsSaidSoonAndNoPasswordWithIt(t *testing.T) {
	const secret = "hunter2sesame"
	server := testkit.Postgres(t)
	with := func(change func(u *url.URL)) string {
		u, err := url.Parse(server)
		require.NoError(t, err)
		u.User = url.UserPassword(u.User.Username(), secret)
		change(u)
		return u.String()
	}
	for name, c := range map[string]struct {
		data, says string
		status     int
	}{
		"a wrong password":       {with(func(*url.URL) {}), "does not let this user in", 1},
		"nobody listens":         {"postgres://ana:" + secret + "@127.0.0.1:1/kitchen", "the database does not answer", 1},
		"no such server":         {"postgres://ana:" + secret + "@nowhere.invalid/kitchen", "the database does not answer", 1},
		"another kind of URL":    {"mysql://ana:" + secret + "@127.0.0.1/kitchen", "expected a file, or postgres://", 2},
		"a sign to be escaped":   {"postgres://ana:" + secret + "/%zz@127.0.0.1/kitchen", "%2F for /", 1},
		"a port that is none":    {"postgres://ana:" + secret + "@127.0.0.1:port/kitchen", "the URL can't be read", 1},
		"a setting that is none": {"postgres://ana:" + secret + "@127.0.0.1/kitchen?sslmode=perhaps&password=" + secret, "sslmode is invalid", 1},
		"a file of keys missing": {"postgres://ana:" + secret + "@127.0.0.1/kitchen?sslmode=verify-ca&sslrootcert=none.pem", "none.pem", 1},
	} {
		t.Run(name, func(t *testing.T) {
			calls := [][]string{{"serve", "--data", c.data}, {"export", "--data", c.data, filepath.Join(t.TempDir(), "x.zip")}, {"diagnose", "--data", c.data}}
			if testing.Short() {
				calls = calls[:1]
			}
			for _, args := range calls {
				status, out, errs := run(t, args...)
				assert.Equal(t, c.status, status, args[0])
				assert.Contains(t, errs, c.says, args[0])
				assert.NotContains(t, out+errs, secret, args[0])
				assert.NotContains(t, errs, "zz", "no part of it either")
				assert.Equal(t, 1, strings.Count(errs, "\n"), "one line: %s", errs)
			}
		})
	}
}
