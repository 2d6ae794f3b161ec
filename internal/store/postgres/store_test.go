package postgres_test

import (
	"crypto/rand"
	"database/sql"
	"fmt"
	"net"
	"net/url"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/store"
	"potwright/internal/store/postgres"
	"potwright/internal/testkit"
)

func mustOpen(t *testing.T, at string) *store.Store {
	t.Helper()
	s, err := postgres.Open(at, testkit.Now)
	require.NoError(t, err)
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// mustPool is the database without a store.
func mustPool(t *testing.T, at string) *sql.DB {
	t.Helper()
	pool, err := sql.Open("pgx", at)
	require.NoError(t, err)
	t.Cleanup(func() { _ = pool.Close() })
	return pool
}

func execute(t *testing.T, pool *sql.DB, statements ...string) {
	t.Helper()
	for _, statement := range statements {
		_, err := pool.ExecContext(t.Context(), statement)
		require.NoError(t, err, statement)
	}
}

func changed(t *testing.T, at string, change func(u *url.URL)) string {
	t.Helper()
	u, err := url.Parse(at)
	require.NoError(t, err)
	change(u)
	return u.String()
}

// with is the URL with a setting more.
func with(t *testing.T, at, name, value string) string {
	t.Helper()
	return changed(t, at, func(u *url.URL) {
		query := u.Query()
		query.Set(name, value)
		u.RawQuery = query.Encode()
	})
}

// layout is every table, column and constraint of the schema.
func layout(t *testing.T, pool *sql.DB) (all string) {
	t.Helper()
	const query = `SELECT coalesce(string_agg(line, E'\n' ORDER BY line), '') FROM (
		SELECT table_name || '.' || column_name || ' ' || data_type AS line FROM information_schema.columns WHERE table_schema = current_schema()
		UNION ALL SELECT conname || ' ' || pg_get_constraintdef(oid) FROM pg_constraint WHERE connamespace = current_schema()::regnamespace) AS lines`
	require.NoError(t, pool.QueryRowContext(t.Context(), query).Scan(&all))
	return all
}

func TestOpenRefusesAndChangesNothing(t *testing.T) {
	newest, err := postgres.NewestSchema()
	require.NoError(t, err)
	for name, c := range map[string]struct {
		prepare func(t *testing.T, at string, pool *sql.DB) string
		says    string
	}{
		"what a later release wrote": {func(t *testing.T, at string, pool *sql.DB) string {
			require.NoError(t, mustOpen(t, at).Close())
			execute(t, pool, fmt.Sprintf("INSERT INTO potwright_schema (number, name) VALUES (%d, 'later')", newest+4))
			return at
		}, fmt.Sprintf("its schema is version %d, this program knows versions up to %d: use a newer program; nothing was changed", newest+4, newest)},
		"another program's tables": {func(t *testing.T, at string, pool *sql.DB) string {
			execute(t, pool, "CREATE TABLE tides (height real)")
			return at
		}, "it holds 1 tables of another program"},
		"a schema that is not there": {func(t *testing.T, at string, _ *sql.DB) string {
			return with(t, at, "search_path", "nowhere")
		}, "it has no schema to keep tables in"},
		"a database that is not there": {func(t *testing.T, at string, _ *sql.DB) string {
			return changed(t, at, func(u *url.URL) { u.Path = "/nowhere" })
		}, "the server has no such database"},
		"an encoding that lacks most signs": {func(t *testing.T, at string, pool *sql.DB) string {
			name := "latin" + time.Now().Format("150405000000000")
			execute(t, pool, "CREATE DATABASE "+name+" ENCODING 'LATIN1' LC_COLLATE 'C' LC_CTYPE 'C' TEMPLATE template0")
			t.Cleanup(func() { _, _ = pool.Exec("DROP DATABASE " + name + " WITH (FORCE)") })
			return changed(t, at, func(u *url.URL) { u.Path = "/" + name })
		}, "its encoding is LATIN1; expected UTF8"},
		"a user who may make no tables": {func(t *testing.T, at string, pool *sql.DB) string {
			return reader(t, at, pool)
		}, "the user lacks a right"},
	} {
		t.Run(name, func(t *testing.T) {
			at := testkit.Postgres(t)
			pool := mustPool(t, at)
			given := c.prepare(t, at, pool)
			before := layout(t, pool)
			_, err := postgres.Open(given, testkit.Now)
			require.ErrorContains(t, err, c.says)
			assert.NotContains(t, err.Error(), testkit.PostgresPassword)
			_, err = postgres.Look(t.Context(), given)
			require.Error(t, err)
			assert.Equal(t, before, layout(t, pool))
		})
	}
}

// reader is the URL for a user who may look at the schema alone.
func reader(t *testing.T, at string, pool *sql.DB) string {
	t.Helper()
	var schema string
	require.NoError(t, pool.QueryRowContext(t.Context(), "SELECT current_schema()").Scan(&schema))
	name := "reader_of_" + schema
	execute(t, pool, "CREATE ROLE "+name+" LOGIN PASSWORD 'reads'", "GRANT USAGE ON SCHEMA "+schema+" TO "+name,
		"GRANT SELECT ON ALL TABLES IN SCHEMA "+schema+" TO "+name)
	t.Cleanup(func() { _, _ = pool.Exec("DROP OWNED BY " + name + "; DROP ROLE " + name) })
	return changed(t, at, func(u *url.URL) { u.User = url.UserPassword(name, "reads") })
}

func TestLookChangesNothing(t *testing.T) {
	at := testkit.Postgres(t)
	pool := mustPool(t, at)
	_, err := postgres.Look(t.Context(), at)
	require.ErrorContains(t, err, "it is empty")
	assert.Empty(t, layout(t, pool))
	_, err = mustOpen(t, at).CreateHousehold(t.Context(), household.Household{Name: "Quay Lane"})
	require.NoError(t, err)
	c, err := postgres.Look(t.Context(), reader(t, at, pool))
	require.NoError(t, err)
	newest, err := postgres.NewestSchema()
	require.NoError(t, err)
	assert.NotEmpty(t, c.Server)
	assert.Equal(t, store.Condition{Schema: newest, Households: 1, Server: c.Server}, c)
}

func TestAWriteThatIsNotLetSaysWhyAndSavesNothing(t *testing.T) {
	at := testkit.Postgres(t)
	pool := mustPool(t, at)
	s := mustOpen(t, at)
	h := household.Household{Name: "Quay Lane"}

	_, err := mustOpen(t, reader(t, at, pool)).CreateHousehold(t.Context(), h)
	assert.ErrorContains(t, err, "the user lacks a right")
	_, err = mustOpen(t, with(t, at, "default_transaction_read_only", "on")).CreateHousehold(t.Context(), h)
	assert.ErrorIs(t, err, kitchen.ErrReadOnly)

	held, err := pool.BeginTx(t.Context(), nil)
	require.NoError(t, err)
	_, err = held.ExecContext(t.Context(), "SELECT pg_advisory_xact_lock(1349481591, hashtext(current_schema()))")
	require.NoError(t, err)
	hasty := mustOpen(t, with(t, at, "lock_timeout", "50ms"))
	_, err = hasty.CreateHousehold(t.Context(), h)
	assert.ErrorIs(t, err, kitchen.ErrBusy)
	_, err = hasty.ListHouseholds(t.Context())
	require.NoError(t, err, "readers do not wait")
	require.NoError(t, held.Rollback())

	hs, err := s.ListHouseholds(t.Context())
	require.NoError(t, err)
	assert.Empty(t, hs)
	_, err = hasty.CreateHousehold(t.Context(), h)
	assert.NoError(t, err)
}

// Random words: what repeats is packed, and fits.
func TestANameThatIsTooLongIsToldAndSavesNothing(t *testing.T) {
	s := mustOpen(t, testkit.Postgres(t))
	long := ""
	for range 400 {
		long += rand.Text()
	}
	_, err := s.CreateHousehold(t.Context(), household.Household{Name: long})
	require.ErrorIs(t, err, kitchen.ErrTooLong)
	h, err := s.CreateHousehold(t.Context(), household.Household{Name: "Quay Lane"})
	require.NoError(t, err)
	err = s.RememberChoice(t.Context(), h.ID, long, recipe.Correction{FoodID: "sr:02047"}, "")
	require.ErrorIs(t, err, kitchen.ErrTooLong)
	assert.ErrorContains(t, err, "shorten it; nothing was saved")
	choices, err := s.Choices(t.Context(), h.ID)
	require.NoError(t, err)
	assert.Empty(t, choices)
}

func TestAServerThatRestartedIsFoundAgain(t *testing.T) {
	at := testkit.Postgres(t)
	s := mustOpen(t, with(t, at, "application_name", "cut_off"))
	_, err := s.ListHouseholds(t.Context())
	require.NoError(t, err)
	execute(t, mustPool(t, at), "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'cut_off'")
	if _, err = s.ListHouseholds(t.Context()); err != nil { // the driver may notice only now
		require.ErrorIs(t, err, kitchen.ErrAway)
	}
	_, err = s.ListHouseholds(t.Context())
	assert.NoError(t, err)
}

func TestAServerThatNeverAnswersIsNotWaitedForLong(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for five seconds")
	}
	t.Parallel()
	silent, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer silent.Close()
	_, err = postgres.Open("postgres://ana@"+silent.Addr().String()+"/kitchen", testkit.Now)
	assert.ErrorIs(t, err, kitchen.ErrAway)
}

func TestATableIsSortedByItsBytes(t *testing.T) {
	at := testkit.Postgres(t)
	mustOpen(t, at)
	var odd sql.NullString
	const query = `SELECT string_agg(table_name || '.' || column_name, ', ') FROM information_schema.columns
		WHERE table_schema = current_schema() AND table_name <> 'potwright_schema' AND data_type = 'text' AND collation_name IS DISTINCT FROM 'C'`
	require.NoError(t, mustPool(t, at).QueryRowContext(t.Context(), query).Scan(&odd))
	assert.Empty(t, odd.String, `columns that would be sorted as the server's language has it; expected COLLATE "C"`)
}
