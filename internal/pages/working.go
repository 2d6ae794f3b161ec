package pages

import "sync"

// working is what is being worked out now, so that many who ask for a page at once wait
// for the first of them and not for as many pages.
type working struct {
	mu sync.Mutex
	of map[keptKey]*work
}

// work is one page that is being worked out.
type work struct {
	// ended is closed when the page is there, or is known to be none that is kept.
	ended chan struct{}
	// left is set before that where whoever worked left: another has to.
	left bool
}

// begin is the work of another on a page, to be waited for; nil where there is none,
// and whoever asks is to do it, and to call end.
func (w *working) begin(key keptKey) *work {
	w.mu.Lock()
	defer w.mu.Unlock()
	if other := w.of[key]; other != nil {
		return other
	}
	if w.of == nil {
		w.of = map[keptKey]*work{}
	}
	w.of[key] = &work{ended: make(chan struct{})}
	return nil
}

func (w *working) end(key keptKey, left bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	done := w.of[key]
	delete(w.of, key)
	done.left = left
	close(done.ended)
}
