package sqlite

import (
	"context"
	"database/sql"
	"sync"
)

// statements is a pool that keeps what was asked outside transactions ready to be asked
// again: SQLite takes longer to parse and plan most questions than to answer them. It
// is a gorm.ConnPool.
type statements struct {
	*sql.DB
	mu   sync.RWMutex
	kept map[string]*sql.Stmt // by text; closed with the pool
}

// keptStatements is how many texts are kept: twice as many as there are questions,
// since one that names many things has a text for each number of them. A design choice.
const keptStatements = 100

// QueryContext asks with the statement kept for the text.
func (s *statements) QueryContext(ctx context.Context, text string, args ...any) (*sql.Rows, error) {
	stmt, err := s.of(ctx, text)
	if err != nil || stmt == nil {
		return s.DB.QueryContext(ctx, text, args...)
	}
	return stmt.QueryContext(ctx, args...)
}

// QueryRowContext is QueryContext for one row.
func (s *statements) QueryRowContext(ctx context.Context, text string, args ...any) *sql.Row {
	stmt, err := s.of(ctx, text)
	if err != nil || stmt == nil {
		return s.DB.QueryRowContext(ctx, text, args...)
	}
	return stmt.QueryRowContext(ctx, args...)
}

// of is the statement for a text, nil where enough are kept.
func (s *statements) of(ctx context.Context, text string) (*sql.Stmt, error) {
	s.mu.RLock()
	stmt, full := s.kept[text], len(s.kept) >= keptStatements
	s.mu.RUnlock()
	if stmt != nil || full {
		return stmt, nil
	}
	made, err := s.PrepareContext(ctx, text)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if stmt = s.kept[text]; stmt != nil { // another was faster
		return stmt, made.Close()
	}
	if s.kept == nil {
		s.kept = map[string]*sql.Stmt{}
	}
	s.kept[text] = made
	return made, nil
}

// GetDBConn is the pool beneath.
func (s *statements) GetDBConn() (*sql.DB, error) { return s.DB, nil }
