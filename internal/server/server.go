// Package server assembles the pages, and whatever other door is given, into
// one HTTP server for this computer.
package server

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"log/slog"
	"math"
	"net"
	"net/http"
	"strconv"
	"strings"
	"syscall"
	"time"

	"github.com/gin-gonic/gin"
	"golang.org/x/net/netutil"

	"potwright/internal/access"
	"potwright/internal/api"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/pages"
)

// Config is what the server stands on. All but Front, Access, Log, Now, Demo and Doors
// are required.
type Config struct {
	Kitchen *kitchen.Kitchen
	Store   kitchen.Store
	Foods   pages.Foods
	Needs   *household.Needs
	// Rulebook is every rule in force and where it stands.
	Rulebook *kitchen.Rulebook
	// Front is how the server is reached; by default from this computer alone.
	Front Front
	// Access keeps accounts, sessions, tokens and links; nil lets everyone in.
	Access access.Store
	// Log gets a line for each request; nil for the default log.
	Log *slog.Logger
	// Now is the clock whose day is the household's; nil for this computer's.
	Now func() time.Time
	// Demo puts an invented household into the store; nil where none is offered.
	Demo func(context.Context) error
	// Doors are registered after the pages and the JSON door.
	Doors []func(gin.IRouter)
}

// New assembles the handler: request log, security headers, a check of the
// host name, protection against posts from other sites, then the pages.
func New(cfg Config) (http.Handler, error) {
	if cfg.Log == nil {
		cfg.Log = slog.Default()
	}
	cfg.Log = slog.New(discreet{cfg.Log.Handler()})
	d := &door{cookie: pages.CookieName(cfg.Front.Secure()), permissions: permissions()}
	if cfg.Access != nil {
		now := cfg.Now
		if now == nil {
			now = time.Now
		}
		d.gate = access.NewGate(cfg.Access, now)
	}
	site, err := pages.New(pages.Config{Gate: d.gate, Secure: cfg.Front.Secure(), AddressOf: cfg.Front.cameFrom, Kitchen: cfg.Kitchen, Store: cfg.Store, Foods: cfg.Foods, Needs: cfg.Needs, Rulebook: cfg.Rulebook, Formats: Formats{}, Log: cfg.Log, Now: cfg.Now, Demo: cfg.Demo})
	if err != nil {
		return nil, fmt.Errorf("assemble pages: %w", err)
	}
	d.site = site
	gin.SetMode(gin.ReleaseMode)
	r := gin.New()
	r.HandleMethodNotAllowed = true
	r.RedirectTrailingSlash = true
	if err := r.SetTrustedProxies(nil); err != nil {
		return nil, fmt.Errorf("trust no proxy: %w", err)
	}
	r.Use(named, recovered(cfg.Log, site), d.admit, site.Remembered)
	r.NoRoute(func(c *gin.Context) { site.Fail(c, http.StatusNotFound) })
	r.NoMethod(func(c *gin.Context) { site.Fail(c, http.StatusMethodNotAllowed) })
	site.Register(r)
	d.json, err = api.New(api.Config{Kitchen: cfg.Kitchen, Store: cfg.Store, Needs: cfg.Needs, Rulebook: cfg.Rulebook, Formats: Formats{},
		Gate: d.gate, Demo: cfg.Demo, Allow: d.allow, Now: cfg.Now, Log: cfg.Log})
	if err != nil {
		return nil, fmt.Errorf("assemble the JSON door: %w", err)
	}
	d.json.Register(r)
	for _, door := range cfg.Doors {
		door(r)
	}
	return logged(cfg.Log, withHeaders(cfg.Front.Secure(), ownHostOnly(cfg.Front, site, sameSiteOnly(site, r)))), nil
}

// patience is how long a client may take to send its header, to send all, and to read
// the answer.
type patience struct{ header, read, write time.Duration }

// usual is the server's patience. A page takes well under a second; an adaptation stops
// at the kitchen's own budget, a second or so of work for each question.
func usual() patience { return patience{5 * time.Second, 30 * time.Second, 60 * time.Second} }

// Other limits of the server.
const (
	idleTimeout     = 2 * time.Minute
	shutdownTimeout = 10 * time.Second
	maxHeaderBytes  = 64 << 10
	// maxConnections is many times what a household opens; further ones wait until
	// one is closed, as a silent client's is.
	maxConnections = 256
)

// ErrNotLoopback is given for an address that others could reach while nobody has a
// passphrase.
var ErrNotLoopback = errors.New("others could read and change everything: set a passphrase first with potwright passphrase set --data FILE, or give a loopback address such as 127.0.0.1:8080 or [::1]:8080")

// Listen opens the address, which must be on the loopback interface unless a
// passphrase is asked for; port 0 takes a free one.
func Listen(ctx context.Context, addr string, guarded bool) (net.Listener, error) {
	if err := checkLoopback(addr); err != nil && (!guarded || !errors.Is(err, ErrNotLoopback)) {
		return nil, err
	}
	var lc net.ListenConfig
	ln, err := lc.Listen(ctx, "tcp", addr)
	if errors.Is(err, syscall.EADDRINUSE) {
		return nil, fmt.Errorf("listen on %s: another program listens there already, perhaps Potwright itself: end it, or give another address such as 127.0.0.1:0: %w", addr, err)
	}
	if err != nil {
		return nil, fmt.Errorf("listen on %s: %w", addr, err)
	}
	return ln, nil
}

func checkLoopback(addr string) error {
	host, port, err := net.SplitHostPort(addr)
	if err != nil {
		return fmt.Errorf("address %q is not host:port; expected one such as 127.0.0.1:8097", addr)
	}
	if _, err := strconv.ParseUint(port, 10, 16); err != nil {
		return fmt.Errorf("address %q has no port that is one; expected a number from 0 to %d behind the colon, such as 127.0.0.1:8097", addr, math.MaxUint16)
	}
	if host == "localhost" {
		return nil
	}
	if ip := net.ParseIP(host); ip == nil || !ip.IsLoopback() {
		return fmt.Errorf("address %q: %w", addr, ErrNotLoopback)
	}
	return nil
}

// Run listens and serves until ctx ends, then lets requests in hand finish. guarded
// is set where a passphrase is asked for.
func Run(ctx context.Context, front Front, guarded bool, handler http.Handler, log *slog.Logger) error {
	if !guarded && (front.Forwarded || len(front.Hosts) > 0) {
		return ErrNotLoopback
	}
	ln, err := Listen(ctx, front.Address, guarded)
	if err != nil {
		return err
	}
	if front.Cert != "" {
		pair, err := tls.LoadX509KeyPair(front.Cert, front.Key)
		if err != nil {
			return errors.Join(fmt.Errorf("the certificate %s and its key %s can't be used together: %s; expected two PEM files that belong together, certificate and private key", front.Cert, front.Key, strings.TrimPrefix(err.Error(), "tls: ")), ln.Close())
		}
		ln = tls.NewListener(ln, &tls.Config{Certificates: []tls.Certificate{pair}, MinVersion: tls.VersionTLS12, NextProtos: []string{"http/1.1"}})
	}
	if front.Ready != nil {
		front.Ready(ln.Addr())
	}
	return Serve(ctx, ln, handler, log)
}

// Serve is Run on an open listener, which it closes.
func Serve(ctx context.Context, ln net.Listener, handler http.Handler, log *slog.Logger) error {
	return serve(ctx, ln, handler, log, usual())
}

func serve(ctx context.Context, ln net.Listener, handler http.Handler, log *slog.Logger, p patience) error {
	if log == nil {
		log = slog.Default()
	}
	srv := &http.Server{Handler: handler, ReadHeaderTimeout: p.header, ReadTimeout: p.read, WriteTimeout: p.write,
		IdleTimeout: idleTimeout, MaxHeaderBytes: maxHeaderBytes, ErrorLog: slog.NewLogLogger(log.Handler(), slog.LevelWarn)}
	served := make(chan error, 1)
	go func() { served <- srv.Serve(netutil.LimitListener(ln, maxConnections)) }()
	log.InfoContext(ctx, "serving", "address", ln.Addr().String())
	select {
	case err := <-served:
		return fmt.Errorf("serve: %w", err)
	case <-ctx.Done():
	}
	// The caller's context is over; finishing gets a time of its own.
	finish, cancel := context.WithTimeout(context.WithoutCancel(ctx), shutdownTimeout)
	defer cancel()
	if err := srv.Shutdown(finish); err != nil {
		return fmt.Errorf("shut down: %w", err)
	}
	return nil
}
