package composition

import "slices"

// meant is the meaning by which the phrase stands for the food, or nil. Only
// the meanings count that say most: more states first, then the line's unit.
func meant(q *query, ms []meaning, f *Food) *meaning {
	var found *meaning
	most := -1
	for i := range ms {
		m := &ms[i]
		says := m.says()
		if says < most || !m.holds(q) {
			continue
		}
		if says > most {
			most, found = says, nil
		}
		if m.food == f && found == nil {
			found = m
		}
	}
	return found
}

// says is how much a meaning tells beside its words.
func (m *meaning) says() int {
	n := 2 * len(m.states)
	if len(m.units) > 0 {
		n++
	}
	return n
}

// holds reports whether the phrase tells the states of the meaning in a unit it
// holds for.
func (m *meaning) holds(q *query) bool {
	for _, s := range m.states {
		if !tells(q.states, s) {
			return false
		}
	}
	return len(m.units) == 0 || slices.Contains(m.units, q.unit)
}

// tells reports whether one of the states is s, or so near that it costs
// nothing.
func tells(states []string, s string) bool {
	for _, have := range states {
		if have == s {
			return true
		}
		for _, n := range nearStates[s] {
			if n.state == have && n.cost <= nearEnough {
				return true
			}
		}
	}
	return false
}
