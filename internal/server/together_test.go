package server_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/server"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit/datafile"
)

// TestManyWhoAskForAPageAtOnceWaitForOneAnswer asks for a page that counts how often it
// is worked out.
func TestManyWhoAskForAPageAtOnceWaitForOneAnswer(t *testing.T) {
	store, err := sqlite.Open(datafile.Empty(t), time.Now)
	require.NoError(t, err)
	defer store.Close()
	var worked atomic.Int32
	begun := make(chan struct{}, 100)
	cfg := config(t, store)
	cfg.Doors = append(cfg.Doors, func(r gin.IRouter) {
		r.GET("/h/:hid/counted", func(c *gin.Context) {
			worked.Add(1)
			begun <- struct{}{}
			select {
			case <-time.After(50 * time.Millisecond):
			case <-c.Request.Context().Done():
				c.Status(http.StatusServiceUnavailable)
				return
			}
			if c.Query("none") == "" {
				c.Set("potwright/shown", []byte("the page"))
			}
			c.String(http.StatusOK, "the page")
		})
	})
	handler, err := server.New(cfg)
	require.NoError(t, err)
	ask := func(ctx context.Context, at string) *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, httptest.NewRequestWithContext(ctx, http.MethodGet, "http://localhost/h/1/counted"+at, nil))
		return w
	}
	all := func(n int, at string) {
		t.Helper()
		var asking sync.WaitGroup
		for range n {
			asking.Go(func() { assert.Equal(t, "the page", ask(t.Context(), at).Body.String()) })
		}
		asking.Wait()
	}
	all(50, "")
	assert.EqualValues(t, 1, worked.Swap(0))
	all(5, "?none=1")
	assert.EqualValues(t, 5, worked.Swap(0), "what is not kept is for each of them to work out")

	for range len(begun) {
		<-begun
	}
	ctx, leave := context.WithCancel(t.Context())
	first := make(chan struct{})
	go func() { ask(ctx, "?first"); close(first) }()
	<-begun
	go func() { time.Sleep(10 * time.Millisecond); leave() }()
	all(20, "?first")
	<-first
	assert.EqualValues(t, 2, worked.Load(), "one of the others, where the first has left")
}
