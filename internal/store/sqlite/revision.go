package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"strconv"
	"sync"
)

// revision asks one connection, which never writes, whether the file was changed by
// any other: of this process or of another one.
type revision struct {
	mu  sync.Mutex
	on  *sql.Conn // nil until it is needed, and after it failed
	ask *sql.Stmt
	// base is what the numbers of this connection come on top of, last the highest told.
	base, last int64
}

// Revision counts what was saved. SQLite's data_version differs on a connection each
// time that another one has committed in between
// (sqlite.org/pragma.html#pragma_data_version).
func (e engine) Revision(ctx context.Context, pool *sql.DB) (string, error) {
	// Who leaves must not end the question: it would take the connection with it.
	n, err := e.revision.next(context.WithoutCancel(ctx), pool)
	return strconv.FormatInt(n, 10), err
}

func (r *revision) next(ctx context.Context, pool *sql.DB) (int64, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if err := r.open(ctx, pool); err != nil {
		return 0, err
	}
	var version int64
	if err := r.ask.QueryRowContext(ctx).Scan(&version); err != nil {
		return 0, errors.Join(err, r.forget())
	}
	r.last = max(r.last, r.base+version)
	return r.base + version, nil
}

// open takes a connection where there is none. What was saved meanwhile is not known,
// so that its numbers come after all that were told.
func (r *revision) open(ctx context.Context, pool *sql.DB) (err error) {
	if r.on != nil {
		return nil
	}
	if r.on, err = pool.Conn(ctx); err != nil {
		return err
	}
	r.base = r.last
	if r.ask, err = r.on.PrepareContext(ctx, "PRAGMA data_version"); err != nil {
		return errors.Join(err, r.forget())
	}
	return nil
}

func (r *revision) forget() error {
	on, ask := r.on, r.ask
	r.on, r.ask = nil, nil
	if ask == nil {
		return on.Close()
	}
	return errors.Join(ask.Close(), on.Close())
}

// Close gives the connection back.
func (e engine) Close() error {
	r := e.revision
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.on == nil {
		return nil
	}
	return r.forget()
}
