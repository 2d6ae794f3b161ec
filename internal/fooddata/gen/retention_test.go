package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestGeneratingTheRetentionTableAgainGivesTheSameBytes(t *testing.T) {
	if _, err := os.Stat(filepath.Join(usdaData, "usda-retention")); err != nil {
		t.Skip("the USDA files are not at " + usdaData + ": nothing to generate from")
	}
	want, err := retention(os.DirFS(usdaData))
	require.NoError(t, err)
	got, err := os.ReadFile(filepath.Join("..", "factor", retentionFile))
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got), "run go generate ./internal/fooddata")
}
