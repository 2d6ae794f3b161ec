package sqlite

import (
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"path/filepath"
	"slices"
	"strings"
	"syscall"

	gormsqlite "gorm.io/driver/sqlite"
	"gorm.io/gorm"
	driver "modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"potwright/internal/kitchen"
)

// dialector is gorm's SQLite dialect with the errors of the pure Go driver
// translated; gorm's own translation knows only the driver that needs cgo.
type dialector struct{ gormsqlite.Dialector }

// Translate turns the driver's constraint errors into gorm's.
func (d dialector) Translate(err error) error {
	var se *driver.Error
	if !errors.As(err, &se) {
		return err
	}
	switch se.Code() {
	case sqlite3.SQLITE_CONSTRAINT_UNIQUE, sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY:
		return gorm.ErrDuplicatedKey
	case sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY:
		return gorm.ErrForeignKeyViolated
	}
	return err // a failed CHECK keeps its own words: they name the constraint
}

// isDamage reports whether SQLite found the file broken, or something other than
// SQLite.
func isDamage(err error) bool { return isCode(err, sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB) }

// isBusy reports whether another connection has the file.
func isBusy(err error) bool { return isCode(err, sqlite3.SQLITE_BUSY) }

// engine is what SQLite does in its own way.
type engine struct{ watch *watch }

// Reading asks for a transaction that takes no write lock.
func (engine) Reading() *sql.TxOptions { return &sql.TxOptions{ReadOnly: true} }

// InWords says what to do about a full disk, a read-only file and another program.
func (engine) InWords(err error) error { return inWords(err) }

// inWords puts what a person can do about it before an error of the disk or of
// another program.
func inWords(err error) error {
	words := wordsOf(err)
	if words == nil {
		return err
	}
	return fmt.Errorf("%w (%w)", words, err)
}

// wordsOf is what a person can do about an error, nil where nothing is known.
func wordsOf(err error) error {
	var se *driver.Error
	switch {
	case errors.As(err, &se):
		return wordsOfCode(se.Code())
	case errors.Is(err, syscall.ENOSPC):
		return kitchen.ErrNoRoom
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return kitchen.ErrReadOnly
	}
	return nil
}

// wordsOfCode is wordsOf for a result code of SQLite, of which the low byte is the
// primary one. The shared index of its log grows with the first connection, so that a
// full disk shows there when a file is opened.
func wordsOfCode(code int) error {
	if code == sqlite3.SQLITE_IOERR_SHMSIZE {
		return kitchen.ErrNoRoom
	}
	switch code & 0xff {
	case sqlite3.SQLITE_FULL:
		return kitchen.ErrNoRoom
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN:
		return kitchen.ErrReadOnly
	case sqlite3.SQLITE_BUSY:
		return kitchen.ErrBusy
	}
	return nil
}

// isCode compares the primary result code, the low byte of the extended one.
func isCode(err error, codes ...int) bool {
	var se *driver.Error
	return errors.As(err, &se) && slices.Contains(codes, se.Code()&0xff)
}

// pragmas stand in the data source name, not in a statement, so that every
// connection of the pool has them. Transactions that write take the write lock
// at once: one that read first and then wrote could not wait for another writer.
// Recursive triggers make INSERT OR REPLACE fire the trigger that keeps versions
// from being deleted. Synchronous FULL puts the log on the disk with every commit:
// under NORMAL a commit that was acknowledged may be gone after a power cut
// (sqlite.org/pragma.html#pragma_synchronous).
const pragmas = "_pragma=busy_timeout(10000)&_pragma=journal_mode(WAL)&_pragma=foreign_keys(1)" +
	"&_pragma=recursive_triggers(1)&_pragma=synchronous(FULL)&_txlock=immediate&_time_format=sqlite&_timezone=UTC"

// readingPragmas open a file that is only looked at.
const readingPragmas = "mode=ro&_pragma=busy_timeout(10000)&_time_format=sqlite&_timezone=UTC"

// dataSource is the driver's name for the file with the parameters given. The
// path is escaped, since '?', '#' and '%' would end or change it.
func dataSource(path, parameters string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	slashed := filepath.ToSlash(abs)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // a drive letter
	}
	return "file:" + (&url.URL{Path: slashed}).EscapedPath() + "?" + parameters, nil
}
