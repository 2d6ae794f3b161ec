package sqlite

import (
	"context"
	"database/sql"
	"embed"
	"fmt"

	"potwright/internal/store"
)

//go:embed migrations/*.sql
var migrationFiles embed.FS

// allMigrations asks migrate for the newest schema.
const allMigrations = -1

// applicationID marks our files in SQLite's header ("Potw" in ASCII), so that
// another program's database is never taken for an empty one.
const applicationID = 0x506f7477

// migrations are the embedded files in order.
func migrations() ([]store.Migration, error) { return store.Migrations(migrationFiles) }

// NewestSchema is the number of the last migration this program knows.
func NewestSchema() (int, error) {
	ms, err := migrations()
	return len(ms), err
}

// migrate brings the schema to the number given (allMigrations: the newest). It
// works on one connection with foreign keys off, because a table that is rebuilt
// would else take the rows that refer to it along; they are checked before each
// commit instead.
func (s *Store) migrate(ctx context.Context, upTo int) error {
	ms, err := migrations()
	if err != nil {
		return err
	}
	pool, err := s.db.DB()
	if err != nil {
		return err
	}
	conn, err := pool.Conn(ctx)
	if err != nil {
		return err
	}
	defer conn.Close()
	if _, err := conn.ExecContext(ctx, "PRAGMA foreign_keys = OFF"); err != nil {
		return err
	}
	for _, m := range ms {
		if upTo != allMigrations && m.Number > upTo {
			break
		}
		if err := apply(ctx, m, conn, len(ms)); err != nil {
			return err
		}
	}
	_, err = conn.ExecContext(ctx, "PRAGMA foreign_keys = ON")
	return err
}

// apply runs the migration if the file has not seen it yet. The version is read
// inside the write transaction: another process may be migrating too.
func apply(ctx context.Context, m store.Migration, conn *sql.Conn, newest int) error {
	tx, err := conn.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // does nothing after Commit
	at, err := schemaVersion(ctx, tx)
	if err != nil {
		return err
	}
	if at > newest {
		return store.NewerSchema(at, newest)
	}
	if at >= m.Number {
		return nil
	}
	if err := m.Run(ctx, tx); err != nil {
		return err
	}
	if err := checkForeignKeys(ctx, tx); err != nil {
		return fmt.Errorf("migration %s: %w", m.Name, err)
	}
	// Both pragmas are part of the transaction; they take no parameters.
	stamp := fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, m.Number)
	if _, err := tx.ExecContext(ctx, stamp); err != nil {
		return fmt.Errorf("migration %s: %w", m.Name, err)
	}
	return tx.Commit()
}

// querier is what a check needs: a pool, a connection or a transaction.
type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// schemaVersion is the number of the last migration the file has seen, 0 for an
// empty file.
func schemaVersion(ctx context.Context, q querier) (int, error) {
	var id, version, tables int
	const query = `SELECT a.application_id, v.user_version, (SELECT count(*) FROM sqlite_schema)
		FROM pragma_application_id a, pragma_user_version v`
	if err := q.QueryRowContext(ctx, query).Scan(&id, &version, &tables); err != nil {
		return 0, err
	}
	if id != applicationID && (tables > 0 || version > 0 || id != 0) {
		return 0, fmt.Errorf("the file is a database of another program (application id %#x, %d tables)", id, tables)
	}
	return version, nil
}

// checkForeignKeys fails where a row refers to one that is not there.
func checkForeignKeys(ctx context.Context, q querier) error {
	rows, err := q.QueryContext(ctx, "PRAGMA foreign_key_check")
	if err != nil {
		return err
	}
	defer rows.Close()
	if rows.Next() {
		var table, parent string
		var row sql.NullInt64
		var key int
		if err := rows.Scan(&table, &row, &parent, &key); err != nil {
			return err
		}
		return fmt.Errorf("row %d of %s refers to a row of %s that is not there", row.Int64, table, parent)
	}
	return rows.Err()
}
