package api

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/household"
)

// maxBody bounds what is sent, bytes.
const maxBody = 1 << 20

// operation is one thing a caller may ask.
type operation struct {
	method string
	// path below Base, with gin's :names; a name that ends in _id is a number.
	path    string
	id      string // operationId
	summary string
	query   []parameter
	// body and answer are values of the types sent and sent back; nil for none.
	body, answer any
	status       int
	// changes is set where something is saved.
	changes bool
	do      func(*request) (any, error)
}

// parameter is one of the query.
type parameter struct {
	name, about string
	schema      schema
	required    bool
}

// request is one operation asked for.
type request struct {
	api *API
	gin *gin.Context
	ctx context.Context
	// household is the one of the path, if it names one.
	household household.Household
	// body is what was sent, a pointer to the operation's type of body.
	body any
}

// run checks who asks and what was sent, then does the operation.
func (r *request) run(op operation) (any, error) {
	var householdID int64
	for _, p := range r.gin.Params {
		if !strings.HasSuffix(p.Key, "_id") {
			continue
		}
		n, err := strconv.ParseInt(p.Value, 10, 64)
		if err != nil || n < 1 {
			return nil, notFound("%q is no number of a %s", p.Value, strings.TrimSuffix(p.Key, "_id"))
		}
		if p.Key == "household_id" {
			householdID = n
		}
	}
	if err := r.api.cfg.Allow(r.gin.Request, householdID, op.changes); err != nil {
		return nil, err
	}
	if householdID != 0 {
		h, err := r.api.cfg.Kitchen.Store.FindHousehold(r.ctx, householdID)
		if err != nil {
			return nil, err
		}
		r.household = h
	}
	if op.body != nil {
		body, err := read(r.gin, op.body)
		if err != nil {
			return nil, err
		}
		r.body = body
	}
	return op.do(r)
}

// read decodes the body into a new value of the type of like.
func read(c *gin.Context, like any) (any, error) {
	if t := c.ContentType(); t != "application/json" {
		return nil, problem{Status: http.StatusUnsupportedMediaType, Detail: fmt.Sprintf("the body is %q; expected application/json", t)}
	}
	to := newOf(like)
	dec := json.NewDecoder(http.MaxBytesReader(c.Writer, c.Request.Body, maxBody))
	dec.DisallowUnknownFields()
	err := dec.Decode(to)
	if err == nil {
		if _, more := dec.Token(); !errors.Is(more, io.EOF) {
			err = errors.New("there is more behind the JSON value")
		}
	}
	var tooLarge *http.MaxBytesError
	switch {
	case errors.As(err, &tooLarge):
		return nil, problem{Status: http.StatusRequestEntityTooLarge, Detail: fmt.Sprintf("the body is over %d bytes; expected less", maxBody)}
	case err != nil:
		return nil, badRequest("the body can't be read: %s; expected one JSON value as the operation describes it", strings.TrimPrefix(err.Error(), "json: "))
	}
	return to, nil
}

// id is a number of the path.
func (r *request) id(name string) int64 {
	n, _ := strconv.ParseInt(r.gin.Param(name), 10, 64) // run has looked at it
	return n
}

// count reads a whole number of the query from least to most.
func (r *request) count(name string, usual, least, most int) (int, error) {
	text := r.gin.Query(name)
	if text == "" {
		return usual, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < least || n > most {
		return 0, badRequest("%s is %q; expected a whole number from %d to %d", name, text, least, most)
	}
	return n, nil
}
