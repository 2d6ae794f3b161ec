package adaptation

import (
	"potwright/internal/choice"
)

// Alternative is another way to suit everyone that really differs.
type Alternative struct {
	// Cost by level, as in Answer.Cost.
	Cost    []int64
	Changes []Change
	// Portions are the members' shares of a serving, in order.
	Portions []float64
}

// How many other ways are looked for, and in how many lines or portions each
// must differ from every earlier one; what is put in besides follows from these
// and does not count. Design choices: more are not read.
const (
	mostAlternatives = 2
	leastDifference  = 2
)

// alternatives are the next best ways, none where the search runs out of its budget.
func (m *model) alternatives() []Alternative {
	var counted []int
	for g := range m.problem.Groups {
		if g < len(m.in.Recipe.Lines) || g >= len(m.cells) {
			counted = append(counted, g)
		}
	}
	sols, _, err := choice.KBest(m.problem, 1+mostAlternatives, counted, leastDifference, followUp)
	if err != nil || len(sols) < 2 {
		return nil
	}
	var out []Alternative
	for _, sol := range sols[1:] {
		out = append(out, Alternative{Cost: m.in.Wishes.Aim.byLevel(sol.Cost), Portions: m.chosenPortions(sol.Chosen), Changes: m.changes(sol.Chosen)})
	}
	return out
}
