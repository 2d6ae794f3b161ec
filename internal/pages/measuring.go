package pages

import (
	"potwright/internal/foodmatch"
	"potwright/internal/measure"
	"potwright/internal/portion"
)

// measuring is how a kitchen measures: whose cups and spoons, and whether it has scales.
type measuring struct {
	system   measure.System
	noScales bool
}

func measuringFor(o opened) measuring {
	return measuring{o.analysis.Measures, o.household.Equipment.NoScales}
}

// dished is what a portion weighs and fills; without scales by the cup alone, where it
// can be measured so.
func (by measuring) dished(a portion.Amount) string {
	if cups := a.Cups(by.system); by.noScales && cups != "" {
		return "about " + cups
	}
	return a.Text(by.system)
}

// spoons is a weight of a line's food in cups and spoons, for a kitchen without scales;
// "" where the line is not weighed or its food has no such measure.
func (by measuring) spoons(m foodmatch.Matched, part int) string {
	if !by.noScales || part >= len(m.Items) || m.Reading.Amount.Unit.Kind != measure.Mass || !m.Reading.HasAmount {
		return ""
	}
	perML := foodmatch.GramsPerMillilitre(m.Items[part].Food)
	if perML <= 0 || m.Items[part].Grams.Mid <= 0 {
		return ""
	}
	return "about " + measure.Format(measure.Spoonfuls(m.Items[part].Grams.Mid/perML, by.system))
}
