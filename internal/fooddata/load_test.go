package fooddata

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestTheTableLoads(t *testing.T) {
	table, err := Load()
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(table.Foods()), 1600)
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(); err != nil {
			b.Fatal(err)
		}
	}
}
