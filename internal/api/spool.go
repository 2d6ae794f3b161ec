package api

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"syscall"
	"time"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
)

// What an archive may be over the wire. Its photos outweigh everything else, so that it
// lies on the disk on its way and never in memory.
const (
	// maxArchive bounds it, bytes: some 2000 photos.
	maxArchive = 1 << 30
	// pieceTime is how long each piece of so many bytes may take, either way, and
	// archiveTime all of it: whoever stops sending or reading is not waited for.
	piece       = 1 << 20
	pieceTime   = 30 * time.Second
	archiveTime = 30 * time.Minute
)

// paced is a body or an answer whose time grows with each piece that has passed.
type paced struct {
	io.Reader
	left   int
	end    time.Time
	extend func(time.Time) error // where it can't, the usual time stands
}

func newPaced(r io.Reader, extend func(time.Time) error) *paced {
	return &paced{r, piece, time.Now().Add(archiveTime), extend}
}

func (p *paced) Read(b []byte) (int, error) {
	n, err := p.Reader.Read(b)
	if p.left -= n; p.left <= 0 {
		p.left = piece
		p.more()
	}
	return n, err
}

func (p *paced) more() {
	until := time.Now().Add(pieceTime)
	if until.After(p.end) {
		until = p.end
	}
	_ = p.extend(until)
}

// spool is a file for as long as something large is on its way.
type spool struct {
	*os.File
	size int64
}

// newSpool is one that fill writes. It is gone after drop.
func newSpool(fill func(io.Writer) error) (*spool, error) {
	f, err := os.CreateTemp("", "potwright-*.zip") // readable by its owner alone
	if err != nil {
		return nil, fmt.Errorf("lay an archive aside: %w", err)
	}
	s := &spool{File: f}
	_ = os.Remove(f.Name()) // so that a program that is killed leaves nothing; Windows does it at drop
	if err := fill(f); err != nil {
		s.drop()
		if errors.Is(err, syscall.ENOSPC) {
			err = fmt.Errorf("lay an archive aside: %w", kitchen.ErrNoRoom)
		}
		return nil, err
	}
	if s.size, err = f.Seek(0, io.SeekCurrent); err != nil {
		s.drop()
		return nil, fmt.Errorf("lay an archive aside: %w", err)
	}
	return s, nil
}

// drop removes it; nobody is left to tell where that fails.
func (s *spool) drop() {
	_ = s.Close()
	_ = os.Remove(s.Name())
}

// whole is its content from the beginning.
func (s *spool) whole() io.Reader { return io.NewSectionReader(s, 0, s.size) }

// readArchive lays aside an archive that is sent.
func readArchive(c *gin.Context) (*spool, error) {
	if err := ofKind(c, archiveKind); err != nil {
		return nil, err
	}
	limits := http.NewResponseController(c.Writer)
	s, err := newSpool(func(w io.Writer) error {
		_, err := io.Copy(w, newPaced(http.MaxBytesReader(c.Writer, c.Request.Body, maxArchive), limits.SetReadDeadline))
		return brokenOff("file", err)
	})
	_ = limits.SetWriteDeadline(time.Now().Add(pieceTime + answerTime)) // it was running while the file came
	return s, err
}

// answerTime is how long taking in an archive may take.
const answerTime = 5 * time.Minute

// largeFile is an answer that is laid aside before it is sent: one that can't be made
// whole is not begun.
type largeFile struct {
	name string
	fill func(io.Writer) error
}

func (a *API) send(c *gin.Context, op operation, l largeFile) {
	s, err := newSpool(l.fill)
	answer := newPaced(nil, http.NewResponseController(c.Writer).SetWriteDeadline)
	answer.more()
	if err != nil {
		a.Fail(c, err)
		return
	}
	defer s.drop()
	answer.Reader = s.whole()
	c.Header("Content-Disposition", fmt.Sprintf("attachment; filename=%q", l.name))
	c.DataFromReader(op.status, s.size, op.gives, answer, nil)
}
