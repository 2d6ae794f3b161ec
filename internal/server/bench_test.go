package server_test

import (
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"potwright/internal/server"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
)

// BenchmarkStartToFirstPage is everything from nothing to the first page: food
// table, rules, a new database, templates, one request; the bar is 300 ms.
func BenchmarkStartToFirstPage(b *testing.B) {
	for b.Loop() {
		k := testkit.FreshKitchen(b)
		store, err := sqlite.Open(filepath.Join(b.TempDir(), "potwright.db"), time.Now)
		require.NoError(b, err)
		k.Store = store
		handler, err := server.New(server.Config{Kitchen: k, Store: store, Foods: k.Table, Needs: k.Needs, Log: slog.New(slog.DiscardHandler)})
		require.NoError(b, err)
		ts := httptest.NewServer(handler)
		resp, err := http.Get(ts.URL + "/?list")
		require.NoError(b, err)
		_, err = io.Copy(io.Discard, resp.Body)
		require.NoError(b, err)
		require.NoError(b, resp.Body.Close())
		require.Equal(b, http.StatusOK, resp.StatusCode)
		ts.Close()
		require.NoError(b, store.Close())
	}
}
