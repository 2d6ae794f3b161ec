package store

import (
	"context"
	"fmt"
	"strconv"
	"sync"

	"gorm.io/gorm"
)

// saveRow is a row of saves, which the triggers of the schema write: the number of the
// last save that belongs to a recipe.
type saveRow struct {
	RecipeID int64 `gorm:"primaryKey"`
	Number   int64
}

// TableName is the table's name in the schema.
func (saveRow) TableName() string { return "saves" }

// ledger is what was read of the saves so far.
type ledger struct {
	mu sync.Mutex
	// state is the database's when they were read; "" before that.
	state string
	// n is the last save of all, any the last that several recipes may rest on.
	revision
	// of are the last of each recipe.
	of map[int64]int64
}

// revision is the last save of all, and the last that belongs to no one recipe.
type revision struct{ n, any int64 }

// toAny stands in saves for what several recipes rest on, or may rest on.
const toAny = 0

// catchUp reads what was saved since it was asked last, by any program.
func (s *Store) catchUp(ctx context.Context) (*ledger, error) {
	pool, err := s.db.DB()
	if err != nil {
		return nil, fmt.Errorf("find the revision: %w", err)
	}
	// Asked before the saves are read: they are then of that state, or of a later one.
	state, err := s.engine.State(ctx, pool)
	if err != nil {
		return nil, fmt.Errorf("find the revision: %w", s.told(ctx, err))
	}
	l := &s.saved
	l.mu.Lock()
	defer l.mu.Unlock()
	if state == l.state {
		return l, nil
	}
	var rows []saveRow
	err = s.ask(ctx, func(tx *gorm.DB) error { return tx.Where("number > ?", l.n).Find(&rows).Error })
	if err != nil {
		return nil, fmt.Errorf("find the revision: %w", err)
	}
	l.note(rows)
	l.state = state
	return l, nil
}

func (l *ledger) note(rows []saveRow) {
	if l.of == nil {
		l.of = map[int64]int64{}
	}
	for _, row := range rows {
		l.n = max(l.n, row.Number)
		if l.of[row.RecipeID] = row.Number; row.RecipeID == toAny {
			l.any = row.Number
		}
	}
}

// last is the number of the last save that a recipe rests on.
func (l *ledger) last(recipeID int64) int64 {
	l.mu.Lock()
	defer l.mu.Unlock()
	return max(l.any, l.of[recipeID])
}

// since are the recipes saved after a number.
func (l *ledger) since(n int64) (recipes []int64) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for id, at := range l.of {
		if at > n {
			recipes = append(recipes, id)
		}
	}
	return recipes
}

func (s *Store) revision(ctx context.Context) (revision, error) {
	l, err := s.catchUp(ctx)
	if err != nil {
		return revision{}, err
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.revision, nil
}

// Revision names what is saved now: it differs from all earlier ones as soon as any
// program has saved anything, of any household.
func (s *Store) Revision(ctx context.Context) (string, error) {
	r, err := s.revision(ctx)
	return strconv.FormatInt(r.n, 10), err
}

// RevisionOf is Revision, but stays as it was where what is saved belongs to another
// recipe alone.
func (s *Store) RevisionOf(ctx context.Context, recipeID int64) (string, error) {
	l, err := s.catchUp(ctx)
	if err != nil {
		return "", err
	}
	return strconv.FormatInt(l.last(recipeID), 10), nil
}
