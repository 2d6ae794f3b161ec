package store_test

import (
	"database/sql"
	"net/url"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/recipe"
	"potwright/internal/store"
	"potwright/internal/store/postgres"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
	"potwright/internal/testkit/datafile"
)

// engine is a kind of database that every test of this package runs on. A place is
// what its Open takes.
type engine struct {
	name string
	// place is where nothing is yet, ready where the tables are made already.
	place, ready func(t *testing.T) string
	open         func(place string, now func() time.Time) (*store.Store, error)
	// driver and source open the database without a store.
	driver string
	source func(place string) string
	tables string // the query that names the tables of the schema
	bytes  string // how a literal of bytes begins
	record string // notes that a migration was run: %[1]d its number
	// settle is run after rows were written under ids of their own.
	settle string
	// more are statements that would change saved versions, with the words that refuse
	// them.
	more map[string]string
}

func engines() []engine {
	return []engine{
		{
			name:  "sqlite",
			place: func(t *testing.T) string { return filepath.Join(t.TempDir(), "kitchen.db") },
			ready: func(t *testing.T) string { return datafile.Empty(t) },
			open: func(place string, now func() time.Time) (*store.Store, error) {
				s, err := sqlite.Open(place, now)
				if err != nil {
					return nil, err
				}
				return s.Store, nil
			},
			driver: "sqlite",
			source: func(place string) string {
				return "file:" + (&url.URL{Path: place}).EscapedPath() + "?_pragma=foreign_keys(1)&_pragma=recursive_triggers(1)&_pragma=busy_timeout(10000)"
			},
			tables: "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'",
			bytes:  "X'",
			record: "PRAGMA application_id = 0x506f7477; PRAGMA user_version = %[1]d",
			more:   map[string]string{"INSERT OR REPLACE INTO versions SELECT * FROM versions": "never deleted"},
		},
		{
			name:   "postgres",
			place:  func(t *testing.T) string { return testkit.Postgres(t) },
			ready:  func(t *testing.T) string { return testkit.Postgres(t) },
			open:   postgres.Open,
			driver: "pgx",
			source: func(place string) string { return place },
			tables: "SELECT tablename FROM pg_tables WHERE schemaname = current_schema() AND tablename <> 'potwright_schema'",
			bytes:  `'\x`,
			record: "CREATE TABLE IF NOT EXISTS potwright_schema (number integer PRIMARY KEY, name text NOT NULL, run_at timestamptz NOT NULL DEFAULT now());" +
				"INSERT INTO potwright_schema (number, name) VALUES (%[1]d, '')",
			settle: `DO $$ DECLARE t text; BEGIN
				FOR t IN SELECT table_name FROM information_schema.columns WHERE table_schema = current_schema() AND is_identity = 'YES' LOOP
					EXECUTE format('SELECT setval(pg_get_serial_sequence(%L, ''id''), (SELECT coalesce(max(id), 0) FROM %I) + 1, false)', t, t);
				END LOOP; END $$`,
			more: map[string]string{"TRUNCATE versions CASCADE": "never deleted"},
		},
	}
}

// eachEngine runs a test on each, with -short on SQLite alone.
func eachEngine(t *testing.T, test func(t *testing.T, e engine)) {
	t.Helper()
	eachEngineAlways(t, func(t *testing.T, e engine) {
		if testing.Short() && e.name != "sqlite" {
			t.Skip("-short: one engine is enough for what no two writers do at once")
		}
		test(t, e)
	})
}

// eachEngineAlways is eachEngine for tests of several writers, which the race detector
// should see.
func eachEngineAlways(t *testing.T, test func(t *testing.T, e engine)) {
	t.Helper()
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) { test(t, e) })
	}
}

// kept is a store with the way to its database.
type kept struct {
	*store.Store
	place string
	pool  *sql.DB
}

func (e engine) newStore(t *testing.T) *kept {
	t.Helper()
	return e.mustOpen(t, e.ready(t), fixedNow)
}

func (e engine) mustOpen(t *testing.T, place string, now func() time.Time) *kept {
	t.Helper()
	s, err := e.open(place, now)
	require.NoError(t, err)
	t.Cleanup(func() { _ = s.Close() })
	return &kept{s, place, e.mustPool(t, place)}
}

// mustPool is the database without a store; it is opened when it is used.
func (e engine) mustPool(t *testing.T, place string) *sql.DB {
	t.Helper()
	pool, err := sql.Open(e.driver, e.source(place))
	require.NoError(t, err)
	t.Cleanup(func() { _ = pool.Close() })
	return pool
}

func exec(t *testing.T, s *kept, statements ...string) {
	t.Helper()
	for _, statement := range statements {
		_, err := s.pool.ExecContext(t.Context(), statement)
		require.NoError(t, err, statement)
	}
}

// texts is the first column of a query.
func texts(t *testing.T, pool *sql.DB, query string) []string {
	t.Helper()
	rows, err := pool.QueryContext(t.Context(), query)
	require.NoError(t, err)
	defer rows.Close()
	var out []string
	for rows.Next() {
		var s string
		require.NoError(t, rows.Scan(&s))
		out = append(out, s)
	}
	require.NoError(t, rows.Err())
	return out
}

// fixedTime has nanoseconds and a named zone, both of which must survive.
var fixedTime = time.Date(2026, 3, 1, 9, 30, 0, 123456789, time.FixedZone("UTC+2", 7200))

func fixedNow() time.Time { return fixedTime }

func mustHousehold(t *testing.T, s *kept, name string) household.Household {
	t.Helper()
	h, err := s.CreateHousehold(t.Context(), household.Household{Name: name})
	require.NoError(t, err)
	return h
}

func mustRecipe(t *testing.T, s *kept, householdID int64, title string) recipe.Version {
	t.Helper()
	v, err := s.CreateRecipe(t.Context(), householdID, title, recipe.Version{Text: title + "\n\n1 cup water"})
	require.NoError(t, err)
	return v
}
