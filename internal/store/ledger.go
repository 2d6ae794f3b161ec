package store

import (
	"context"
	"strconv"
	"sync"
)

// ledger notes what is saved here, so that what rests on one recipe outlives what is
// saved of another.
type ledger struct {
	mu sync.Mutex
	// n counts what was saved; any is the last of it that belongs to no one recipe, of
	// the last for each recipe saved in this run.
	n, any int64
	of     map[int64]int64
}

// belonging is what is saved belongs to: a recipe's id, or one of these.
type belonging = int64

const (
	// toAny is what several recipes rest on, or may rest on.
	toAny belonging = -1
	// toNone is what no recipe rests on, such as when somebody was last seen.
	toNone belonging = 0
)

func (l *ledger) note(to belonging) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.n++
	switch to {
	case toNone:
	case toAny:
		l.any = l.n
	default:
		if l.of == nil {
			l.of = map[int64]int64{}
		}
		l.of[to] = l.n
	}
}

// last is the number of the last save, and of the last that a recipe rests on.
func (l *ledger) last(recipeID int64) (n, of int64) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.n, max(l.any, l.of[recipeID])
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

// revision is what was saved by others and here, and here other than with one recipe.
type revision struct {
	others string
	n, any int64
}

func (s *Store) revision(ctx context.Context) (r revision, err error) {
	r.others, err = s.others(ctx)
	r.n, r.any = s.saved.last(0)
	return r, err
}

// Revision names what is saved now: it differs from all earlier ones as soon as any
// program has saved anything, of any household.
func (s *Store) Revision(ctx context.Context) (string, error) {
	others, err := s.others(ctx)
	n, _ := s.saved.last(0)
	return others + "." + strconv.FormatInt(n, 10), err
}

// RevisionOf is Revision, but stays as it was where this program saves what belongs to
// another recipe alone.
func (s *Store) RevisionOf(ctx context.Context, recipeID int64) (string, error) {
	others, err := s.others(ctx)
	_, of := s.saved.last(recipeID)
	return others + "." + strconv.FormatInt(of, 10), err
}
