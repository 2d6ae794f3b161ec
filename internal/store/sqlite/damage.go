package sqlite

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strings"
	"sync"

	"potwright/internal/store"
)

// DamagedError is a data file that is damaged, or gone while its backups are
// there. It is left as it is.
type DamagedError struct {
	Path string // the data file
	What string // what is wrong with it
	// Backup is the newest backup that is whole; "" where there is none.
	Backup string
}

// Error says which file is damaged and how.
func (e *DamagedError) Error() string {
	return fmt.Sprintf("data file %s can't be used: %s; it was left as it is", e.Path, e.What)
}

// damaged is a *DamagedError that named gives its path and backup.
func damaged(format string, args ...any) error {
	return &DamagedError{What: fmt.Sprintf(format, args...)}
}

// named puts the file's path on an error and, where the file is damaged, its
// last good backup.
func named(ctx context.Context, path string, err error) error {
	if isDamage(err) {
		err = damaged("SQLite can't read it (%v)", err)
	}
	var d *DamagedError
	if !errors.As(err, &d) {
		return fmt.Errorf("open database %s: %w", path, inWords(err))
	}
	d.Path, d.Backup = path, LastGoodBackup(ctx, path)
	return d
}

// The header of an SQLite file (sqlite.org/fileformat.html, section 1.3).
const (
	headerSize          = 100
	headerUserVersion   = 60
	headerApplicationID = 68
)

var headerMagic = []byte("SQLite format 3\x00")

// inspect reads the first bytes of the file, before anything opens it to write:
// a file that is not ours, or a later release's, keeps every byte.
func inspect(path string) error {
	if isFolder(path) {
		return errors.New("it is a folder; expected the file that keeps households and recipes, or a new name in it")
	}
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return unlessBackedUp(path, "it is not there any more, but backups of it are")
	}
	if err != nil {
		return err
	}
	defer f.Close()
	head := make([]byte, headerSize)
	n, err := io.ReadFull(f, head)
	switch {
	case errors.Is(err, io.EOF):
		return unlessBackedUp(path, "it is empty, but backups of it are there")
	case err != nil && !errors.Is(err, io.ErrUnexpectedEOF):
		return err
	case n < headerSize || !bytes.HasPrefix(head, headerMagic):
		return damaged("the file is not an SQLite database, or its first bytes are damaged")
	}
	at, id := binary.BigEndian.Uint32(head[headerUserVersion:]), binary.BigEndian.Uint32(head[headerApplicationID:])
	newest, err := NewestSchema()
	if err == nil && id == applicationID && int(at) > newest {
		return store.NewerSchema(int(at), newest)
	}
	return err
}

// unlessBackedUp is damage where backups stand beside the path, nil else: a new
// file is made then.
func unlessBackedUp(path, what string) error {
	copies, err := backupsOf(path)
	if err != nil || len(copies) == 0 {
		return err
	}
	return damaged("%s (to start afresh, move the folder %s away)", what, BackupFolder(path))
}

// quickCheck looks the pages of the file through and gives its schema version.
func quickCheck(ctx context.Context, q querier) (schema int, err error) {
	if schema, err = schemaVersion(ctx, q); err != nil {
		return 0, err
	}
	return schema, pageCheck(ctx, q, "quick_check")
}

// pageCheck runs one of SQLite's own checks, "quick_check" or "integrity_check";
// what it finds is a *DamagedError.
func pageCheck(ctx context.Context, q querier, pragma string) error {
	found, err := texts(ctx, q, "PRAGMA "+pragma+"(3)")
	if err != nil {
		return err
	}
	if !slices.Equal(found, []string{"ok"}) {
		return damaged("%s finds: %s", pragma, strings.Join(found, "; "))
	}
	return nil
}

// checkComplete is damage where a table, index or trigger of the schema is not
// there.
func checkComplete(ctx context.Context, q querier, schema int) error {
	want, err := newestObjects()
	if newest, _ := NewestSchema(); schema != newest {
		want, err = objectsAt(ctx, schema)
	}
	if err != nil {
		return err
	}
	have, err := texts(ctx, q, objectsQuery)
	if err != nil {
		return err
	}
	var missing []string
	for _, name := range want {
		if !slices.Contains(have, name) {
			missing = append(missing, name)
		}
	}
	if len(missing) > 0 {
		return damaged("it lacks %s", strings.Join(missing, ", "))
	}
	return nil
}

const objectsQuery = "SELECT type || ' ' || name FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' ORDER BY name"

// newestObjects is objectsAt for the newest schema, which nearly every file has: to
// make the tables in memory takes longer than all else of opening a file.
var newestObjects = sync.OnceValues(func() ([]string, error) {
	newest, err := NewestSchema()
	if err != nil {
		return nil, err
	}
	return objectsAt(context.Background(), newest)
})

// objectsAt names the tables, indices and triggers of a schema version, as the
// migrations make them in memory.
func objectsAt(ctx context.Context, schema int) ([]string, error) {
	ms, err := migrations()
	if err != nil {
		return nil, err
	}
	pool, err := sql.Open("sqlite", ":memory:")
	if err != nil {
		return nil, err
	}
	defer pool.Close()
	pool.SetMaxOpenConns(1) // each connection would have a memory of its own
	for _, m := range ms[:schema] {
		if _, err := pool.ExecContext(ctx, m.SQL); err != nil {
			return nil, fmt.Errorf("migration %s: %w", m.Name, err)
		}
	}
	return texts(ctx, pool, objectsQuery)
}

// texts is the first column of a query.
func texts(ctx context.Context, q querier, query string) ([]string, error) {
	rows, err := q.QueryContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []string
	for rows.Next() {
		var s string
		if err := rows.Scan(&s); err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, rows.Err()
}
