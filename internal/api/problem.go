package api

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
)

// problem is what went wrong, as problem details (RFC 9457).
type problem struct {
	Type   string `json:"type"`
	Title  string `json:"title"`
	Status int    `json:"status"`
	// Detail says what to do.
	Detail string `json:"detail"`
	// Faults are the places at fault, where the input has places.
	Faults []diagnostic.Fault `json:"faults,omitempty"`
}

// Error is the detail.
func (p problem) Error() string { return p.Detail }

func badRequest(format string, args ...any) error {
	return problem{Status: http.StatusBadRequest, Detail: fmt.Sprintf(format, args...)}
}

// unusable is what can't be used of a field of what was sent, "" for all of it: a
// sentence, what was expected behind a semicolon.
func unusable(field, format string, args ...any) error {
	p := problem{Status: http.StatusUnprocessableEntity, Detail: fmt.Sprintf(format, args...)}
	if field == "" {
		return p
	}
	wrong, expected, _ := strings.Cut(p.Detail, "; expected ")
	f := diagnostic.Fault{Field: field, Problem: wrong, Expected: expected}
	p.Detail, p.Faults = f.Error(), []diagnostic.Fault{f}
	return p
}

func notFound(format string, args ...any) error {
	return problem{Status: http.StatusNotFound, Detail: fmt.Sprintf(format, args...)}
}

// Fail answers with what went wrong and ends the request. What only the server's keeper
// can mend is logged, and the caller gets a sentence.
func (a *API) Fail(c *gin.Context, err error) {
	defer c.Abort()
	p := problemOf(err)
	if p.Status >= http.StatusInternalServerError && c.Request.Context().Err() == nil {
		a.cfg.Log.ErrorContext(c.Request.Context(), "operation failed", "path", c.FullPath(), "error", err)
	}
	if p.Status == http.StatusServiceUnavailable {
		c.Header("Retry-After", fmt.Sprint(kitchen.AskAgain.Seconds()))
	}
	p.Type, p.Title = "about:blank", http.StatusText(p.Status)
	if p.Status == http.StatusUnauthorized {
		c.Header("WWW-Authenticate", `Bearer realm="potwright"`)
	}
	c.Header("Content-Type", "application/problem+json")
	c.JSON(p.Status, p)
}

func problemOf(err error) problem {
	var p problem
	var faults diagnostic.Faults
	var fault diagnostic.Fault
	if p, ok := unreachable(err); ok {
		return p
	}
	switch {
	case errors.As(err, &p):
		return p
	case errors.As(err, &faults):
		return problem{Status: http.StatusUnprocessableEntity, Detail: faults.Error(), Faults: faults}
	case errors.As(err, &fault):
		return problem{Status: http.StatusUnprocessableEntity, Detail: fault.Error(), Faults: []diagnostic.Fault{fault}}
	case errors.Is(err, kitchen.ErrNotFound), errors.Is(err, access.ErrUnknown):
		return problem{Status: http.StatusNotFound, Detail: err.Error()}
	case errors.Is(err, kitchen.ErrChanged):
		return problem{Status: http.StatusPreconditionFailed, Detail: err.Error() + "; get it again, and send the change with its ETag as If-Match"}
	case errors.Is(err, kitchen.ErrTooLong):
		return problem{Status: http.StatusUnprocessableEntity, Detail: kitchen.ErrTooLong.Error()}
	case errors.Is(err, kitchen.ErrTaken):
		return problem{Status: http.StatusConflict, Detail: err.Error() + "; expected another name"}
	case errors.Is(err, access.ErrTaken), errors.Is(err, access.ErrLastKeeper):
		return problem{Status: http.StatusConflict, Detail: err.Error()}
	case errors.Is(err, ErrSignIn):
		return problem{Status: http.StatusUnauthorized, Detail: err.Error() + "; make one on the account page and send it as Authorization: Bearer"}
	case errors.Is(err, ErrNotAllowed):
		return problem{Status: http.StatusForbidden, Detail: err.Error() + "; a keeper of the household can make one that does"}
	case errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return problem{Status: http.StatusServiceUnavailable, Detail: "the answer took longer than it may; ask again"}
	}
	return problem{Status: http.StatusInternalServerError, Detail: "something went wrong here; what was sent is not at fault, and the log says more"}
}

// unreachable is the problem where what is kept can't be read or written for now: the
// sentence alone, without the database's own words.
func unreachable(err error) (problem, bool) {
	for _, cause := range []error{kitchen.ErrNoRoom, kitchen.ErrReadOnly} {
		if errors.Is(err, cause) {
			return problem{Status: http.StatusInsufficientStorage, Detail: cause.Error()}, true
		}
	}
	for _, cause := range []error{kitchen.ErrBusy, kitchen.ErrAway} {
		if errors.Is(err, cause) {
			return problem{Status: http.StatusServiceUnavailable, Detail: cause.Error()}, true
		}
	}
	return problem{}, false
}
