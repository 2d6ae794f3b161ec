// Package recall remembers what was worked out, so that what recurs is worked out
// once.
package recall

import "sync"

// Memory keeps answers by what they were worked out from. It is safe for concurrent
// use; an answer must not be changed by who gets it. The zero value is empty.
type Memory[K comparable, V any] struct {
	// Limit bounds the weight of what is held, 0 for Most. What was not asked for in
	// the time that half of it came in is forgotten.
	Limit int
	// Weigh is an answer's weight, such as its bytes; nil where each weighs 1. One
	// over half the limit is not held.
	Weigh func(V) int

	mu sync.RWMutex
	// fresh holds what came in or was asked for lately, older what did before that.
	fresh, older map[K]V
	weight       int // of fresh
}

// Most bounds how many answers a Memory without a limit of its own holds.
const Most = 1 << 14

// Find is the answer for a key, if it is remembered.
func (m *Memory[K, V]) Find(key K) (V, bool) {
	m.mu.RLock()
	v, ok := m.fresh[key]
	older := false
	if !ok {
		_, older = m.older[key]
	}
	m.mu.RUnlock()
	if ok || !older {
		return v, ok
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if v, ok = m.older[key]; ok {
		m.put(key, v)
		return v, true
	}
	v, ok = m.fresh[key]
	return v, ok
}

// Put remembers the answer for a key.
func (m *Memory[K, V]) Put(key K, v V) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.put(key, v)
}

func (m *Memory[K, V]) put(key K, v V) {
	if before, ok := m.fresh[key]; ok {
		m.weight -= m.weigh(before)
		delete(m.fresh, key)
	}
	delete(m.older, key)
	w := m.weigh(v)
	if w > m.half() {
		return
	}
	if m.weight+w > m.half() {
		m.fresh, m.older, m.weight = nil, m.fresh, 0
	}
	if m.fresh == nil {
		m.fresh = map[K]V{}
	}
	m.fresh[key] = v
	m.weight += w
}

func (m *Memory[K, V]) half() int {
	if m.Limit == 0 {
		return Most / 2
	}
	return max(1, m.Limit/2)
}

func (m *Memory[K, V]) weigh(v V) int {
	if m.Weigh == nil {
		return 1
	}
	return m.Weigh(v)
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
