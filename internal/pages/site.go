package pages

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net/http"
	"time"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recall"
	"potwright/internal/swap"
	"potwright/web"
)

// Config is what the pages stand on. all but Log are required.
type Config struct {
	Kitchen Kitchen
	Store   kitchen.Store
	Foods   Foods
	// Needs is the book of avoidances, texture features and published limits.
	Needs *household.Needs
	// Rulebook is every rule in force and where it stands; nil for the needs alone.
	Rulebook *kitchen.Rulebook
	// Formats are the files a recipe is read from and written as; nil takes every
	// text as it is and offers none.
	Formats Formats
	// Demo puts an invented household and its dishes into the store; nil where none
	// is offered.
	Demo func(context.Context) error
	// Gate lets people in and keeps share links; nil where nobody has an account.
	Gate *access.Gate
	// Secure is set where the way here is HTTPS.
	Secure bool
	// AddressOf is where a request comes from, to count tries at a login by; nil for
	// the connection's own.
	AddressOf func(*http.Request) string
	// Log gets the inside of errors that people only see a sentence of; nil for
	// the default log.
	Log *slog.Logger
	// Now is the clock on the kitchen's wall, whose day is the household's; nil for
	// this computer's.
	Now func() time.Time
}

// Site is the pages, ready to be put on a router.
type Site struct {
	kitchen Kitchen
	store   kitchen.Store
	foods   Foods
	needs   *household.Needs
	words   vocabulary
	formats Formats
	presets []preset
	rules   *rulePages
	demo    func(context.Context) error
	gate    *access.Gate
	secure  bool
	// addressOf is where a request comes from.
	addressOf func(*http.Request) string
	log       *slog.Logger
	now       func() time.Time
	views     views
	errors    map[int][]byte // rendered error pages by status
	static    fs.FS
	sweeps    *sweeps
	kept      recall.Memory[keptKey, []byte]
	working   working
	turns     turns
}

// New parses every template and renders the error pages, so that a fault in
// them stops the start and not a visitor.
func New(cfg Config) (*Site, error) {
	if cfg.Kitchen == nil || cfg.Store == nil || cfg.Foods == nil || cfg.Needs == nil {
		return nil, errors.New("pages need a kitchen, a store, a food table and a book of needs")
	}
	if cfg.Log == nil {
		cfg.Log = slog.Default()
	}
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	if cfg.AddressOf == nil {
		cfg.AddressOf = func(r *http.Request) string { return r.RemoteAddr }
	}
	if cfg.Rulebook == nil {
		cfg.Rulebook = &kitchen.Rulebook{Swaps: swap.NewBook(nil, nil, nil), Needs: cfg.Needs}
	}
	vs, err := parseViews(web.Templates)
	if err != nil {
		return nil, fmt.Errorf("parse page templates: %w", err)
	}
	pages, err := renderErrors(vs)
	if err != nil {
		return nil, fmt.Errorf("render error pages: %w", err)
	}
	static, err := fs.Sub(web.Static, "static")
	if err != nil {
		return nil, fmt.Errorf("open static files: %w", err)
	}
	s := &Site{kitchen: cfg.Kitchen, store: cfg.Store, foods: cfg.Foods, needs: cfg.Needs,
		words: newVocabulary(cfg.Needs), formats: cfg.Formats, presets: presetsOf(cfg.Needs),
		rules: newRulePages(cfg.Rulebook, cfg.Foods), demo: cfg.Demo, gate: cfg.Gate, secure: cfg.Secure, addressOf: cfg.AddressOf, log: cfg.Log, now: cfg.Now, views: vs, errors: pages, static: static, turns: newTurns(), sweeps: &sweeps{of: map[int64]*sweepRun{}}}
	s.kept.Limit, s.kept.Weigh = keptBytes, func(page []byte) int { return len(page) }
	return s, nil
}

// Register puts every page on the router.
func (s *Site) Register(r gin.IRouter) {
	r.GET("/healthz", func(c *gin.Context) { c.String(http.StatusOK, "ok\n") })
	r.GET("/static/:file", s.do(s.staticFile))
	r.GET("/", s.do(s.showHome))
	r.POST("/", s.do(s.createHousehold))
	r.POST("/demo", s.do(s.startDemo))

	s.registerLogin(r)
	r.GET("/about", s.do(s.showAbout))
	s.registerRules(r)
	h := r.Group("/h/:hid")
	s.registerRules(h)
	h.GET("", s.do(s.goToTable))
	s.registerAccount(h)
	s.registerPeople(h)
	s.registerPantry(h)
	h.GET("/table", s.do(s.showTable))
	h.GET("/recipes", s.do(s.listRecipes))
	h.GET("/recipes/new", s.do(s.showPaste))
	h.POST("/recipes/new", s.do(s.savePaste))
	one := h.Group("/recipes/:rid")
	s.registerRecipe(one)
	s.registerFiles(h, one)
	s.registerPhotos(h, one)
	s.registerCooking(h, one)
	s.registerDays(h, one)
	s.registerShare(one)
}

func (s *Site) registerPeople(h *gin.RouterGroup) {
	h.GET("/sweep", s.do(s.showSweep))
	h.POST("/sweep/stop", s.do(s.endSweep))
	h.GET("/people", s.do(s.showPeople))
	h.POST("/people", s.do(s.saveKitchenWays))
	h.GET("/people/new", s.do(s.showNewMember))
	h.POST("/people/new", s.do(s.saveMember))
	h.GET("/people/:mid", s.do(s.showMember))
	h.POST("/people/:mid", s.do(s.saveMember))
	h.GET("/people/:mid/remove", s.do(s.askRemoveMember))
	h.POST("/people/:mid/remove", s.do(s.removeMember))
}

func (s *Site) registerRecipe(r *gin.RouterGroup) {
	r.GET("", s.do(s.showRecipe))
	r.POST("/tags", s.do(s.saveTags))
	r.GET("/edit", s.do(s.showEdit))
	r.POST("/edit", s.do(s.saveEdit))
	r.GET("/scale", s.do(s.showScaled))
	r.GET("/lines/:line", s.do(s.showLine))
	r.POST("/lines/:line", s.do(s.saveLine))
	r.POST("/strays", s.do(s.dropStray))
	r.GET("/adapt", s.do(s.showAdapt))
	r.POST("/adapt", s.do(s.saveWishes))
	r.POST("/adapt/never", s.do(s.saveRefusal))
	r.POST("/adapt/save", s.do(s.saveAdapted))
	r.GET("/adapt/curve", s.do(s.showCurve))
	r.GET("/versions", s.do(s.listVersions))
	r.GET("/versions/:vid", s.do(s.showVersion))
	r.POST("/versions/:vid/again", s.do(s.takeUpAgain))
	r.GET("/versions/:vid/text", s.do(s.exportText))
	r.GET("/versions/:vid/figures", s.do(s.exportFigures))
	r.GET("/compare", s.do(s.compareVersions))
}
