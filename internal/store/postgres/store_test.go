package postgres_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"potwright/internal/store/postgres"
	"potwright/internal/testkit"
)

func TestOpen(t *testing.T) {
	at := testkit.Postgres(t)
	for range 3 {
		start := time.Now()
		s, err := postgres.Open(at, time.Now)
		require.NoError(t, err)
		t.Log(time.Since(start))
		require.NoError(t, s.Close())
	}
	c, err := postgres.Look(t.Context(), at)
	require.NoError(t, err)
	t.Log(c)
}
