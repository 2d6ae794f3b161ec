package pages

import (
	"context"
	"errors"
	"fmt"
	"net/http"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
	"potwright/internal/kitchen"
)

// handler answers a request or says why it cannot.
type handler func(c *gin.Context) error

// do turns a handler into gin's kind: the one place where errors become pages.
func (s *Site) do(h handler) gin.HandlerFunc {
	return func(c *gin.Context) {
		if err := h(c); err != nil {
			s.FailOf(c, err)
		}
	}
}

// FailOf sends the error page of an error; nobody gets one where whoever asked is gone.
func (s *Site) FailOf(c *gin.Context, err error) {
	if errors.Is(err, context.Canceled) {
		c.Abort()
		return
	}
	status := statusOf(err)
	if status >= http.StatusInternalServerError {
		s.log.ErrorContext(c.Request.Context(), "page failed", "method", c.Request.Method,
			"path", c.FullPath(), "request", c.Writer.Header().Get("X-Request-Id"), "error", err)
	}
	s.Fail(c, status)
}

// Fail sends the error page of a status.
func (s *Site) Fail(c *gin.Context, status int) {
	page, ok := s.errors[status]
	if !ok {
		status = http.StatusInternalServerError
		page = s.errors[status]
	}
	if status == http.StatusServiceUnavailable || status == http.StatusBadGateway {
		c.Header("Retry-After", fmt.Sprint(kitchen.AskAgain.Seconds()))
	}
	sendHTML(c, status, page)
	c.Abort()
}

// ErrorPage is the page of a status for answers given outside the router.
func (s *Site) ErrorPage(status int) []byte { return s.errors[status] }

var errBadForm = errors.New("the form could not be read")

func statusOf(err error) int {
	switch {
	case errors.Is(err, kitchen.ErrNotFound), errors.Is(err, access.ErrUnknown):
		return http.StatusNotFound
	case errors.Is(err, errBadForm):
		return http.StatusBadRequest
	case errors.Is(err, kitchen.ErrTooLong):
		return http.StatusRequestEntityTooLarge
	case errors.Is(err, kitchen.ErrNoRoom), errors.Is(err, kitchen.ErrReadOnly):
		return http.StatusInsufficientStorage
	case errors.Is(err, kitchen.ErrBusy):
		return http.StatusServiceUnavailable
	case errors.Is(err, kitchen.ErrAway):
		return http.StatusBadGateway
	default:
		return http.StatusInternalServerError
	}
}

// errorPage is what an error page says.
type errorPage struct {
	frame
	What, Next string
}

// errorWords are what happened and the next step, by status.
func errorWords() map[int][3]string {
	return map[int][3]string{
		http.StatusBadRequest: {"That form could not be read", "Something arrived here that is not a form of these pages.",
			"Go back, and send it again from the page itself."},
		http.StatusRequestEntityTooLarge: {"Too long to be kept", "Something in it is longer than can be kept. Nothing was saved.",
			"Go back, where what you typed still stands, shorten it, and send it again."},
		http.StatusForbidden: {"Not from this page", "The request came from another site, so nothing was done.",
			"Open the page here and send the form from it."},
		http.StatusNotFound: {"Nothing here", "There is no such page, or it belongs to another household.",
			"Start again from the list of households."},
		http.StatusMethodNotAllowed: {"Not done that way", "This address cannot be used like that.",
			"Start again from the list of households."},
		http.StatusMisdirectedRequest: {"Not under this name", "These pages do not answer to the name they were asked by.",
			"Open them as http://127.0.0.1 with the port that was printed at the start; or whoever keeps the server starts it with --host and this name."},
		http.StatusInsufficientStorage: {"There is no room to save", "The disk is full, or may not be written to. Nothing was saved, and nothing saved before is lost.",
			"Free some space or make the disk writable; then go back, where what you typed still stands, and send it again."},
		http.StatusServiceUnavailable: {"Another program holds the data", "It did not let go in time. Nothing was saved, and nothing saved before is lost.",
			"Wait a moment or end the other program; then go back, where what you typed still stands, and send it again."},
		http.StatusBadGateway: {"The database does not answer", "The server that keeps the data can't be reached. What was saved before is safe.",
			"Wait a moment, look whether what you sent was saved, and send it again if not. If it stays away, the log tells why."},
		http.StatusInternalServerError: {"That did not work", "Something went wrong on our side. What was saved before is safe.",
			"Go back and try once more. If it happens again, the log tells what failed."},
	}
}

// renderErrors renders every error page at the start: when all else fails they
// only need to be copied out.
func renderErrors(vs views) (map[int][]byte, error) {
	pages := map[int][]byte{}
	for status, w := range errorWords() {
		b, err := vs.render("error", errorPage{frame: frame{Title: w[0]}, What: w[1], Next: w[2]})
		if err != nil {
			return nil, fmt.Errorf("status %d: %w", status, err)
		}
		pages[status] = b
	}
	return pages, nil
}
