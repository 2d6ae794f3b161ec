// Package testkit is what several packages' tests share.
package testkit

import (
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/ruleset"
	"potwright/rules"
)

// Shared is the path of a file of reference material that is not part of the
// repository: below POTWRIGHT_SHARED, or below a folder "shared" beside the
// checkout. The test is skipped where there is none.
func Shared(t testing.TB, name string) string {
	t.Helper()
	if dir := os.Getenv("POTWRIGHT_SHARED"); dir != "" {
		return filepath.Join(dir, name)
	}
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		file := filepath.Join(dir, "shared", name)
		if _, err := os.Stat(file); err == nil {
			return file
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Skipf("no reference material: set POTWRIGHT_SHARED to the folder that holds %s", name)
		}
		dir = up
	}
}

// Now is the fixed time of tests.
var Now = func() time.Time { return time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC) }

// builtIn is the food table and the built-in rules, read once for all tests of a
// package: reading them takes longer than most tests do, and nothing changes them.
var builtIn = sync.OnceValues(readBuiltIn)

type supplies struct {
	table *composition.Table
	book  *kitchen.Rulebook
}

func readBuiltIn() (s supplies, err error) {
	if s.table, err = fooddata.Load(); err != nil {
		return s, err
	}
	retentions, err := fooddata.LoadRetentions()
	if err != nil {
		return s, err
	}
	s.book, err = ruleset.Library(ruleset.Folder{FS: rules.FS}, nil, ruleset.Stock{Foods: s.table.Foods(), Retentions: retentions})
	return s, err
}

func (s supplies) kitchen() *kitchen.Kitchen {
	return &kitchen.Kitchen{Table: s.table, Book: s.book.Swaps, Needs: s.book.Needs, Cooking: s.book.Cooking,
		Keeping: s.book.Keeping, Taste: s.book.Taste, Darkroom: photo.NewDarkroom(1), Now: time.Now}
}

// Rulebook is the built-in rules, with where each stands; it is shared.
func Rulebook(t testing.TB) *kitchen.Rulebook {
	t.Helper()
	s, err := builtIn()
	if err != nil {
		t.Fatal(err)
	}
	return s.book
}

// Kitchen is the real table, rules and needs without a store. The kitchen is the
// test's own; the table and the rules are shared.
func Kitchen(t testing.TB) *kitchen.Kitchen {
	t.Helper()
	s, err := builtIn()
	if err != nil {
		t.Fatal(err)
	}
	return s.kitchen()
}

// FreshKitchen is Kitchen, read anew as at the start of the program.
func FreshKitchen(t testing.TB) *kitchen.Kitchen {
	t.Helper()
	s, err := readBuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	return s.kitchen()
}
