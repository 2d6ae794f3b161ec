package ruleset_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/fooddata"
	"potwright/internal/ruleset"
)

func TestTheTasteHelpersAreSound(t *testing.T) {
	table, err := fooddata.Load()
	require.NoError(t, err)
	book := library(t, nil).Taste
	assert.Less(t, book.Fall.Unnoticed, book.Fall.Helped)
	assert.NotEmpty(t, book.Helpers)
	for _, h := range book.Helpers {
		_, ok := table.ByName(h.Food)
		assert.True(t, ok, h.ID)
	}
}

func TestAFaultyTasteFileNamesEveryFault(t *testing.T) {
	_, err := ruleset.Library(ruleset.Folder{FS: fstest.MapFS{"taste/a.yaml": {Data: []byte(`theme: t
fall: {unnoticed: 50, helped: 40, why: w, source: s}
helpers:
  - {id: a, title: A, food: lemon juise, say: x, with: [fisch], why: w, source: s}
  - {id: a, title: B, food: "lemon juice, raw", why: w, source: s}
`)}}}, nil, stock(t))
	require.Error(t, err)
	for _, part := range []string{"taste/a.yaml", "below unnoticed", "lemon juise", "fisch", "is taken", "say"} {
		assert.Contains(t, err.Error(), part)
	}
}
