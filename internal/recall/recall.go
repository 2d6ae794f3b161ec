// Package recall remembers what was worked out, so that what recurs is worked out
// once.
package recall

import "sync"

// Memory keeps answers by what they were worked out from. It is safe for concurrent
// use; an answer must not be changed by who gets it. The zero value is empty.
type Memory[K comparable, V any] struct {
	// Limit bounds how many answers are held, 0 for Most; then it starts anew.
	Limit int

	mu sync.RWMutex
	by map[K]V
}

// Most bounds how many answers a Memory without a limit of its own holds.
const Most = 1 << 14

// Find is the answer for a key, if it is remembered.
func (m *Memory[K, V]) Find(key K) (V, bool) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	v, ok := m.by[key]
	return v, ok
}

// Put remembers the answer for a key.
func (m *Memory[K, V]) Put(key K, v V) {
	limit := m.Limit
	if limit == 0 {
		limit = Most
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.by == nil || len(m.by) >= limit {
		m.by = map[K]V{}
	}
	m.by[key] = v
}

// Of is the answer for a key, worked out where it is not remembered. Two who ask at
// the same time may both work it out.
func (m *Memory[K, V]) Of(key K, work func() V) V {
	v, ok := m.Find(key)
	if !ok {
		v = work()
		m.Put(key, v)
	}
	return v
}
