package server_test

import (
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/server"
)

// Every route, found or not, let in or not, by each method.
func TestEveryRouteCarriesTheSecurityHeaders(t *testing.T) {
	s := newStreet(t)
	cfg := config(t, s.store)
	cfg.Access, cfg.Front = s.store, server.Front{Address: "127.0.0.1:0", Forwarded: true}
	handler, err := server.New(cfg)
	require.NoError(t, err)
	for _, route := range s.routes {
		for _, method := range []string{route.Method, http.MethodTrace} {
			r := httptest.NewRequest(method, "http://localhost"+path(route.Path, s.mine), nil)
			w := httptest.NewRecorder()
			handler.ServeHTTP(w, r)
			h := w.Result().Header
			assert.Contains(t, h.Get("Content-Security-Policy"), "default-src 'self'", "%s %s", method, route.Path)
			assert.NotContains(t, h.Get("Content-Security-Policy"), "unsafe")
			assert.Equal(t, "nosniff", h.Get("X-Content-Type-Options"), "%s %s", method, route.Path)
			assert.Equal(t, "max-age=31536000", h.Get("Strict-Transport-Security"), "%s %s", method, route.Path)
		}
	}
	assert.Empty(t, s.get("/login").Header.Get("Strict-Transport-Security"), "not where there is no HTTPS")
}

// What is typed never ends a heading of an answer and begins another.
func TestAnAnswerIsNotSplit(t *testing.T) {
	s := newStreet(t)
	for _, typed := range []string{"/h/1/week\r\nSet-Cookie: potwright=x", "/h/1/week%0d%0aSet-Cookie:%20potwright=x", "/\tx", "/\r/elsewhere.example", "/\n/elsewhere.example"} {
		r := s.post("/login", "name", "mel", "passphrase", passphrase, "next", typed)
		require.Equal(t, http.StatusSeeOther, r.StatusCode)
		assert.Len(t, r.Header.Values("Set-Cookie"), 1, "%q", typed)
		to, err := r.Location()
		require.NoError(t, err)
		assert.Equal(t, "127.0.0.1", to.Hostname(), "%q", typed)
	}
}
