package kitchen

import (
	"fmt"
	"math"

	"potwright/internal/adaptation"
	"potwright/internal/certificate"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
)

// Agrees holds a certificate against a recipe: each limit's sum by line must be
// what the recipe's own text brings to that plate, computed afresh. It says
// nothing of the proof, which certificate.Check verifies. What is offered at the
// table is no part of the sums.
func (a Analysis) Agrees(c certificate.Certificate) error {
	strict := map[string]bool{}
	for _, row := range c.Rows {
		if row.Plate != nil && row.Loads != nil {
			strict[rowKey(*row.Plate)] = true
		}
	}
	return c.Agrees(func(p certificate.Plate, share float64) (certificate.Figure, error) {
		return a.figure(p, share, strict[rowKey(p)])
	})
}

func rowKey(p certificate.Plate) string {
	return fmt.Sprint(p.Member, p.Weights, p.Free, p.AtLeast)
}

// figure is a weighted sum of a share of a serving of the pot.
func (a Analysis) figure(p certificate.Plate, share float64, strict bool) (certificate.Figure, error) {
	plan := household.Plan{Free: p.Free}
	var lines []*nutrient.LinePanel
	for i := range a.Pot.Lines {
		if lp := &a.Pot.Lines[i]; !lp.AtTable {
			lines = append(lines, adaptation.Counted(lp, plan))
		}
	}
	panel := nutrient.Together(lines).Scale(share / a.Pot.Servings)
	var f certificate.Figure
	for key, w := range p.Weights {
		n, ok := composition.ParseNutrient(key)
		if !ok {
			return f, fmt.Errorf("there is no nutrient %q", key)
		}
		f.Mid += w * panel[n].Mid
		switch {
		case !strict:
			f.End += w * panel[n].Mid
		case p.AtLeast:
			f.End += w * math.Max(0, panel[n].Low)
		default:
			f.End += w * panel[n].High
		}
	}
	return f, nil
}
