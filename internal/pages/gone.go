package pages

import (
	"errors"
	"net/http"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
)

// gonePage is what someone wrote of a thing that another took away meanwhile.
type gonePage struct {
	frame
	// Says what became of it, Kept what was written, a line each.
	Says string
	Kept []string
	// Again is where it can be done after all, Back where the others of its kind are.
	Again, Back action
}

// action is a link and what it does.
type action struct{ Link, Label string }

// goneFrom reports whether a form was made of a thing that is not there any more.
func goneFrom(err error, f form) bool {
	return errors.Is(err, kitchen.ErrNotFound) && f.text("seen") != ""
}

func (s *Site) showGone(c *gin.Context, p gonePage) error {
	p.Title = "Not there any more"
	return s.show(c, http.StatusConflict, "gone", p)
}
