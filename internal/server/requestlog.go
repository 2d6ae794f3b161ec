package server

import (
	"crypto/rand"
	"log/slog"
	"net/http"
	"time"
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

// logged writes a line for each request under an id that the answer carries.
// The query is left out: it may tell who eats.
func logged(log *slog.Logger, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		id, start := rand.Text()[:10], time.Now()
		w.Header().Set("X-Request-Id", id)
		rec := &recorder{ResponseWriter: w}
		next.ServeHTTP(rec, r)
		log.InfoContext(r.Context(), "request", "request", id, "method", r.Method, "path", r.URL.Path,
			"status", rec.status, "bytes", rec.bytes, "took", time.Since(start).Round(time.Microsecond))
	})
}
