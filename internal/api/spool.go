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
	// archiveTime is how long sending or reading one may take: 1 GB at 15 Mbit/s.
	archiveTime = 10 * time.Minute
)

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
	limits := http.NewResponseController(c.Writer) // where they can't be set, the usual ones stand
	_ = limits.SetReadDeadline(time.Now().Add(archiveTime))
	_ = limits.SetWriteDeadline(time.Now().Add(2 * archiveTime))
	return newSpool(func(w io.Writer) error {
		_, err := io.Copy(w, http.MaxBytesReader(c.Writer, c.Request.Body, maxArchive))
		return brokenOff("file", err)
	})
}

// largeFile is an answer that is laid aside before it is sent: one that can't be made
// whole is not begun.
type largeFile struct {
	name string
	fill func(io.Writer) error
}

func (a *API) send(c *gin.Context, op operation, l largeFile) {
	s, err := newSpool(l.fill)
	if err != nil {
		a.Fail(c, err)
		return
	}
	defer s.drop()
	_ = http.NewResponseController(c.Writer).SetWriteDeadline(time.Now().Add(archiveTime)) // where it can't be set, the usual one stands
	c.Header("Content-Disposition", fmt.Sprintf("attachment; filename=%q", l.name))
	c.DataFromReader(op.status, s.size, op.gives, s.whole(), nil)
}
