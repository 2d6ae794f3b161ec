package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"strconv"
	"sync"

	"gorm.io/gorm"
)

// watch tells what others commit from what is committed here. SQLite's data_version
// differs on a connection each time that another one has committed in between, and not
// for what it commits itself (sqlite.org/pragma.html#pragma_data_version): one
// connection that never writes sees every commit, the one that all writing here is done
// on sees those of others alone.
type watch struct {
	// mu is held for as long as a question takes, never while others may be waited for.
	mu     sync.Mutex
	reader asked
	writer asked
	// writing is set while a transaction has the writer: only that may ask it.
	writing bool
	// seen is what the reader said when it was last clear who had committed.
	seen int64
	// others counts what was committed elsewhere.
	others int64
	// clear is closed when that is clear again, where somebody waits for it.
	clear chan struct{}
}

// Others counts what was committed other than by Write.
func (e engine) Others(ctx context.Context, pool *sql.DB) (string, error) {
	w := e.watch
	// Who leaves must not end the question: it would take the connection with it.
	asking := context.WithoutCancel(ctx)
	for {
		n, cleared, err := w.look(asking, pool)
		if err != nil || cleared == nil {
			return strconv.FormatInt(n, 10), err
		}
		select {
		case <-cleared: // by whoever is writing, who has just committed or begun
		case <-ctx.Done():
			return "", ctx.Err()
		}
	}
}

// look gives the count, or what to wait for where somebody has committed and only
// whoever is writing can tell who it was.
func (w *watch) look(ctx context.Context, pool *sql.DB) (others int64, cleared <-chan struct{}, err error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	version, err := w.reader.version(ctx, pool)
	if err == nil && version == w.seen && w.writer.on != nil {
		return w.others, nil, nil
	}
	if w.writing {
		if w.clear == nil {
			w.clear = make(chan struct{})
		}
		return 0, w.clear, nil
	}
	err = w.settle(ctx, pool)
	return w.others, nil, err
}

// settle finds out who committed, on new connections where those there were fail.
func (w *watch) settle(ctx context.Context, pool *sql.DB) error {
	err := w.compare(ctx, pool)
	if err != nil {
		err = w.forget()
	}
	if w.writer.on == nil {
		err = errors.Join(err, w.compare(ctx, pool))
	}
	return err
}

// compare asks both connections, the reader first: whoever commits between the two
// questions is seen by the writer, and seen again later.
func (w *watch) compare(ctx context.Context, pool *sql.DB) error {
	seen, err := w.reader.version(ctx, pool)
	if err != nil {
		return err
	}
	before, fresh := w.writer.last, w.writer.on == nil
	now, err := w.writer.version(ctx, pool)
	if err != nil {
		return err
	}
	if fresh || now != before { // nobody knows what was committed before it was opened
		w.others++
	}
	w.seen = seen
	if w.clear != nil {
		close(w.clear)
		w.clear = nil
	}
	return nil
}

// forget gives the connections back.
func (w *watch) forget() error { return errors.Join(w.reader.forget(), w.writer.forget()) }

// Write runs f in a transaction that writes. One at a time may. Where the context ends
// meanwhile nothing is saved, but what was begun is gone through: a statement that is
// broken off may leave its transaction open, and the connection with it.
func (e engine) Write(ctx context.Context, db *gorm.DB, f func(tx *gorm.DB) error) error {
	w := e.watch
	pool, err := db.DB()
	if err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	left := ctx.Err
	ctx = context.WithoutCancel(ctx)
	on, err := w.begin(ctx, pool)
	if err != nil {
		return err
	}
	defer w.end(ctx, pool)
	db = db.WithContext(ctx)
	db.Statement.ConnPool = on
	return db.Transaction(func(tx *gorm.DB) error {
		if err := w.begun(ctx, pool); err != nil {
			return err
		}
		if err := f(tx); err != nil {
			return err
		}
		return left()
	})
}

// begin takes the writer.
func (w *watch) begin(ctx context.Context, pool *sql.DB) (*sql.Conn, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if err := w.settle(ctx, pool); err != nil {
		return nil, err
	}
	w.writing = true
	return w.writer.on, nil
}

// begun tells who committed before the transaction: during it nobody else does.
func (w *watch) begun(ctx context.Context, pool *sql.DB) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.compare(ctx, pool)
}

// end gives the writer back. Where it fails the next who asks opens another, and is
// told what is wrong; what was committed is no less saved.
func (w *watch) end(ctx context.Context, pool *sql.DB) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.writing = false
	_ = w.settle(ctx, pool)
	if w.clear != nil { // who waits asks again
		close(w.clear)
		w.clear = nil
	}
}

// Close gives the connections back.
func (e engine) Close() error {
	w := e.watch
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.forget()
}

// asked is a connection of its own that is asked for its data_version.
type asked struct {
	on  *sql.Conn // nil until it is needed, and after it failed
	ask *sql.Stmt
	// last is what it said last.
	last int64
}

func (a *asked) version(ctx context.Context, pool *sql.DB) (int64, error) {
	if err := a.open(ctx, pool); err != nil {
		return 0, err
	}
	err := a.ask.QueryRowContext(ctx).Scan(&a.last)
	return a.last, err
}

func (a *asked) open(ctx context.Context, pool *sql.DB) (err error) {
	if a.on != nil {
		return nil
	}
	on, err := pool.Conn(ctx)
	if err != nil {
		return err
	}
	a.on = on
	if a.ask, err = on.PrepareContext(ctx, "PRAGMA data_version"); err != nil {
		return errors.Join(err, a.forget())
	}
	return nil
}

func (a *asked) forget() (err error) {
	if a.ask != nil {
		err = a.ask.Close()
	}
	if a.on != nil {
		err = errors.Join(err, a.on.Close())
	}
	a.on, a.ask = nil, nil
	return err
}
