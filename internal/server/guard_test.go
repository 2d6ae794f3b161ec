package server_test

import (
	"context"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/server"
)

func TestEveryAnswerCarriesTheSecurityHeaders(t *testing.T) {
	h := newHouse(t)
	for _, path := range []string{"/", "/nothing", "/static/ledger.css", "/healthz"} {
		r := h.get(path)
		policy := r.Header.Get("Content-Security-Policy")
		assert.Contains(t, policy, "default-src 'self'", path)
		assert.Contains(t, policy, "frame-ancestors 'none'", path)
		assert.NotContains(t, policy, "unsafe", path)
		assert.Equal(t, "nosniff", r.Header.Get("X-Content-Type-Options"), path)
		assert.Equal(t, "no-referrer", r.Header.Get("Referrer-Policy"), path)
		assert.NotEmpty(t, r.Header.Get("X-Request-Id"), path)
	}
	assert.Equal(t, "no-store", h.get("/").Header.Get("Cache-Control"), "pages hold what people told about their health")
}

func TestAPostFromAnotherSiteDoesNothing(t *testing.T) {
	h := newHouse(t)
	for name, set := range map[string]func(http.Header){
		"by its fetch metadata": func(hd http.Header) { hd.Set("Sec-Fetch-Site", "cross-site") },
		"by its origin":         func(hd http.Header) { hd.Set("Origin", "http://elsewhere.example") },
	} {
		t.Run(name, func(t *testing.T) {
			req, err := http.NewRequestWithContext(t.Context(), http.MethodPost, h.url+"/", strings.NewReader("name=Elsewhere"))
			require.NoError(t, err)
			req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			set(req.Header)
			r := h.send(req)
			assert.Equal(t, http.StatusForbidden, r.StatusCode)
			assert.Contains(t, r.body, "nothing was done")
			assert.NotEmpty(t, r.Header.Get("Content-Security-Policy"))
		})
	}
	list, err := h.store.ListHouseholds(t.Context())
	require.NoError(t, err)
	assert.Empty(t, list)
}

func TestANameOfAnotherComputerIsNotAnswered(t *testing.T) {
	h := newHouse(t)
	for host, want := range map[string]int{"evil.example": 421, "192.168.1.7:8080": 421, "localhost.evil.example": 421,
		"localhost": 200, "LOCALHOST:99": 200, "127.0.0.1:8080": 200, "[::1]:8080": 200} {
		req, err := http.NewRequestWithContext(t.Context(), http.MethodGet, h.url+"/?list", nil)
		require.NoError(t, err)
		req.Host = host
		assert.Equal(t, want, h.send(req).StatusCode, host)
	}
}

func TestAPanicBecomesTheErrorPage(t *testing.T) {
	h := newHouse(t, func(r gin.IRouter) {
		r.GET("/trap", func(*gin.Context) { panic("a fault of ours") })
	})
	r := h.get("/trap")
	assert.Equal(t, http.StatusInternalServerError, r.StatusCode)
	assert.Contains(t, r.body, "What was saved before is safe")
	assert.NotContains(t, r.body, "a fault of ours")
	assert.Equal(t, http.StatusOK, h.get("/healthz").StatusCode)
}

func TestOnlyThisComputerMayConnect(t *testing.T) {
	for _, addr := range []string{"0.0.0.0:0", ":0", "192.168.1.2:80", "[::]:0", "example.org:80"} {
		_, err := server.Listen(t.Context(), addr, false)
		assert.ErrorIs(t, err, server.ErrNotLoopback, addr)
	}
	_, err := server.Listen(t.Context(), "8080", false)
	assert.ErrorContains(t, err, "host:port")
	ln, err := server.Listen(t.Context(), "127.0.0.1:0", false)
	require.NoError(t, err)
	require.NoError(t, ln.Close())
}

func TestTheServerFinishesWhatItHasInHand(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	ln, err := server.Listen(ctx, "127.0.0.1:0", false)
	require.NoError(t, err)
	entered := make(chan struct{})
	slow := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		close(entered)
		time.Sleep(100 * time.Millisecond)
		_, _ = w.Write([]byte("done"))
	})
	over := make(chan error, 1)
	go func() { over <- server.Serve(ctx, ln, slow, slog.New(slog.DiscardHandler)) }()
	got := make(chan reply, 1)
	go func() {
		req, _ := http.NewRequestWithContext(context.WithoutCancel(ctx), http.MethodGet, "http://"+ln.Addr().String(), nil)
		h := &house{t: t}
		got <- h.send(req)
	}()
	<-entered
	stop()
	assert.Equal(t, "done", (<-got).body)
	require.NoError(t, <-over)
	_, err = net.DialTimeout("tcp", ln.Addr().String(), time.Second)
	assert.Error(t, err, "nobody listens any more")
}

func TestSilentClientsCannotHoldTheServer(t *testing.T) {
	const (
		silent   = 256 // as many as are let in at once
		patience = 500 * time.Millisecond
	)
	ctx, stop := context.WithCancel(t.Context())
	ln, err := server.Listen(ctx, "127.0.0.1:0", false)
	require.NoError(t, err)
	answer := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { _, _ = w.Write([]byte("done")) })
	over := make(chan error, 1)
	go func() { over <- server.ServeWithin(ctx, ln, answer, slog.New(slog.DiscardHandler), patience) }()
	start := time.Now()
	for range silent {
		conn, err := net.Dial("tcp", ln.Addr().String())
		require.NoError(t, err)
		defer conn.Close()
	}
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+ln.Addr().String(), nil)
	require.NoError(t, err)
	h := &house{t: t}
	assert.Equal(t, "done", h.send(req).body)
	assert.Greater(t, time.Since(start), patience*9/10, "it waits for a place")
	assert.Less(t, time.Since(start), 40*patience, "the silent ones are put out")
	stop()
	require.NoError(t, <-over)
}
