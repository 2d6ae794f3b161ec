package adaptation

import (
	"fmt"

	"potwright/internal/certificate"
	"potwright/internal/choice"
	"potwright/internal/composition"
	"potwright/internal/label"
)

// certify adds the written proof of a solution, with the names of lines and
// options in it.
func (m *model) certify(ans *Answer, sol choice.Solution) error {
	if len(m.blocked) > 0 || sol.Status == choice.Stopped {
		return nil
	}
	c, err := choice.Certify(m.problem, sol.Chosen, m.in.Budget)
	if err != nil {
		return fmt.Errorf("write the proof down: %w", err)
	}
	for g, cells := range m.cells {
		c.Groups[g].Name = m.groupName(g)
		_, added := m.additionOf(g)
		for k, cell := range cells {
			c.Groups[g].Options[k].Name = cell.name(added, g == m.taste)
		}
	}
	for i, ps := range m.portions {
		group := &c.Groups[len(m.cells)+i]
		group.Name = fmt.Sprintf("%s's portion", m.in.Household.Members[i].Name)
		for k, p := range ps {
			group.Options[k].Name = label.Figure(p) + " of a serving"
		}
	}
	for r, a := range m.asks {
		c.Rows[r].Plate = m.plateOf(a)
	}
	ans.Certificate = &c
	return nil
}

// plateOf says what on a plate an ask's row is about.
func (m *model) plateOf(a ask) *certificate.Plate {
	p := &certificate.Plate{Member: m.in.Household.Members[a.member].Name, Weights: map[string]float64{},
		AtLeast: a.atLeast, Group: len(m.cells) + a.member, Shares: m.portions[a.member]}
	for n, w := range a.weights {
		if w != 0 {
			p.Weights[composition.Nutrient(n).Key()] = w
		}
	}
	if a.plan != nil {
		p.Free = a.plan.Free
	}
	return p
}

// name is what is done with a line, with an addition or with the taste, for a
// proof.
func (c cell) name(added, taste bool) string {
	switch {
	case c.noticed:
		return "people notice"
	case taste:
		return "kept up"
	case c.option == nil && added:
		return "not added"
	case c.option == nil:
		return "kept"
	}
	if to := (Change{Option: *c.option}).To(); to != "" {
		return to
	}
	return "left out"
}
