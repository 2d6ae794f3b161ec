package server

import (
	"context"
	"log/slog"
	"net"
	"net/http"
	"time"
)

// ServeWithin is Serve with one patience for header, body and answer.
func ServeWithin(ctx context.Context, ln net.Listener, handler http.Handler, log *slog.Logger, all time.Duration) error {
	return serve(ctx, ln, handler, log, patience{all, all, all})
}
