package server

import (
	"context"
	"crypto/rand"
	"log/slog"
	"net/http"
	"strconv"
	"strings"
	"time"

	"github.com/gin-gonic/gin"
)

// recorder keeps the status of an answer for the log.
type recorder struct {
	http.ResponseWriter
	status int
	bytes  int
}

// WriteHeader notes the status.
func (r *recorder) WriteHeader(status int) {
	if r.status == 0 {
		r.status = status
	}
	r.ResponseWriter.WriteHeader(status)
}

// Write counts what is sent.
func (r *recorder) Write(b []byte) (int, error) {
	if r.status == 0 {
		r.status = http.StatusOK
	}
	n, err := r.ResponseWriter.Write(b)
	r.bytes += n
	return n, err
}

// Unwrap is for http.ResponseController.
func (r *recorder) Unwrap() http.ResponseWriter { return r.ResponseWriter }

// Flush passes on what is written so far.
func (r *recorder) Flush() { _ = http.NewResponseController(r.ResponseWriter).Flush() }

// loggedPath is where named leaves the path for the log.
type loggedPath struct{}

// named tells the log which page was asked for. Numbers stand for themselves; words
// in an address (a food, a phrase, a share link's secret) stay out of the log, and so
// does an address that leads nowhere.
func named(c *gin.Context) {
	to, ok := c.Request.Context().Value(loggedPath{}).(*string)
	if !ok || c.FullPath() == "" {
		return
	}
	parts := strings.Split(c.FullPath(), "/")
	for i, part := range parts {
		if _, err := strconv.ParseUint(c.Param(strings.TrimPrefix(part, ":")), 10, 64); err == nil && strings.HasPrefix(part, ":") {
			parts[i] = c.Param(part[1:])
		}
	}
	*to = strings.Join(parts, "/")
}

// logged writes a line for each request under an id that the answer carries.
// The query is left out: it may tell who eats.
func logged(log *slog.Logger, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		id, start := rand.Text()[:10], time.Now()
		w.Header().Set("X-Request-Id", id)
		rec := &recorder{ResponseWriter: w}
		path := "no page"
		next.ServeHTTP(rec, r.WithContext(context.WithValue(r.Context(), loggedPath{}, &path)))
		log.InfoContext(r.Context(), "request", "request", id, "method", r.Method, "path", path,
			"status", rec.status, "bytes", rec.bytes, "took", time.Since(start).Round(time.Microsecond))
	})
}
