package server

import (
	"log/slog"
	"net/http"
	"runtime/debug"

	"github.com/gin-gonic/gin"

	"potwright/internal/pages"
)

// policy lets a page load from here and nowhere else, and run no script but
// the file.
const policy = "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'"

// onlySecure keeps a browser that came by HTTPS once from coming without it for a year
// (RFC 6797). Other names of the same computer are left alone: they may not have it.
const onlySecure = "max-age=31536000"

// withHeaders sets the security headers on every answer.
func withHeaders(secure bool, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if secure {
			h.Set("Strict-Transport-Security", onlySecure)
		}
		next.ServeHTTP(w, r)
	})
}

// ownHostOnly answers to the server's own names only.
func ownHostOnly(front Front, site *pages.Site, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !front.Answers(r.Host) {
			sendPage(w, site, http.StatusMisdirectedRequest)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// sameSiteOnly refuses posts that another site's page sent.
func sameSiteOnly(site *pages.Site, next http.Handler) http.Handler {
	guard := http.NewCrossOriginProtection()
	guard.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		sendPage(w, site, http.StatusForbidden)
	}))
	return guard.Handler(next)
}

func sendPage(w http.ResponseWriter, site *pages.Site, status int) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(site.ErrorPage(status)) // nobody is left to tell
}

// recovered turns a panic into the error page and a log line.
func recovered(log *slog.Logger, site *pages.Site) gin.HandlerFunc {
	return func(c *gin.Context) {
		defer func() {
			p := recover()
			if p == nil {
				return
			}
			if p == http.ErrAbortHandler {
				panic(p) // net/http's own way to drop a connection
			}
			log.ErrorContext(c.Request.Context(), "page panicked", "path", c.FullPath(), "panic", p, "stack", string(debug.Stack()))
			if !c.Writer.Written() {
				site.Fail(c, http.StatusInternalServerError)
			}
			c.Abort()
		}()
		c.Next()
	}
}
