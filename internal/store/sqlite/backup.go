package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"potwright/internal/store"
)

// Verify reads a data file or a backup through without changing it: its header,
// every page and index, every reference between rows, and whether the schema is
// complete. What is wrong is a *DamagedError; a file of another program or of a
// later release is refused.
func Verify(ctx context.Context, path string) (store.Condition, error) {
	c, err := verify(ctx, path)
	if err != nil {
		return store.Condition{}, named(ctx, path, err)
	}
	return c, nil
}

func verify(ctx context.Context, path string) (c store.Condition, err error) {
	if _, err := os.Stat(path); err != nil {
		return c, err
	}
	if err := inspect(path); err != nil {
		return c, err
	}
	pool, err := openToRead(path)
	if err != nil {
		return c, err
	}
	defer pool.Close()
	if c.Schema, err = schemaVersion(ctx, pool); err != nil {
		return c, err
	}
	newest, err := NewestSchema()
	switch {
	case err != nil:
		return c, err
	case c.Schema > newest:
		return c, store.NewerSchema(c.Schema, newest)
	case c.Schema == 0:
		return c, damaged("it is an empty database")
	}
	if err := pageCheck(ctx, pool, "integrity_check"); err != nil {
		return c, err
	}
	if err := checkForeignKeys(ctx, pool); err != nil {
		return c, damaged("%v", err)
	}
	if err := checkComplete(ctx, pool, c.Schema); err != nil {
		return c, err
	}
	return c, pool.QueryRowContext(ctx, store.CountQuery).Scan(&c.Households, &c.Recipes, &c.Versions)
}

// openToRead opens a file that is only looked at. Where no log stands beside it
// nobody has it open, and it is read without locks, also from a disk that can't be
// written to.
func openToRead(path string) (*sql.DB, error) {
	parameters := readingPragmas
	if _, err := os.Stat(path + logSuffix); errors.Is(err, fs.ErrNotExist) {
		parameters += "&immutable=1"
	}
	dsn, err := dataSource(path, parameters)
	if err != nil {
		return nil, err
	}
	return sql.Open("sqlite", dsn)
}

// Suffixes of the files that SQLite keeps beside an open database.
const (
	logSuffix    = "-wal"
	sharedSuffix = "-shm"
)

// Backup writes a consistent copy of the database to a new file at path, while
// others may go on reading and writing. The copy bears the name only when it is
// whole and on the disk. A path that exists is refused (fs.ErrExist).
func (s *Store) Backup(ctx context.Context, path string) error {
	pool, err := s.db.DB()
	if err == nil {
		err = copyTo(ctx, pool, path)
	}
	if err != nil {
		return fmt.Errorf("back up database to %s: %w", path, inWords(err))
	}
	return nil
}

// copyTo writes what the pool reads to a new file, verifies it, and names it path
// last of all.
func copyTo(ctx context.Context, pool *sql.DB, path string) (err error) {
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("the file exists already: %w", fs.ErrExist)
	}
	part, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".part-*") // readable by its owner alone
	if err != nil {
		return err
	}
	defer os.Remove(part.Name())
	if err := part.Close(); err != nil {
		return err
	}
	if _, err := pool.ExecContext(ctx, "VACUUM INTO ?", part.Name()); err != nil { // takes an empty file
		return err
	}
	if _, err := verify(ctx, part.Name()); err != nil {
		return fmt.Errorf("the copy is not whole: %w", err)
	}
	if err := syncFile(part.Name()); err != nil {
		return err
	}
	return NameNew(part.Name(), path)
}

// NameNew gives a file its final name, which nothing may bear yet (fs.ErrExist),
// and puts the name on the disk.
func NameNew(from, to string) error {
	err := os.Link(from, to) // fails where the name is taken, as a rename would not
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("the file exists already: %w", fs.ErrExist)
	}
	if err != nil { // a file system without links
		err = os.Rename(from, to)
	}
	if err != nil {
		return err
	}
	return syncFolder(filepath.Dir(to))
}

// syncFile puts a file's bytes on the disk.
func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// syncFolder puts the names in a folder on the disk; Windows does so by itself.
func syncFolder(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
