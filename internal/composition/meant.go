package composition

import "slices"

// counting are the meanings of a phrase that count: those that hold and say most, more
// states first, then the line's unit.
func counting(q *query, ms []meaning) []*meaning {
	var out []*meaning
	most := 0
	for i := range ms {
		m := &ms[i]
		says := m.says()
		if says < most || !m.holds(q) {
			continue
		}
		if says > most {
			most, out = says, out[:0]
		}
		out = append(out, m)
	}
	return out
}

// meant is the first meaning that stands for the food, or nil.
func meant(counting []*meaning, f *Food) *meaning {
	for _, m := range counting {
		if m.food == f {
			return m
		}
	}
	return nil
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
