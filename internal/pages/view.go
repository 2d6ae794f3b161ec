package pages

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"path"
	"slices"
	"strings"

	"github.com/gin-gonic/gin"
)

// views are the parsed templates by page.
type views map[string]*template.Template

// sharedParts are templates that pages are put together from.
var sharedParts = []string{"templates/layout.html", "templates/parts.html", "templates/claims.html", "templates/charts.html", "templates/dayparts.html"}

// parseViews reads the pages, each templates/NAME.html over the shared parts.
func parseViews(files fs.FS) (views, error) {
	base, err := template.New("layout").ParseFS(files, sharedParts...)
	if err != nil {
		return nil, err
	}
	names, err := fs.Glob(files, "templates/*.html")
	if err != nil {
		return nil, err
	}
	vs := views{}
	for _, file := range names {
		if slices.Contains(sharedParts, file) {
			continue
		}
		t, err := base.Clone()
		if err != nil {
			return nil, err
		}
		name := strings.TrimSuffix(path.Base(file), ".html")
		if vs[name], err = t.ParseFS(files, file); err != nil {
			return nil, fmt.Errorf("page %s: %w", name, err)
		}
	}
	return vs, nil
}

// render writes a whole page to a buffer, so that a fault half-way never
// reaches a visitor as half a page.
func (vs views) render(name string, page any) ([]byte, error) {
	t, ok := vs[name]
	if !ok {
		return nil, fmt.Errorf("no page called %q", name)
	}
	var b bytes.Buffer
	if err := t.ExecuteTemplate(&b, "layout", page); err != nil {
		return nil, fmt.Errorf("render page %s: %w", name, err)
	}
	return bytes.Clone(b.Bytes()), nil // it is kept, and what was reserved beyond it is not
}

// show sends a page.
func (s *Site) show(c *gin.Context, status int, name string, page any) error {
	b, err := s.views.render(name, page)
	if err != nil {
		return err
	}
	if status == http.StatusOK {
		c.Set(shownPage, b)
	}
	sendHTML(c, status, b)
	return nil
}

func sendHTML(c *gin.Context, status int, b []byte) {
	// Pages hold what people told about their health: no cache keeps them.
	c.Header("Cache-Control", "no-store")
	c.Data(status, "text/html; charset=utf-8", b)
}

// seeOther ends a post: the answer is fetched by its own address, so that
// reloading it never posts again.
func seeOther(c *gin.Context, to string) error {
	c.Redirect(http.StatusSeeOther, to)
	return nil
}
