package pages

import (
	"net/http"
	"strings"
	"sync"

	"github.com/gin-gonic/gin"

	"potwright/internal/access"
)

// keptBytes is how much of pages is kept at hand: some 800 of the usual size. A
// design choice.
const keptBytes = 32 << 20

// keptKey is all that a household's page rests on: what is saved that it shows, who
// asks, the time as far as pages tell it, and where it was asked for. The rules and the
// food table are those of one run of the program.
type keptKey struct {
	revision      string
	caller        access.Caller
	hour          string
	host, address string
}

// searching is the page that tells how far a search is, which is saved nowhere: it is
// not kept, and what it waits for takes nobody's turn.
const searching = "/h/:hid/sweep"

// shownPage is where a handler leaves its page for Remembered.
const shownPage = "potwright/shown"

// Remembered answers with the page as it was shown before, where it would be the same
// again; else the page has its turn to be worked out, and is kept. It stands behind
// whatever finds out who asks.
func (s *Site) Remembered(c *gin.Context) {
	if c.Request.Method != http.MethodGet || !strings.HasPrefix(c.FullPath(), "/h/:hid/") || c.FullPath() == searching {
		return
	}
	revision, err := s.revisionFor(c)
	if err != nil {
		return // the page itself says what is wrong with the store
	}
	who, _ := access.CallerOf(c.Request.Context())
	key := keptKey{revision, who, s.now().Format("2006-01-02 15 MST"), c.Request.Host, c.Request.URL.RequestURI()}
	for !s.sendKept(c, key) {
		other := s.working.begin(key)
		if other == nil {
			s.workOut(c, key, func(kept bool) { s.working.end(key, !kept && c.Request.Context().Err() != nil) })
			return
		}
		select {
		case <-other.ended:
		case <-c.Request.Context().Done():
			c.Abort() // nobody waits for the page
			return
		}
		if !other.left && !s.sendKept(c, key) { // such as a picture, or what is not found
			s.workOut(c, key, func(bool) {})
		}
		if !other.left {
			return
		}
	}
}

// workOut has the page worked out in its turn, keeps it, and tells whether that was
// done as soon as it is known.
func (s *Site) workOut(c *gin.Context, key keptKey, ended func(kept bool)) {
	kept := false
	end := sync.OnceFunc(func() { ended(kept) })
	defer end()
	free, err := s.turns.take(c.Request.Context())
	if err != nil {
		c.Abort() // nobody waits for the page
		return
	}
	defer free()
	if kept = s.sendKept(c, key); kept { // another had the turn before
		return
	}
	c.Writer = turnWriter{c.Writer, sync.OnceFunc(func() {
		if page, ok := c.Get(shownPage); ok {
			s.kept.Put(key, page.([]byte))
			kept = true
		}
		end()
		free()
	})}
	c.Next()
}

// Beneath ofRecipe pages show one recipe and nothing of others, but for the one that
// the query names as like it; ofPeople nothing of any.
const (
	ofRecipe = "/h/:hid/recipes/:rid"
	ofPeople = "/h/:hid/people"
)

// revisionFor names what is saved that the page asked for may show.
func (s *Site) revisionFor(c *gin.Context) (string, error) {
	ctx, path := c.Request.Context(), c.FullPath()
	if path == ofPeople {
		return s.store.RevisionOf(ctx, 0)
	}
	if id, err := number(c, "rid"); err == nil && (path == ofRecipe && !c.Request.URL.Query().Has("like") || strings.HasPrefix(path, ofRecipe+"/")) {
		return s.store.RevisionOf(ctx, id)
	}
	return s.store.Revision(ctx)
}

func (s *Site) sendKept(c *gin.Context, key keptKey) bool {
	page, ok := s.kept.Find(key)
	if ok {
		sendHTML(c, http.StatusOK, page)
		c.Abort()
	}
	return ok
}
