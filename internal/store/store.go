package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"sync"
	"time"

	"gorm.io/gorm"

	"potwright/internal/kitchen"
	"potwright/internal/recall"
)

// Store is a kitchen.Store over a database whose schema is up to date. It is safe
// for concurrent use, also by several processes.
type Store struct {
	db     *gorm.DB
	engine Engine
	now    func() time.Time
	// writing holds one token: writers of this process queue here, in order, and
	// not in the database, which may not be fair and may time out.
	writing chan struct{}

	cataloguing sync.Mutex
	catalogues  recall.Memory[int64, *catalogue]
}

var _ kitchen.Store = (*Store)(nil)

// Engine is what each kind of database does in its own way.
type Engine interface {
	// Reading are the options of a transaction that writes nothing and sees one
	// consistent state.
	Reading() *sql.TxOptions
	// Alone waits, first of all in a transaction that writes, until no other program
	// writes, and keeps it so until the transaction ends.
	Alone(tx *gorm.DB) error
	// InWords puts what a person can do about it before an error of the database.
	InWords(err error) error
	// Revision is kitchen.Store's: it names what is saved, whoever saved it.
	Revision(ctx context.Context, pool *sql.DB) (string, error)
	// Close gives back what of the database is held for that.
	Close() error
}

// New is the store over an open database. now gives the time versions are saved at.
func New(db *gorm.DB, engine Engine, now func() time.Time) *Store {
	s := &Store{db: db, engine: engine, now: now, writing: make(chan struct{}, 1)}
	s.catalogues.Limit, s.catalogues.Weigh = catalogued, (*catalogue).weight
	return s
}

// Close closes the database.
func (s *Store) Close() error {
	pool, err := s.db.DB()
	if err != nil {
		return fmt.Errorf("close database: %w", err)
	}
	return errors.Join(s.engine.Close(), pool.Close())
}

// Revision names what is saved now: it differs from all earlier ones as soon as any
// program has saved anything, of any household.
func (s *Store) Revision(ctx context.Context) (string, error) {
	pool, err := s.db.DB()
	if err != nil {
		return "", fmt.Errorf("find the revision: %w", err)
	}
	r, err := s.engine.Revision(ctx, pool)
	if err != nil {
		return "", fmt.Errorf("find the revision: %w", s.engine.InWords(err))
	}
	return r, nil
}

// read runs f on one consistent state of the database.
func (s *Store) read(ctx context.Context, f func(tx *gorm.DB) error) error {
	return s.engine.InWords(s.db.WithContext(ctx).Transaction(f, s.engine.Reading()))
}

// write runs f in a transaction that is rolled back where f fails.
func (s *Store) write(ctx context.Context, f func(tx *gorm.DB) error) error {
	select {
	case s.writing <- struct{}{}:
	case <-ctx.Done():
		return ctx.Err()
	}
	defer func() { <-s.writing }()
	return s.engine.InWords(s.db.WithContext(ctx).Transaction(func(tx *gorm.DB) error {
		if err := s.engine.Alone(tx); err != nil {
			return err
		}
		return f(tx)
	}))
}

// findOne reads the one row of query into row, or ErrNotFound named what.
func findOne(query *gorm.DB, row any, what string) error {
	err := query.Take(row).Error
	if errors.Is(err, gorm.ErrRecordNotFound) {
		return fmt.Errorf("%s: %w", what, kitchen.ErrNotFound)
	}
	if err != nil {
		return fmt.Errorf("find %s: %w", what, err)
	}
	return nil
}
