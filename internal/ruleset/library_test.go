package ruleset_test

import (
	"testing"

	"potwright/internal/fooddata"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/ruleset"
	"potwright/rules"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func stock(t testing.TB) ruleset.Stock {
	t.Helper()
	table, err := fooddata.Load()
	require.NoError(t, err)
	retentions, err := fooddata.LoadRetentions()
	require.NoError(t, err)
	return ruleset.Stock{Foods: table.Foods(), Retentions: retentions, Read: func(text string) foodmatch.Matched {
		return foodmatch.Weigh(ingredient.Read(text), table, nil, nil)
	}}
}

func TestTheBuiltInRulesHaveNoFaultAndEveryExampleHolds(t *testing.T) {
	assert.Empty(t, ruleset.Check(ruleset.Folder{FS: rules.FS}, stock(t)))
}

// All built-in rules read and checked: 100 ms is the bound.
func BenchmarkLibraryLoaded(b *testing.B) {
	s := stock(b)
	for b.Loop() {
		if _, err := ruleset.Library(ruleset.Folder{FS: rules.FS}, nil, s); err != nil {
			b.Fatal(err)
		}
	}
}

// Every rule and every example tried.
func BenchmarkLibraryChecked(b *testing.B) {
	s := stock(b)
	for b.Loop() {
		ruleset.Check(ruleset.Folder{FS: rules.FS}, s)
	}
}
