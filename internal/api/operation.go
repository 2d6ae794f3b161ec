package api

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"net/http"
	"strconv"
	"strings"

	"github.com/gin-gonic/gin"

	"potwright/internal/diagnostic"
	"potwright/internal/household"
	"potwright/internal/kitchen"
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
	// takes and gives are the kinds of a body or an answer that is no JSON: a file, ""
	// for none.
	takes, gives string
	status       int
	// changes is set where something is saved; private where it is only looked at, and
	// not by everyone of the household; open where nobody needs a token.
	changes, private, open bool
	// state is the operation that answers with what this one replaces or drops: where
	// If-Match is sent, it must still be that. nil where there is none.
	state func(*request) (any, error)
	do    func(*request) (any, error)
}

// parameter is one of the query.
type parameter struct {
	name, about string
	schema      schema
	required    bool
	// many is set where it may be given several times.
	many bool
}

// file is an answer that is no JSON.
type file struct {
	name    string
	content []byte
}

// request is one operation asked for.
type request struct {
	api     *API
	kitchen *kitchen.Kitchen
	store   kitchen.Store
	gin     *gin.Context
	ctx     context.Context
	// household is the one of the path, if it names one.
	household household.Household
	op        operation
	// body is what was sent: a pointer to the operation's type of body, the bytes of a
	// picture, or the *spool of an archive.
	body any
}

// run checks who asks and what was sent, then does the operation.
func (r *request) run(op operation) (any, error) {
	r.op = op
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
	if !op.open {
		if err := r.api.cfg.Allow(r.gin.Request, householdID, op.changes || op.private); err != nil {
			return nil, err
		}
	}
	if householdID != 0 {
		find := r.kitchen.Household
		if op.changes {
			find = r.store.FindHousehold // may be changed
		}
		h, err := find(r.ctx, householdID)
		if err != nil {
			return nil, err
		}
		r.household = h
	}
	if op.takes != "" {
		select {
		case r.api.filing <- struct{}{}:
			defer func() { <-r.api.filing }()
		case <-r.ctx.Done():
			return nil, r.ctx.Err()
		}
	}
	if err := r.take(op); err != nil {
		return nil, err
	}
	if s, ok := r.body.(*spool); ok {
		defer s.drop()
	}
	if op.state == nil {
		return op.do(r)
	}
	r.api.saving.Lock()
	defer r.api.saving.Unlock()
	if err := r.unchanged(op); err != nil {
		return nil, err
	}
	return op.do(r)
}

// unchanged reports an error where If-Match is sent and what the operation would
// replace or drop is no longer what the sender read.
func (r *request) unchanged(op operation) error {
	sent := r.gin.GetHeader("If-Match")
	if sent == "" {
		return nil
	}
	now, err := op.state(r)
	if err != nil {
		return err
	}
	text, err := json.Marshal(now)
	if err != nil {
		return fmt.Errorf("write what is there now: %w", err)
	}
	tag := tagOf(text)
	for _, one := range strings.Split(sent, ",") {
		if one = strings.TrimSpace(one); one == tag || one == "*" {
			return nil
		}
	}
	return problem{Status: http.StatusPreconditionFailed, Detail: "it was changed since you read it, and nothing was saved; read it again, put your change into that, and send it with the new ETag"}
}

// over is what a save may take the place of: where If-Match is sent, what was read
// for this operation; else whatever is there. If-Match is looked at once more, behind
// that reading: what a page saved before it is found here, what it saves after it by the
// store.
func (r *request) over(was any) (kitchen.Mark, error) {
	if r.gin.GetHeader("If-Match") == "" {
		return "", nil
	}
	return kitchen.MarkOf(was), r.unchanged(r.op)
}

// take reads what was sent.
func (r *request) take(op operation) error {
	var err error
	switch {
	case op.takes == archiveKind:
		r.body, err = readArchive(r.gin)
	case op.takes != "":
		r.body, err = readFile(r.gin, op.takes)
	case op.body != nil:
		r.body, err = read(r.gin, op.body)
	}
	return err
}

// maxFile bounds a file that is held in memory, bytes; filesAtOnce how many are taken in
// at once.
const (
	maxFile     = 64 << 20
	filesAtOnce = 2
)

// ofKind refuses a body that says it is of another kind.
func ofKind(c *gin.Context, kind string) error {
	if t := c.ContentType(); t != kind && !strings.HasPrefix(t, strings.TrimSuffix(kind, "*")) {
		return problem{Status: http.StatusUnsupportedMediaType, Detail: fmt.Sprintf("the body is %q; expected %s", t, kind)}
	}
	return nil
}

func readFile(c *gin.Context, kind string) ([]byte, error) {
	if err := ofKind(c, kind); err != nil {
		return nil, err
	}
	content, err := io.ReadAll(http.MaxBytesReader(c.Writer, c.Request.Body, maxFile))
	return content, brokenOff("file", err)
}

// brokenOff says why what was sent was not read to its end.
func brokenOff(what string, err error) error {
	var tooLarge *http.MaxBytesError
	switch {
	case errors.As(err, &tooLarge):
		return problem{Status: http.StatusRequestEntityTooLarge, Detail: fmt.Sprintf("the %s is over %d bytes; expected less", what, tooLarge.Limit)}
	case err != nil:
		return badRequest("the %s broke off before its end; send it again", what)
	}
	return nil
}

// read decodes the body into a new value of the type of like.
func read(c *gin.Context, like any) (any, error) {
	if t := c.ContentType(); t != "application/json" {
		return nil, problem{Status: http.StatusUnsupportedMediaType, Detail: fmt.Sprintf("the body is %q; expected application/json", t)}
	}
	text, err := io.ReadAll(http.MaxBytesReader(c.Writer, c.Request.Body, maxBody))
	if err := brokenOff("body", err); err != nil {
		return nil, err
	}
	to := newOf(like)
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	if err := dec.Decode(to); err != nil {
		f := diagnostic.JSON(text, err)
		return nil, problem{Status: http.StatusBadRequest, Detail: "the body can't be read: " + f.Error(), Faults: []diagnostic.Fault{f}}
	}
	if _, more := dec.Token(); !errors.Is(more, io.EOF) {
		return nil, badRequest("the body can't be read: there is more behind the JSON value; expected one value alone")
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

// wholeNumber reads the number of something kept.
func wholeNumber(name, text string) (int64, error) {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n < 1 {
		return 0, badRequest("%s is %q; expected a whole number from 1", name, text)
	}
	return n, nil
}

// number reads a figure of the query.
func (r *request) number(name string, usual float64) (float64, error) {
	text := r.gin.Query(name)
	if text == "" {
		return usual, nil
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, badRequest("%s is %q; expected a number", name, text)
	}
	return x, nil
}

// Bounds of what a list gives at once.
const (
	usualListed = 100
	mostListed  = 1000
)

// stretch says which part of a list an answer is.
type stretch struct {
	// All is how long the list is.
	All int `json:"all"`
	// Next is the address of the part that follows; "" at the end.
	Next string `json:"next,omitempty"`
}

// part reads which part of a list is asked for.
func (r *request) part() (from, most int, err error) {
	if from, err = r.count("from", 0, 0, 1<<30); err != nil {
		return 0, 0, err
	}
	most, err = r.count("most", usualListed, 1, mostListed)
	return from, most, err
}

func partParameters() []parameter {
	return []parameter{
		{name: "from", about: "pass over so many", schema: schema{"type": "integer", "minimum": 0, "default": 0}},
		{name: "most", about: "give at most so many", schema: schema{"type": "integer", "minimum": 1, "maximum": mostListed, "default": usualListed}},
	}
}

func (r *request) stretchOf(from, shown, all int) stretch {
	s := stretch{All: all}
	if from+shown < all && shown > 0 {
		q := r.gin.Request.URL.Query()
		q.Set("from", strconv.Itoa(from+shown))
		s.Next = r.gin.Request.URL.Path + "?" + q.Encode()
	}
	return s
}
