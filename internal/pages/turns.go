package pages

import (
	"context"
	"runtime"
	"sync"

	"github.com/gin-gonic/gin"
)

// turns lets some pages be worked out at once and the others wait, first come first
// served: many at once take longer altogether, and the last of them far longer.
type turns chan struct{}

// newTurns lets two a processor be worked out: one may wait for the disk, or for a
// search of seconds beside it. A design choice.
func newTurns() turns { return make(turns, 2*runtime.GOMAXPROCS(0)) }

// take waits for a turn; end, which may be called again, gives it to the next. It fails
// where nobody waits for the page any more.
func (t turns) take(ctx context.Context) (end func(), err error) {
	select {
	case t <- struct{}{}: // a channel serves those who wait in the order they came
		return sync.OnceFunc(func() { <-t }), nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// turnWriter ends the turn of a page before it is sent: every page is worked out whole
// before that, and a slow reader keeps nobody waiting.
type turnWriter struct {
	gin.ResponseWriter
	end func()
}

// Write sends what comes after the turn.
func (w turnWriter) Write(b []byte) (int, error) {
	w.end()
	return w.ResponseWriter.Write(b)
}

// WriteString is Write.
func (w turnWriter) WriteString(s string) (int, error) { return w.Write([]byte(s)) }
