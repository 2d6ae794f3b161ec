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
)

// ErrInUse is given where another program has the data file open.
var ErrInUse = errors.New("another program has the data file open: end it first")

// Restore puts a backup in the place of the data file at path. The backup is
// verified first, copied beside, and the copy verified; the file it replaces is
// kept aside and its new path given, "" where there was none. Until the last step
// the data file stays as it is.
func Restore(ctx context.Context, backup, path string, now time.Time) (aside string, err error) {
	if _, err := Verify(ctx, backup); err != nil {
		return "", fmt.Errorf("restore %s: nothing was changed: %w", backup, err)
	}
	fresh := path + ".restoring"
	_ = os.Remove(fresh) // of a restore that was cut off
	if err := copyFile(ctx, backup, fresh); err != nil {
		return "", fmt.Errorf("restore %s: nothing was changed: %w", backup, err)
	}
	if aside, err = setAside(ctx, path, now); err != nil {
		_ = os.Remove(fresh) // the first error matters more
		return "", fmt.Errorf("restore %s: nothing was changed: %w", backup, err)
	}
	if err := os.Rename(fresh, path); err != nil {
		return aside, fmt.Errorf("restore %s: the data file was kept as %s: %w", backup, aside, err)
	}
	return aside, syncFolder(filepath.Dir(path))
}

// copyFile copies a database file that nobody need have open.
func copyFile(ctx context.Context, from, to string) error {
	pool, err := openToRead(from)
	if err != nil {
		return err
	}
	defer pool.Close()
	return copyTo(ctx, pool, to)
}

// setAside gives the data file a second name beside it and takes its log away:
// SQLite would else play the old log into the new file.
func setAside(ctx context.Context, path string, now time.Time) (string, error) {
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return "", nil
	} else if err != nil {
		return "", err
	}
	if err := foldLog(ctx, path); err != nil {
		return "", err
	}
	aside, err := freeName(path + ".replaced-" + now.UTC().Format(backupTime))
	if err != nil {
		return "", err
	}
	if os.Link(path, aside) != nil { // a file system without links
		if err := os.Rename(path, aside); err != nil {
			return "", err
		}
	}
	for _, suffix := range []string{logSuffix, sharedSuffix} {
		if err := os.Rename(path+suffix, aside+suffix); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return "", err
		}
	}
	return aside, syncFolder(filepath.Dir(path))
}

// foldLog writes the log into the data file and ends it, which SQLite does for a
// program that is alone with the file; ErrInUse else. A file too damaged for that
// keeps its log, which SQLite would drop if it opened it.
func foldLog(ctx context.Context, path string) error {
	var d *DamagedError
	if errors.As(inspect(path), &d) {
		return nil
	}
	dsn, err := dataSource(path, "mode=rw&_pragma=busy_timeout(1000)")
	if err != nil {
		return err
	}
	pool, err := sql.Open("sqlite", dsn)
	if err != nil {
		return err
	}
	defer pool.Close()
	_, err = pool.ExecContext(ctx, "PRAGMA journal_mode = DELETE")
	if isBusy(err) {
		return ErrInUse
	}
	return nil
}

// freeName is the name, or the name with a number, that no file bears.
func freeName(name string) (string, error) {
	try := name
	for n := 2; ; n++ {
		_, err := os.Lstat(try)
		if errors.Is(err, fs.ErrNotExist) {
			return try, nil
		}
		if err != nil {
			return "", err
		}
		try = fmt.Sprintf("%s-%d", name, n)
	}
}
