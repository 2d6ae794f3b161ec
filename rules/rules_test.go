package rules_test

import (
	"testing"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
	"potwright/internal/ruleset"
	"potwright/internal/swap"
	"potwright/rules"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func realTable(t testing.TB) *composition.Table {
	t.Helper()
	table, err := fooddata.Load()
	require.NoError(t, err)
	return table
}

func realBook(t testing.TB) *swap.Book {
	t.Helper()
	book, err := ruleset.Swaps(rules.FS, realTable(t).Foods())
	require.NoError(t, err)
	return book
}

func TestTheRulebookHasNoFault(t *testing.T) {
	book := realBook(t)
	assert.GreaterOrEqual(t, len(book.Rules()), 80)
	for _, b := range book.Balances() {
		assert.NotEmpty(t, b.Brings, b.Function)
	}
}
