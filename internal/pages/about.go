package pages

import (
	"net/http"

	"github.com/gin-gonic/gin"

	"potwright/internal/about"
)

// aboutPage tells which program this is and where its figures come from.
type aboutPage struct {
	frame
	Build   about.Build
	Licence string
	Sources []about.Source
}

func (s *Site) showAbout(c *gin.Context) error {
	build, _ := about.ReadBuild()
	return s.show(c, http.StatusOK, "about", aboutPage{
		frame: frame{Title: "About Potwright", Caution: true}, Build: build, Licence: about.Licence, Sources: about.Sources()})
}
