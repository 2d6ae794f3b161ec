// Package recall remembers what was worked out, so that what recurs is worked out
// once.
package recall

import "sync"

// Memory keeps answers by what they were worked out from. It is safe for concurrent
// use; an answer must not be changed by who gets it. The zero value is empty.
type Memory[K comparable, V any] struct {
	mu sync.RWMutex
	by map[K]V
}

// Most bounds how many answers a Memory holds: it then starts anew.
const Most = 1 << 14

// Of is the answer for a key, worked out where it is not remembered. Two who ask at
// the same time may both work it out.
func (m *Memory[K, V]) Of(key K, work func() V) V {
	m.mu.RLock()
	v, ok := m.by[key]
	m.mu.RUnlock()
	if ok {
		return v
	}
	v = work()
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.by == nil || len(m.by) >= Most {
		m.by = map[K]V{}
	}
	m.by[key] = v
	return v
}
