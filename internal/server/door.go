package server

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"sync/atomic"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/api"
	"potwright/internal/kitchen"
	"potwright/internal/pages"
)

// door yields the caller of each request, from a cookie or, for the JSON door, a
// token, and holds them against what their role may do.
type door struct {
	gate        *access.Gate // nil lets everyone in
	site        *pages.Site
	json        *api.API
	cookie      string
	permissions map[string]access.Action
	// guarded is set once there is an account: the last keeper is never removed.
	guarded atomic.Bool
}

// visit is what the door found out, for the JSON door to go by.
type visit struct {
	caller access.Caller
	known  bool
	action access.Action
}

type visitKey struct{}

// admit is the one place where requests are let in.
func (d *door) admit(c *gin.Context) {
	if open[c.Request.Method+" "+c.FullPath()] {
		return
	}
	guarded, err := d.isGuarded(c.Request.Context())
	if err != nil {
		d.broken(c, fmt.Errorf("see whether anyone has an account: %w", err))
		return
	}
	if !guarded {
		return
	}
	v := visit{action: d.actionOf(c.Request.Method, c.FullPath())}
	v.caller, err = d.callerOf(c)
	if err != nil && !errors.Is(err, access.ErrUnknown) {
		d.broken(c, fmt.Errorf("look up the caller: %w", err))
		return
	}
	v.known = err == nil
	ctx := context.WithValue(c.Request.Context(), visitKey{}, v)
	if v.known {
		ctx = access.WithCaller(ctx, v.caller)
	}
	c.Request = c.Request.WithContext(ctx)
	if isDoor(c.FullPath()) {
		return // allow looks at the visit
	}
	d.admitToPage(c, v)
}

func (d *door) admitToPage(c *gin.Context, v visit) {
	switch err := v.caller.May(v.action); {
	case !v.known:
		d.site.AskToSignIn(c)
	case c.FullPath() == "":
		// Nothing is there: the router says so.
	case strings.HasPrefix(c.FullPath(), "/h/:hid") && !d.own(c, v):
		d.site.Fail(c, http.StatusNotFound)
	case err != nil:
		d.site.Refuse(c, err)
	}
}

func (d *door) own(c *gin.Context, v visit) bool {
	id, err := strconv.ParseInt(c.Param("hid"), 10, 64)
	return err == nil && v.caller.Sees(id)
}

func isDoor(route string) bool { return strings.HasPrefix(route, api.Base+"/") }

// broken answers where the caller could not be looked up.
func (d *door) broken(c *gin.Context, err error) {
	if isDoor(c.FullPath()) {
		d.json.Fail(c, err)
		return
	}
	d.site.FailOf(c, err)
}

// isGuarded reports whether anyone has an account, so that the rest must sign in.
func (d *door) isGuarded(ctx context.Context) (bool, error) {
	if d.gate == nil || d.guarded.Load() {
		return d.gate != nil, nil
	}
	has, err := d.gate.Store.HasAccounts(ctx)
	if has {
		d.guarded.Store(true)
	}
	return has, err
}

// callerOf finds out who asks; access.ErrUnknown where nobody known does. A token
// opens the JSON door alone.
func (d *door) callerOf(c *gin.Context) (access.Caller, error) {
	if bearer, ok := strings.CutPrefix(c.GetHeader("Authorization"), "Bearer "); ok && isDoor(c.FullPath()) {
		return d.gate.ByToken(c.Request.Context(), strings.TrimSpace(bearer))
	}
	held, err := c.Cookie(d.cookie)
	if err != nil || held == "" {
		return access.Caller{}, access.ErrUnknown
	}
	return d.gate.BySession(c.Request.Context(), held)
}

// allow is api.Config.Allow: another household is not found, as if it were not
// there.
func (d *door) allow(r *http.Request, householdID int64, asks bool) error {
	v, guarded := r.Context().Value(visitKey{}).(visit)
	switch {
	case !guarded:
		return nil
	case !v.known:
		return api.ErrSignIn
	case householdID != 0 && !v.caller.Sees(householdID):
		return fmt.Errorf("household %d: %w", householdID, kitchen.ErrNotFound)
	}
	action := access.Read
	if asks {
		action = v.action
	}
	if err := v.caller.May(action); err != nil {
		return fmt.Errorf("%w: %w", api.ErrNotAllowed, err)
	}
	return nil
}
