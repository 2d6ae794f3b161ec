// Package api is the JSON door: what the pages do, for other programs, below
// /api/v1. Document describes it as OpenAPI 3.1, made from the same table that the
// routes are made from; Client asks such a door of another program by that table.
//
// Amounts are those of package kitchen's documents: ranges low, mid, high in the unit
// of their key. Errors are problem details (RFC 9457).
package api

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// Base is where every operation's path begins.
const Base = "/api/v1"

// Formats are the files that recipes and households are read from and written as.
type Formats interface {
	// Markup finds the recipe in a page's code or in JSON-LD, and lists what is lost;
	// other text it gives as it is.
	Markup(text string) (words string, lost []string, err error)
	// JSONLD writes a recipe for other programs.
	JSONLD(w io.Writer, a kitchen.Analysis) (lost []string, err error)
	// Pack writes recipes as a file for another household, Unpack reads one.
	Pack(ctx context.Context, w io.Writer, h kitchen.Holdings) error
	Unpack(r io.ReaderAt, size int64) (h kitchen.Holdings, notTaken []string, err error)
	// PackAll writes whole households as an archive, UnpackAll reads one.
	PackAll(ctx context.Context, w io.Writer, all []kitchen.Holdings) error
	UnpackAll(r io.ReaderAt, size int64) (all []kitchen.Holdings, notTaken []string, err error)
}

// Config is what the door stands on. All but Gate, Demo, Allow, Now and Log are
// required.
type Config struct {
	Kitchen *kitchen.Kitchen
	Store   kitchen.Store
	Needs   *household.Needs
	// Rulebook is every rule in force and where it stands.
	Rulebook *kitchen.Rulebook
	Formats  Formats
	// Gate keeps accounts, tokens and share links; nil where nobody has an account.
	Gate *access.Gate
	// Demo puts an invented household into the store; nil where none is offered.
	Demo func(context.Context) error
	// Allow says whether the caller may read the household's things, or, where asks is
	// set, what the route asks a permission of its own for; householdID is 0 for what
	// belongs to none. nil lets everyone. An error that wraps ErrSignIn or
	// ErrNotAllowed tells which.
	Allow func(r *http.Request, householdID int64, asks bool) error
	// Now is the clock whose day is the household's; nil for this computer's.
	Now func() time.Time
	// Log gets the inside of errors that callers only get a sentence of; nil for
	// the default log.
	Log *slog.Logger
}

// Errors of Config.Allow.
var (
	ErrSignIn     = errors.New("no valid token was sent")
	ErrNotAllowed = errors.New("the token does not allow this")
)

// API is the door, ready to be put on a router.
type API struct {
	cfg Config
	// saving is held from the look at If-Match until what was sent is saved.
	saving sync.Mutex
	// filing has a place for each file that is taken in at once.
	filing chan struct{}
	// figures is FiguresOf, worked out once.
	figures func() (string, error)
}

// New checks what the door stands on.
func New(cfg Config) (*API, error) {
	if cfg.Kitchen == nil || cfg.Store == nil || cfg.Needs == nil || cfg.Rulebook == nil || cfg.Formats == nil {
		return nil, errors.New("the JSON door needs a kitchen, a store, a book of needs, a rulebook and formats")
	}
	if cfg.Log == nil {
		cfg.Log = slog.Default()
	}
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	if cfg.Allow == nil {
		cfg.Allow = func(*http.Request, int64, bool) error { return nil }
	}
	return &API{cfg: cfg, filing: make(chan struct{}, filesAtOnce), figures: sync.OnceValues(func() (string, error) { return FiguresOf(cfg.Kitchen, cfg.Rulebook) })}, nil
}

// Register puts every operation on the router.
func (a *API) Register(r gin.IRouter) {
	for _, op := range operations() {
		r.Handle(op.method, Base+op.path, a.handler(op))
	}
}

// handler answers one operation.
func (a *API) handler(op operation) gin.HandlerFunc {
	return func(c *gin.Context) {
		r := &request{api: a, kitchen: a.cfg.Kitchen, store: a.cfg.Store, gin: c, ctx: c.Request.Context()}
		answer, err := r.run(op)
		c.Header("Cache-Control", "no-store")
		if err != nil {
			a.Fail(c, err)
			return
		}
		if f, ok := answer.(file); ok {
			c.Header("Content-Disposition", fmt.Sprintf("attachment; filename=%q", f.name))
			c.Data(op.status, op.gives, f.content)
			return
		}
		if l, ok := answer.(largeFile); ok {
			a.send(c, op, l)
			return
		}
		if op.answer == nil {
			c.Status(op.status)
			c.Writer.WriteHeaderNow()
			return
		}
		text, err := json.Marshal(answer)
		if err != nil {
			a.Fail(c, fmt.Errorf("write the answer: %w", err))
			return
		}
		if op.method == http.MethodGet {
			c.Header("ETag", tagOf(text))
		}
		c.Data(op.status, "application/json; charset=utf-8", text)
	}
}

// tagOf tells an answer from any other (RFC 9110, 8.8.3).
func tagOf(text []byte) string {
	sum := sha256.Sum256(text)
	return `"` + base64.RawURLEncoding.EncodeToString(sum[:12]) + `"`
}
