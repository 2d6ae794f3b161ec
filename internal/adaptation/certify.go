package adaptation

import (
	"fmt"

	"potwright/internal/choice"
	"potwright/internal/label"
)

// certify adds the written proof of a solution, with the names of lines and
// options in it.
func (m *model) certify(ans *Answer, sol choice.Solution) error {
	if len(m.blocked) > 0 || sol.Status == choice.Stopped {
		return nil
	}
	c, err := choice.Certify(m.problem, sol.Chosen, m.in.Budget, m.in.Now)
	if err != nil {
		return fmt.Errorf("write the proof down: %w", err)
	}
	for g, cells := range m.cells {
		c.Groups[g].Name = m.in.Recipe.Lines[g].Reading.Text
		for k, cell := range cells {
			c.Groups[g].Options[k].Name = cell.name()
		}
	}
	for i, ps := range m.portions {
		group := &c.Groups[len(m.cells)+i]
		group.Name = fmt.Sprintf("%s's portion", m.in.Household.Members[i].Name)
		for k, p := range ps {
			group.Options[k].Name = label.Figure(p) + " of a serving"
		}
	}
	ans.Certificate = &c
	return nil
}

// name is what is done with a line, for a proof.
func (c cell) name() string {
	if c.option == nil {
		return "kept"
	}
	if to := (Change{Option: *c.option}).To(); to != "" {
		return to
	}
	return "left out"
}
