package pages

import (
	"io/fs"
	"mime"
	"net/http"
	"path"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
)

// staticFile sends the style sheet, the script or the icon.
func (s *Site) staticFile(c *gin.Context) error {
	b, err := fs.ReadFile(s.static, c.Param("file"))
	if err != nil {
		return kitchen.ErrNotFound
	}
	// Short, since the address does not change when the file does.
	c.Header("Cache-Control", "max-age=300")
	c.Data(http.StatusOK, mime.TypeByExtension(path.Ext(c.Param("file"))), b)
	return nil
}
