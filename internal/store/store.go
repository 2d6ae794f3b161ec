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
	saved   ledger
	// accounts remembers whether there are any: every request asks.
	accounts recall.Memory[int64, bool]

	cataloguing sync.Mutex
	catalogues  recall.Memory[int64, *catalogue]
}

var _ kitchen.Store = (*Store)(nil)

// Engine is what each kind of database does in its own way.
type Engine interface {
	// Reading are the options of a transaction that writes nothing and sees one
	// consistent state.
	Reading() *sql.TxOptions
	// Write runs f in a transaction of its own once no other program writes, and keeps
	// it so until the transaction ends. One at a time is asked for.
	Write(ctx context.Context, db *gorm.DB, f func(tx *gorm.DB) error) error
	// InWords puts what a person can do about it before an error of the database.
	InWords(err error) error
	// State names the state of the database: it differs from all earlier ones as soon as
	// any program has saved anything more, and may differ where none has. It costs far
	// less than a question.
	State(ctx context.Context, pool *sql.DB) (string, error)
	// Close gives back what of the database is held for that.
	Close() error
}

// New is the store over an open database. now gives the time versions are saved at.
func New(db *gorm.DB, engine Engine, now func() time.Time) *Store {
	s := &Store{db: db, engine: engine, now: now, writing: make(chan struct{}, 1)}
	s.catalogues.Limit, s.catalogues.Weigh = catalogued, (*catalogue).weight
	s.accounts.Limit = 2
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

// read runs f on one consistent state of the database.
func (s *Store) read(ctx context.Context, f func(tx *gorm.DB) error) error {
	return s.told(ctx, s.db.WithContext(ctx).Transaction(f, s.engine.Reading()))
}

// ask is read where f asks one question, or several whose answers need not be of one
// state: a transaction takes longer than most questions.
func (s *Store) ask(ctx context.Context, f func(db *gorm.DB) error) error {
	return s.told(ctx, f(s.db.WithContext(ctx)))
}

// told is an error as it is passed on. Whoever asked and left gets the context's own:
// what the database says then depends on where it was.
func (s *Store) told(ctx context.Context, err error) error {
	if err != nil && ctx.Err() != nil {
		return ctx.Err()
	}
	return s.engine.InWords(err)
}

// write runs f in a transaction that is rolled back where f fails.
func (s *Store) write(ctx context.Context, f func(tx *gorm.DB) error) error {
	select {
	case s.writing <- struct{}{}:
	case <-ctx.Done():
		return ctx.Err()
	}
	defer func() { <-s.writing }()
	return s.told(ctx, s.engine.Write(ctx, s.db, f))
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
