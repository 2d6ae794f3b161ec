// Package testkit is what several packages' tests share.
package testkit

import (
	"os"
	"path/filepath"
	"testing"
	"time"

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

// Rulebook is the built-in rules, with where each stands.
func Rulebook(t testing.TB) *kitchen.Rulebook {
	t.Helper()
	table, err := fooddata.Load()
	if err != nil {
		t.Fatal(err)
	}
	retentions, err := fooddata.LoadRetentions()
	if err != nil {
		t.Fatal(err)
	}
	book, err := ruleset.Library(ruleset.Folder{FS: rules.FS}, nil, ruleset.Stock{Foods: table.Foods(), Retentions: retentions})
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// Kitchen is the real table, rules and needs without a store.
func Kitchen(t testing.TB) *kitchen.Kitchen {
	t.Helper()
	table, err := fooddata.Load()
	if err != nil {
		t.Fatal(err)
	}
	retentions, err := fooddata.LoadRetentions()
	if err != nil {
		t.Fatal(err)
	}
	book, err := ruleset.Library(ruleset.Folder{FS: rules.FS}, nil, ruleset.Stock{Foods: table.Foods(), Retentions: retentions})
	if err != nil {
		t.Fatal(err)
	}
	return &kitchen.Kitchen{Table: table, Book: book.Swaps, Needs: book.Needs, Cooking: book.Cooking,
		Keeping: book.Keeping, Taste: book.Taste, Darkroom: photo.NewDarkroom(1), Now: time.Now}
}
