// Package datafile gives tests SQLite files that are ready for use. It stands beside
// testkit so that tests without one need not link a database.
package datafile

import (
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"potwright/internal/store/sqlite"
)

// Empty is the path of a file of the test's own with the newest schema and nothing in
// it. It is a copy of one that is made once: to make one takes longer than most tests do.
func Empty(t testing.TB) string {
	t.Helper()
	b, err := made()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "kitchen.db")
	if err := os.WriteFile(file, b, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

var made = sync.OnceValues(func() ([]byte, error) {
	dir, err := os.MkdirTemp("", "potwright-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "kitchen.db")
	s, err := sqlite.Open(file, time.Now)
	if err != nil {
		return nil, err
	}
	if err := s.Close(); err != nil {
		return nil, err
	}
	return os.ReadFile(file)
})
