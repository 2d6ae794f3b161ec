package postgres

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"errors"
	"fmt"
	"io"
	"net"
	"strings"

	"github.com/jackc/pgx/v5/pgconn"
	"gorm.io/gorm"

	"potwright/internal/kitchen"
)

// engine is what PostgreSQL does in its own way.
type engine struct{}

// Reading asks for one snapshot for all statements of a transaction.
func (engine) Reading() *sql.TxOptions {
	return &sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true}
}

// lockQuery waits until no other program writes to the schema, and holds that until
// the transaction ends, so that what a writer has read stays true while it writes, as
// in SQLite: two may not both take a recipe's next number, or the last two keepers
// each other's role. Readers do not wait. The first number is "Potw" in ASCII.
const lockQuery = "SELECT pg_advisory_xact_lock(1349481591, hashtext(current_schema()))"

// Write waits for the lock of writers.
func (engine) Write(ctx context.Context, db *gorm.DB, f func(tx *gorm.DB) error) error {
	return db.WithContext(ctx).Transaction(func(tx *gorm.DB) error {
		if err := tx.Exec(lockQuery).Error; err != nil {
			return err
		}
		return f(tx)
	})
}

// State is the snapshot that a question asked now would see: it names every
// transaction that is still open, and so differs once one more has ended
// (postgresql.org/docs/current/functions-info.html, pg_current_snapshot).
func (engine) State(ctx context.Context, pool *sql.DB) (snapshot string, err error) {
	err = pool.QueryRowContext(ctx, "SELECT pg_current_snapshot()::text").Scan(&snapshot)
	return snapshot, err
}

// Close has nothing to give back.
func (engine) Close() error { return nil }

// InWords says what to do about a full disk, a server that is away and the like.
func (engine) InWords(err error) error { return inWords(err) }

var (
	errEmpty    = errors.New("it is empty; expected one that Potwright has written to")
	errNoSchema = errors.New("it has no schema to keep tables in: make the one that search_path names (CREATE SCHEMA …)")
	errRefused  = errors.New("the server does not let this user in: see the user's name and password (PGPASSWORD or a password file may hold it) and the server's pg_hba.conf")
	errNoBase   = errors.New("the server has no such database: make it first (createdb), or correct its name")
	errNoRight  = errors.New("the user lacks a right: let it make and use tables here (GRANT USAGE, CREATE ON SCHEMA … TO …)")
)

// words are what a person can do about an error, by its SQLSTATE or the class that
// begins it (postgresql.org/docs/current/errcodes-appendix.html).
func words(state string) error {
	switch state {
	case "28000", "28P01":
		return errRefused
	case "3D000":
		return errNoBase
	case "42501":
		return errNoRight
	case "54000":
		return kitchen.ErrTooLong
	case "53100":
		return kitchen.ErrNoRoom
	case "25006":
		return kitchen.ErrReadOnly
	case "55P03", "40001", "40P01", "53300":
		return kitchen.ErrBusy
	}
	switch state[:min(2, len(state))] {
	case "08", "57":
		return kitchen.ErrAway
	}
	return nil
}

// inWords puts what a person can do about it before an error of the server or of the
// way to it.
func inWords(err error) error {
	var connecting *pgconn.ConnectError
	what := meaning(err)
	switch {
	case errors.As(err, &connecting) && what != nil:
		return fmt.Errorf("%w (%w)", what, lastTried{connecting})
	case what != nil:
		return fmt.Errorf("%w (%w)", what, err)
	}
	return err
}

// meaning is what an error says to a person, nil where it has no words here.
func meaning(err error) error {
	var fault *pgconn.PgError
	var connecting *pgconn.ConnectError
	var network net.Error
	switch {
	case errors.Is(err, context.Canceled):
		return nil
	case errors.As(err, &fault):
		return words(fault.Code)
	case errors.As(err, &connecting), errors.As(err, &network), errors.Is(err, pgconn.ErrConnClosed), errors.Is(err, net.ErrClosed),
		errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, driver.ErrBadConn):
		return kitchen.ErrAway
	}
	return nil
}

// lastTried says of an error to connect only the last way that was tried, of which the
// driver tells each on a line of its own. What caused it stays known: a question whose
// time ran out while it connected is told from a server that is away.
type lastTried struct{ error }

func (e lastTried) Error() string {
	lines := strings.Split(e.error.Error(), "\n")
	return strings.TrimSpace(lines[len(lines)-1])
}

func (e lastTried) Unwrap() error { return e.error }
