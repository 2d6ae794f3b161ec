package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"sync"

	"gorm.io/gorm"
)

// watch asks one connection, which never writes, whether the file was changed by any
// other: of this process or of another one.
type watch struct {
	// mu is held for as long as a question takes.
	mu  sync.Mutex
	on  *sql.Conn // nil until it is needed, and after it failed
	ask *sql.Stmt
	// opened counts the connections: each counts what it sees from its own beginning.
	opened int
}

// State counts what was saved. SQLite's data_version differs on a connection each time
// that another one has committed in between
// (sqlite.org/pragma.html#pragma_data_version).
func (e engine) State(ctx context.Context, pool *sql.DB) (string, error) {
	w := e.watch
	w.mu.Lock()
	defer w.mu.Unlock()
	// Who leaves must not end the question: it would take the connection with it.
	ctx = context.WithoutCancel(ctx)
	if err := w.open(ctx, pool); err != nil {
		return "", err
	}
	var version int64
	if err := w.ask.QueryRowContext(ctx).Scan(&version); err != nil {
		return "", errors.Join(err, w.forget())
	}
	return fmt.Sprint(w.opened, ".", version), nil
}

func (w *watch) open(ctx context.Context, pool *sql.DB) (err error) {
	if w.on != nil {
		return nil
	}
	if w.on, err = pool.Conn(ctx); err != nil {
		return err
	}
	w.opened++
	if w.ask, err = w.on.PrepareContext(ctx, "PRAGMA data_version"); err != nil {
		return errors.Join(err, w.forget())
	}
	return nil
}

func (w *watch) forget() (err error) {
	if w.ask != nil {
		err = w.ask.Close()
	}
	if w.on != nil {
		err = errors.Join(err, w.on.Close())
	}
	w.on, w.ask = nil, nil
	return err
}

// Close gives the connection back.
func (e engine) Close() error {
	e.watch.mu.Lock()
	defer e.watch.mu.Unlock()
	return e.watch.forget()
}

// Write runs f in a transaction that has the write lock from its beginning. Where the
// context ends meanwhile nothing is saved, but what was begun is gone through: a
// statement that is broken off may leave its transaction open, and the connection with
// it.
func (e engine) Write(ctx context.Context, db *gorm.DB, f func(tx *gorm.DB) error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	return db.WithContext(context.WithoutCancel(ctx)).Transaction(func(tx *gorm.DB) error {
		if err := f(tx); err != nil {
			return err
		}
		return ctx.Err()
	})
}
