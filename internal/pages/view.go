package pages

import (
	"bytes"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"sync"

	"github.com/gin-gonic/gin"
)

// views are the parsed templates: each page's own part is called by its file, with what
// parts pages share beside them.
type views struct {
	all *template.Template
	// written are buffers of pages that were sent.
	written *sync.Pool
}

// parseViews reads them all into one set: a set for each page, with the shared parts
// copied into it, takes ten times as long to make.
func parseViews(files fs.FS) (views, error) {
	own := newParts()
	all, err := template.New("pages").Funcs(own.funcs()).ParseFS(files, "templates/*.html")
	own.all = all
	return views{all, &sync.Pool{New: func() any { return new(bytes.Buffer) }}}, err
}

// named is the page's own part in the set.
func named(page string) string { return "page " + page }

// framed is a page: it has a frame.
type framed interface{ around() frame }

// laid is a page's own part in its frame.
type laid struct {
	Around frame
	Main   template.HTML
}

// render writes a whole page to a buffer, so that a fault half-way never
// reaches a visitor as half a page.
func (vs views) render(name string, page framed) ([]byte, error) {
	b := vs.written.Get().(*bytes.Buffer)
	defer vs.written.Put(b)
	b.Reset()
	if err := vs.all.ExecuteTemplate(b, named(name), page); err != nil {
		return nil, fmt.Errorf("render page %s: %w", name, err)
	}
	main := template.HTML(b.String()) // what a template wrote is HTML
	b.Reset()
	if err := vs.all.ExecuteTemplate(b, "layout", laid{page.around(), main}); err != nil {
		return nil, fmt.Errorf("render the frame of page %s: %w", name, err)
	}
	return bytes.Clone(b.Bytes()), nil // it is kept, and what was reserved beyond it is not
}

// show sends a page.
func (s *Site) show(c *gin.Context, status int, name string, page framed) error {
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
