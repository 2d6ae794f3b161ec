// Package api is the JSON door: what the pages do, for other programs, below
// /api/v1. Operations describes it as an OpenAPI 3.1 document, made from the same
// table that the routes are made from.
//
// Amounts are those of package kitchen's documents: ranges low, mid, high in the unit
// of their key. Errors are problem details (RFC 9457).
package api

import (
	"errors"
	"log/slog"
	"net/http"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// Base is where every operation's path begins.
const Base = "/api/v1"

// Config is what the door stands on. All but Markup, Allow and Log are required.
type Config struct {
	Kitchen *kitchen.Kitchen
	Needs   *household.Needs
	// Rulebook is every rule in force and where it stands.
	Rulebook *kitchen.Rulebook
	// Markup finds the recipe in a page's code or in JSON-LD, and lists what is lost;
	// other text it gives as it is. nil for none.
	Markup func(text string) (words string, lost []string, err error)
	// Allow says whether the caller may read or change (change) the household's
	// things, householdID 0 for what belongs to none; nil lets everyone. An error
	// that wraps ErrSignIn or ErrNotAllowed tells which.
	Allow func(r *http.Request, householdID int64, change bool) error
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
}

// New checks what the door stands on.
func New(cfg Config) (*API, error) {
	if cfg.Kitchen == nil || cfg.Kitchen.Store == nil || cfg.Needs == nil || cfg.Rulebook == nil {
		return nil, errors.New("the JSON door needs a kitchen with a store, a book of needs and a rulebook")
	}
	if cfg.Log == nil {
		cfg.Log = slog.Default()
	}
	if cfg.Markup == nil {
		cfg.Markup = func(text string) (string, []string, error) { return text, nil, nil }
	}
	if cfg.Allow == nil {
		cfg.Allow = func(*http.Request, int64, bool) error { return nil }
	}
	return &API{cfg}, nil
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
		r := &request{api: a, gin: c, ctx: c.Request.Context()}
		answer, err := r.run(op)
		c.Header("Cache-Control", "no-store")
		if err != nil {
			a.fail(c, err)
			return
		}
		if op.answer == nil {
			c.Status(op.status)
			c.Writer.WriteHeaderNow()
			return
		}
		c.JSON(op.status, answer)
	}
}
