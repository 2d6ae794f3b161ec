package postgres

import (
	"context"
	"database/sql"
	"embed"
	"fmt"

	"potwright/internal/store"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

// NewestSchema is the number of the last migration this program knows; the numbers
// mean the same as SQLite's.
func NewestSchema() (int, error) {
	ms, err := store.Migrations(migrationFiles)
	return len(ms), err
}

// migrate brings the tables to the newest form, all of the way or not at all. One
// that is there already is only looked at, which needs no right to make tables.
func migrate(ctx context.Context, pool *sql.DB) error {
	ms, err := store.Migrations(migrationFiles)
	if err != nil {
		return err
	}
	at, err := schemaVersion(ctx, pool)
	if err != nil || at == len(ms) {
		return err
	}
	tx, err := pool.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // does nothing after Commit
	if _, err := tx.ExecContext(ctx, lockQuery); err != nil {
		return err
	}
	if at, err = schemaVersion(ctx, tx); err != nil { // another program may have been faster
		return err
	}
	if at > len(ms) {
		return store.NewerSchema(at, len(ms))
	}
	if _, err := tx.ExecContext(ctx, makeRecord); err != nil {
		return err
	}
	for _, m := range ms[at:] {
		if err := m.Run(ctx, tx); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, "INSERT INTO potwright_schema (number, name) VALUES ($1, $2)", m.Number, m.Name); err != nil {
			return fmt.Errorf("migration %s: %w", m.Name, err)
		}
	}
	return tx.Commit()
}

// makeRecord makes the table that tells which migrations were run, and that the
// tables beside it are ours.
const makeRecord = `CREATE TABLE IF NOT EXISTS potwright_schema (
	number integer PRIMARY KEY,
	name   text NOT NULL,
	run_at timestamptz NOT NULL DEFAULT now()
)`

// querier is what is asked for the schema: a pool or a transaction.
type querier interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// schemaVersion is the number of the last migration that was run, 0 in an empty
// schema; one that holds tables of something else is refused.
func schemaVersion(ctx context.Context, q querier) (int, error) {
	var ours bool
	var tables, version int
	const query = `SELECT count(*) FILTER (WHERE tablename = 'potwright_schema') > 0, count(*) FROM pg_tables WHERE schemaname = current_schema()`
	if err := q.QueryRowContext(ctx, query).Scan(&ours, &tables); err != nil {
		return 0, err
	}
	if !ours && tables > 0 {
		return 0, fmt.Errorf("it holds %d tables of another program: give Potwright a database of its own, or a schema of its own with search_path in the URL", tables)
	}
	if !ours {
		return 0, nil
	}
	return version, q.QueryRowContext(ctx, "SELECT coalesce(max(number), 0) FROM potwright_schema").Scan(&version)
}
