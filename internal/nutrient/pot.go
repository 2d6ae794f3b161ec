package nutrient

import "potwright/internal/composition"

// Sum adds line panels into a pot of so many servings (> 0).
func Sum(lines []LinePanel, servings float64) Pot {
	pot := Pot{Servings: servings, Lines: lines, Unknown: map[composition.Nutrient][]int{}}
	for i := range lines {
		if lines[i].AtTable {
			continue
		}
		for n := range lines[i].Panel {
			if lines[i].Panel[n].Unknown > 0 {
				pot.Unknown[composition.Nutrient(n)] = append(pot.Unknown[composition.Nutrient(n)], i)
			}
		}
	}
	pot.Total = together(lines, func(lp *LinePanel) bool { return !lp.AtTable })
	pot.Serving = pot.Total.Scale(1 / servings)
	pot.Table = together(lines, func(lp *LinePanel) bool { return lp.AtTable }).Scale(1 / servings)
	return pot.Finished(Finish{})
}

// Together is the panel of several lines, their doubts combined.
func Together(lines []LinePanel) Panel {
	return together(lines, func(*LinePanel) bool { return true })
}

func together(lines []LinePanel, of func(*LinePanel) bool) Panel {
	var total Panel
	count := 0
	for i := range lines {
		if of(&lines[i]) {
			count += len(lines[i].Doubts)
		}
	}
	doubts := make([]*Doubt, 0, count)
	for i := range lines {
		if !of(&lines[i]) {
			continue
		}
		for n := range total {
			total[n].Mid += lines[i].Panel[n].Mid
			total[n].Unknown += lines[i].Panel[n].Unknown
		}
		for d := range lines[i].Doubts {
			doubts = append(doubts, &lines[i].Doubts[d])
		}
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
