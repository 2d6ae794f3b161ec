package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	gormsqlite "gorm.io/driver/sqlite"
	"gorm.io/gorm"
	"gorm.io/gorm/logger"

	"potwright/internal/store"
)

// Store is a store over one SQLite file.
type Store struct {
	*store.Store
	db   *gorm.DB
	path string
	now  func() time.Time
}

// Open opens the database file at path, makes it if there is none, and brings
// its schema up to date; a file that holds something is copied to BackupFolder
// before that. now gives the time versions are saved at. A file that is not ours,
// or that a later release wrote, is refused and left as it is; one that is damaged
// is a *DamagedError.
func Open(path string, now func() time.Time) (*Store, error) {
	ctx := context.Background()
	if err := inspect(path); err != nil {
		return nil, named(ctx, path, err)
	}
	s, err := openPatiently(path, now)
	if err != nil {
		return nil, named(ctx, path, err)
	}
	if err := s.prepare(ctx); err != nil {
		_ = s.Close() // the first error matters more
		return nil, named(ctx, path, err)
	}
	return s, nil
}

// prepare looks the open file through, keeps a copy of it where its schema will
// change, and brings the schema up to date.
func (s *Store) prepare(ctx context.Context) error {
	pool, err := s.db.DB()
	if err != nil {
		return err
	}
	at, err := quickCheck(ctx, pool)
	if err != nil {
		return err
	}
	newest, err := NewestSchema()
	if err != nil {
		return err
	}
	if at > newest {
		return store.NewerSchema(at, newest)
	}
	if err := checkComplete(ctx, pool, at); err != nil {
		return err
	}
	if at > 0 && at < newest {
		if _, err := s.keepCopy(ctx); err != nil {
			return fmt.Errorf("keep a copy before the data is brought to schema %d: %w", newest, err)
		}
	}
	return s.migrate(ctx, allMigrations)
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
		return nil, errors.New("no path given")
	}
	if err := createPrivate(path); err != nil {
		return nil, err
	}
	dsn, err := dataSource(path, pragmas)
	if err != nil {
		return nil, err
	}
	pool, err := sql.Open("sqlite", dsn)
	if err != nil {
		return nil, err
	}
	pool.SetMaxIdleConns(keptConnections)
	d := dialector{gormsqlite.Dialector{Conn: &statements{DB: pool}}}
	db, err := gorm.Open(d, &gorm.Config{
		TranslateError:         true,
		SkipDefaultTransaction: true, // every method opens its own
		Logger:                 logger.Discard,
	})
	if err != nil {
		return nil, errors.Join(err, pool.Close())
	}
	return &Store{store.New(db, engine{&watch{}}, now), db, path, now}, nil
}

// keptConnections stay open when nobody reads: opening one costs more than most
// questions do. A design choice: few pages are worked out at once.
const keptConnections = 8

// createPrivate makes the file, if there is none, readable by its owner alone:
// it holds people's health limits. SQLite gives its side files the same mode.
func createPrivate(path string) error {
	if folder := filepath.Dir(path); !isFolder(folder) {
		return fmt.Errorf("there is no folder %q; make it first, or give another place for the file", folder)
	}
	_, statErr := os.Lstat(path)
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	if errors.Is(statErr, fs.ErrNotExist) {
		return syncFolder(filepath.Dir(path)) // the name outlives a power cut
	}
	return nil
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
