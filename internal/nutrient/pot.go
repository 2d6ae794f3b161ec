package nutrient

import "potwright/internal/composition"

// Sum adds line panels into a pot of so many servings (> 0).
func Sum(lines []LinePanel, servings float64) Pot {
	pot := Pot{Servings: servings, Lines: lines, Unknown: map[composition.Nutrient][]int{}}
	var inPot, atTable []LinePanel
	for i, lp := range lines {
		if lp.AtTable {
			atTable = append(atTable, lp)
			continue
		}
		inPot = append(inPot, lp)
		for n, a := range lp.Panel {
			if a.Unknown > 0 {
				pot.Unknown[composition.Nutrient(n)] = append(pot.Unknown[composition.Nutrient(n)], i)
			}
		}
	}
	pot.Total = Together(inPot)
	pot.Serving = pot.Total.Scale(1 / servings)
	pot.Table = Together(atTable).Scale(1 / servings)
	return pot.Finished(Finish{})
}

// Together is the panel of several lines, their doubts combined.
func Together(lines []LinePanel) Panel {
	var total Panel
	var doubts []Doubt
	for _, lp := range lines {
		for n, a := range lp.Panel {
			total[n].Mid += a.Mid
			total[n].Unknown += a.Unknown
		}
		doubts = append(doubts, lp.Doubts...)
	}
	return withRanges(total, doubts)
}

// Scale multiplies every amount; unknown stays unknown.
func (p Panel) Scale(k float64) Panel {
	for n := range p {
		p[n].Range = p[n].Range.Scale(k)
	}
	return p
}

// Plus adds an independent panel.
func (p Panel) Plus(o Panel) Panel {
	for n := range p {
		p[n].Range = p[n].Range.Add(o[n].Range)
		p[n].Unknown += o[n].Unknown
	}
	return p
}
