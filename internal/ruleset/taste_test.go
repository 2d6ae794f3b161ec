package ruleset_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/ruleset"
)

func TestHowFarSaltMayFallIsSound(t *testing.T) {
	fall := library(t, nil).Taste.Fall
	assert.Less(t, fall.Unnoticed, fall.Helped)
	assert.Positive(t, fall.Counts)
}

func TestAFaultyTasteFileNamesEveryFault(t *testing.T) {
	_, err := ruleset.Library(ruleset.Folder{FS: fstest.MapFS{"taste/a.yaml": {Data: []byte(`theme: t
fall: {unnoticed: 50, helped: 40, why: w, source: s}
helpers: []
`)}}}, nil, stock(t))
	require.Error(t, err)
	for _, part := range []string{"taste/a.yaml", "below unnoticed", "helpers", "counts"} {
		assert.Contains(t, err.Error(), part)
	}
}
