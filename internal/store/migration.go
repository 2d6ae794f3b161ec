package store

import (
	"context"
	"database/sql"
	"fmt"
	"io/fs"
	"strconv"
	"strings"
)

// Migration is one numbered SQL file of an engine.
type Migration struct {
	Number int    // 1, 2, 3, …: the schema it leads to
	Name   string // the file's name, to name it in errors
	SQL    string // its statements

	then func(context.Context, *sql.Tx) error // what no SQL can say; nil for nothing
}

// thens are what migrations do besides their statements, by number.
func thens() map[int]func(context.Context, *sql.Tx) error {
	return map[int]func(context.Context, *sql.Tx) error{12: tieCorrections}
}

// Run runs the migration within a transaction.
func (m Migration) Run(ctx context.Context, tx *sql.Tx) error {
	_, err := tx.ExecContext(ctx, m.SQL)
	if err == nil && m.then != nil {
		err = m.then(ctx, tx)
	}
	if err != nil {
		return fmt.Errorf("migration %s: %w", m.Name, err)
	}
	return nil
}

// Migrations reads an engine's files migrations/NNNN_*.sql in order; numbers must
// run 1, 2, 3, …
func Migrations(files fs.FS) ([]Migration, error) {
	names, err := fs.Glob(files, "migrations/*.sql") // sorted
	if err != nil {
		return nil, err
	}
	var ms []Migration
	for i, name := range names {
		base := strings.TrimPrefix(name, "migrations/")
		digits, _, _ := strings.Cut(base, "_")
		n, err := strconv.Atoi(digits)
		if err != nil || n != i+1 {
			return nil, fmt.Errorf("migration %s: number %q, expected %04d", base, digits, i+1)
		}
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		ms = append(ms, Migration{n, base, string(text), thens()[n]})
	}
	return ms, nil
}

// NewerSchema refuses data of a later release: at is its schema, newest the last one
// that this program knows.
func NewerSchema(at, newest int) error {
	return fmt.Errorf("its schema is version %d, this program knows versions up to %d: use a newer program; nothing was changed", at, newest)
}

// Condition is what a database that is whole holds.
type Condition struct {
	Schema                        int // number of its last migration
	Households, Recipes, Versions int
	Server                        string // its version; "" for a file
}

// CountQuery counts what stands in a Condition after its schema.
const CountQuery = "SELECT (SELECT count(*) FROM households), (SELECT count(*) FROM recipes), (SELECT count(*) FROM versions)"
