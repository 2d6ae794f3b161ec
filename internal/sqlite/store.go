package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"time"

	gormsqlite "gorm.io/driver/sqlite"
	"gorm.io/gorm"
	"gorm.io/gorm/logger"

	"potwright/internal/kitchen"
)

// Store is a kitchen.Store over one SQLite file. It is safe for concurrent use,
// also by several processes.
type Store struct {
	db  *gorm.DB
	now func() time.Time
	// writing holds one token: writers of this process queue here, in order, and
	// not in SQLite's busy handler, which is not fair and may time out.
	writing chan struct{}
}

var _ kitchen.Store = (*Store)(nil)

// Open opens the database file at path, makes it if there is none, and brings
// its schema up to date. now gives the time versions are saved at. A file that
// is not ours, or that a later release wrote, is refused and left as it is.
func Open(path string, now func() time.Time) (*Store, error) {
	s, err := openPatiently(path, now)
	if err != nil {
		return nil, err
	}
	if err := s.migrate(context.Background(), allMigrations); err != nil {
		_ = s.Close() // the first error matters more
		return nil, fmt.Errorf("open database %s: %w", path, err)
	}
	return s, nil
}

// Turning a new file to write-ahead logging needs it alone for a moment, and SQLite
// does not wait for that as it does for a lock: another program that opens the same
// new file at once makes it fail. It is tried again, for a second at most.
const (
	openTries = 50
	openPause = 20 * time.Millisecond
)

func openPatiently(path string, now func() time.Time) (s *Store, err error) {
	for range openTries {
		if s, err = open(path, now); !isBusy(err) {
			break
		}
		time.Sleep(openPause)
	}
	return s, err
}

func open(path string, now func() time.Time) (*Store, error) {
	if path == "" {
		return nil, errors.New("open database: no path given")
	}
	if err := createPrivate(path); err != nil {
		return nil, fmt.Errorf("open database: %w", err)
	}
	dsn, err := dataSource(path)
	if err != nil {
		return nil, fmt.Errorf("open database %s: %w", path, err)
	}
	d := dialector{gormsqlite.Dialector{DriverName: "sqlite", DSN: dsn}}
	db, err := gorm.Open(d, &gorm.Config{
		TranslateError:         true,
		SkipDefaultTransaction: true, // every method opens its own
		Logger:                 logger.Discard,
	})
	if notADatabase(err) {
		return nil, fmt.Errorf("open database %s: the file is not an SQLite database", path)
	}
	if err != nil {
		return nil, fmt.Errorf("open database %s: %w", path, err)
	}
	return &Store{db: db, now: now, writing: make(chan struct{}, 1)}, nil
}

// createPrivate makes the file, if there is none, readable by its owner alone:
// it holds people's health limits. SQLite gives its side files the same mode.
func createPrivate(path string) error {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return err
	}
	return f.Close()
}

// Close closes the file.
func (s *Store) Close() error {
	pool, err := s.db.DB()
	if err != nil {
		return fmt.Errorf("close database: %w", err)
	}
	return pool.Close()
}

// Backup writes a consistent copy of the database to a new file at path, while
// others may go on reading and writing. It refuses a path that exists.
func (s *Store) Backup(ctx context.Context, path string) error {
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("back up database to %s: the file exists already", path)
	}
	if err := createPrivate(path); err != nil { // VACUUM INTO takes an empty file
		return fmt.Errorf("back up database: %w", err)
	}
	if err := s.db.WithContext(ctx).Exec("VACUUM INTO ?", path).Error; err != nil {
		return fmt.Errorf("back up database to %s: %w", path, err)
	}
	return nil
}

// read runs f on one consistent state of the database.
func (s *Store) read(ctx context.Context, f func(tx *gorm.DB) error) error {
	return s.db.WithContext(ctx).Transaction(f, &sql.TxOptions{ReadOnly: true})
}

// write runs f in a transaction that is rolled back where f fails.
func (s *Store) write(ctx context.Context, f func(tx *gorm.DB) error) error {
	select {
	case s.writing <- struct{}{}:
	case <-ctx.Done():
		return ctx.Err()
	}
	defer func() { <-s.writing }()
	return s.db.WithContext(ctx).Transaction(f)
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
