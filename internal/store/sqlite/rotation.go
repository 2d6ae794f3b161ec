package sqlite

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// DefaultKeep is how many backups are kept where nothing else is said: a week of
// daily ones.
const DefaultKeep = 7

// backupInterval is how old the newest backup may get while the file is in use.
const backupInterval = 24 * time.Hour

// BackupFolder is where the backups of a data file stand: beside it, so that a
// person who copies the folder has both.
func BackupFolder(path string) string { return path + ".backups" }

// backup is one file of the folder. Number orders them, not the time: the clock
// may have gone backwards.
type backup struct {
	path   string
	number int
	taken  time.Time
}

// backupTime is how a backup's time stands in its name: no colon, which some file
// systems don't take.
const backupTime = "2006-01-02T150405Z"

func backupName(number int, at time.Time) string {
	return fmt.Sprintf("%06d-%s.db", number, at.UTC().Format(backupTime))
}

// backupsOf lists the backups of a data file, the newest last; files of other
// names are passed over.
func backupsOf(path string) ([]backup, error) {
	entries, err := os.ReadDir(BackupFolder(path))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	var out []backup
	for _, e := range entries {
		digits, rest, _ := strings.Cut(e.Name(), "-")
		number, err1 := strconv.Atoi(digits)
		taken, err2 := time.Parse(backupTime, strings.TrimSuffix(rest, ".db"))
		if err1 == nil && err2 == nil && e.Type().IsRegular() {
			out = append(out, backup{filepath.Join(BackupFolder(path), e.Name()), number, taken})
		}
	}
	slices.SortFunc(out, func(a, b backup) int { return a.number - b.number })
	return out, nil
}

// LastGoodBackup is the newest backup beside the data file that is whole, "" where
// there is none.
func LastGoodBackup(ctx context.Context, path string) string {
	copies, _ := backupsOf(path) // a folder that can't be read offers nothing
	for _, b := range slices.Backward(copies) {
		if _, err := verify(ctx, b.path); err == nil {
			return b.path
		}
	}
	return ""
}

// keepTries bounds how often a number is tried that another program took first.
const keepTries = 20

// keepCopy adds a backup to the folder and gives its path.
func (s *Store) keepCopy(ctx context.Context) (string, error) {
	if err := os.MkdirAll(BackupFolder(s.path), 0o700); err != nil {
		return "", err
	}
	var err error
	for range keepTries {
		var copies []backup
		if copies, err = backupsOf(s.path); err != nil {
			return "", err
		}
		number := 1
		if n := len(copies); n > 0 {
			number = copies[n-1].number + 1
		}
		path := filepath.Join(BackupFolder(s.path), backupName(number, s.now()))
		if err = s.Backup(ctx, path); !errors.Is(err, fs.ErrExist) {
			return path, err
		}
	}
	return "", err
}

// KeepBackups adds a backup to BackupFolder where the newest is a day old, and
// drops the oldest beyond keep; 0 keeps none and drops none. It gives the path of
// the new one, "" where none was due. A newest one from the future, where the clock
// has gone backwards, does not count as new.
func (s *Store) KeepBackups(ctx context.Context, keep int) (string, error) {
	if keep <= 0 {
		return "", nil
	}
	copies, err := backupsOf(s.path)
	if err != nil {
		return "", fmt.Errorf("list backups: %w", err)
	}
	if n := len(copies); n > 0 {
		age := s.now().Sub(copies[n-1].taken)
		if age > -time.Minute && age < backupInterval {
			return "", nil
		}
	}
	path, err := s.keepCopy(ctx)
	if err != nil {
		return "", err
	}
	return path, s.dropBackups(keep)
}

// dropBackups takes the oldest backups away beyond keep.
func (s *Store) dropBackups(keep int) error {
	copies, err := backupsOf(s.path)
	if err != nil {
		return fmt.Errorf("list backups: %w", err)
	}
	for _, b := range copies[:max(0, len(copies)-keep)] {
		if err := os.Remove(b.path); err != nil {
			return fmt.Errorf("drop an old backup: %w", err)
		}
	}
	return nil
}
