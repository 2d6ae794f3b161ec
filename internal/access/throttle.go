package access

import (
	"sync"
	"time"
)

// How often a passphrase may be tried: so many at once, then one more with each
// pause; common practice, no source.
const (
	triesAtOnce  = 10
	tryEach      = time.Minute
	maxThrottled = 10_000 // keys kept, so that a flood of names takes no memory
)

// Throttle bounds how often logins are tried for one key, such as an account or
// an address. It is safe for concurrent use.
type Throttle struct {
	now  func() time.Time
	mu   sync.Mutex
	full map[string]time.Time // when the key has all its tries back
}

// NewThrottle makes one that goes by the clock given.
func NewThrottle(now func() time.Time) *Throttle {
	return &Throttle{now: now, full: map[string]time.Time{}}
}

// Try takes one try of every key, or none where any has none left; then wait is how
// long until all have one again. A key is counted whether or not such an account
// exists.
func (t *Throttle) Try(keys ...string) (wait time.Duration, ok bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	now := t.now()
	for _, k := range keys {
		wait = max(wait, t.debt(k, now)+tryEach-triesAtOnce*tryEach)
	}
	if wait > 0 {
		return wait, false
	}
	t.forget(now, len(keys))
	if len(t.full)+len(keys) > maxThrottled {
		return tryEach, false
	}
	for _, k := range keys {
		t.full[k] = now.Add(t.debt(k, now) + tryEach)
	}
	return 0, true
}

// debt is the time until a key has all its tries back. It is never longer than all
// tries take: where it is, the clock was set back, and it runs from now.
func (t *Throttle) debt(key string, now time.Time) time.Duration {
	left := t.full[key].Sub(now)
	if left > triesAtOnce*tryEach {
		left = triesAtOnce * tryEach
		t.full[key] = now.Add(left)
	}
	return max(0, left)
}

// forget drops the keys that have all their tries back, where room is short.
func (t *Throttle) forget(now time.Time, room int) {
	if len(t.full)+room <= maxThrottled {
		return
	}
	for k, at := range t.full {
		if !at.After(now) {
			delete(t.full, k)
		}
	}
}
