package access

import (
	"sync"
	"time"
)

// maxThrottled bounds the keys kept, so that a flood of names takes no memory.
const maxThrottled = 10_000

// pace is how often a thing may be done: so many times at once, then once more with
// each pause.
type pace struct {
	atOnce int
	pause  time.Duration
}

// longest is how long it takes until all tries are back.
func (p pace) longest() time.Duration { return time.Duration(p.atOnce) * p.pause }

// Throttle bounds how often logins are tried. It is safe for concurrent use.
type Throttle struct {
	now               func() time.Time
	byAddress, byName pace
	// bySlow is for one name from one address while the name has no tries left: someone
	// guesses at it, and whoever it belongs to must still get in from elsewhere.
	bySlow pace
	mu     sync.Mutex
	full   map[string]time.Time // when the key has all its tries back
}

// NewThrottle makes one that goes by the clock given. The paces are common practice, no
// source.
func NewThrottle(now func() time.Time) *Throttle {
	return &Throttle{now: now, byAddress: pace{10, time.Minute}, byName: pace{10, time.Minute},
		bySlow: pace{1, 2 * time.Minute}, full: map[string]time.Time{}}
}

// Try takes one try for a name from an address, or none where there is none left; then
// wait is how long until there is one again. The address alone can be shut out: while a
// name is guessed at, from however many addresses, each address keeps a slow try for it,
// so that a flood from elsewhere locks nobody out. A name is counted whether or not such
// an account exists.
func (t *Throttle) Try(name, address string) (wait time.Duration, ok bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	now := t.now()
	here, named := "address "+address, "name "+name
	if wait = t.wait(here, t.byAddress, now); wait > 0 {
		return wait, false
	}
	if t.wait(named, t.byName, now) == 0 {
		t.take(named, t.byName, now)
	} else {
		slow := named + " from " + address
		if wait = t.wait(slow, t.bySlow, now); wait > 0 {
			return wait, false
		}
		t.take(slow, t.bySlow, now)
	}
	t.take(here, t.byAddress, now)
	return 0, true
}

// TrySignedIn is Try for someone who is signed in and proves the passphrase once more:
// nobody else's tries count.
func (t *Throttle) TrySignedIn(session string) (wait time.Duration, ok bool) {
	t.mu.Lock()
	defer t.mu.Unlock()
	now, key := t.now(), "session "+session
	if wait = t.wait(key, t.byName, now); wait > 0 {
		return wait, false
	}
	t.take(key, t.byName, now)
	return 0, true
}

// wait is how long until the key has a try, 0 where it has one.
func (t *Throttle) wait(key string, p pace, now time.Time) time.Duration {
	return max(0, t.debt(key, p, now)+p.pause-p.longest())
}

// take takes one try of the key.
func (t *Throttle) take(key string, p pace, now time.Time) {
	until := now.Add(t.debt(key, p, now) + p.pause)
	t.makeRoom(key)
	t.full[key] = until
}

// debt is the time until a key has all its tries back. It is never longer than all
// tries take: where it is, the clock was set back, and it runs from now.
func (t *Throttle) debt(key string, p pace, now time.Time) time.Duration {
	left := t.full[key].Sub(now)
	if left > p.longest() {
		left = p.longest()
		t.full[key] = now.Add(left)
	}
	return max(0, left)
}

// makeRoom drops the key that has its tries back the soonest where there is no room for
// another.
func (t *Throttle) makeRoom(key string) {
	if _, had := t.full[key]; had || len(t.full) < maxThrottled {
		return
	}
	var soonest string
	for k, at := range t.full {
		if soonest == "" || at.Before(t.full[soonest]) {
			soonest = k
		}
	}
	delete(t.full, soonest)
}
