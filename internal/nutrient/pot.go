package nutrient

import "potwright/internal/composition"

// Sum adds line panels into a pot of so many servings (> 0).
func Sum(lines []LinePanel, servings float64) Pot {
	pot := Pot{Servings: servings, Lines: lines, Unknown: map[composition.Nutrient][]int{}}
	all := make([]*LinePanel, 2*len(lines))
	inPot, atTable := all[:len(lines)], all[len(lines):]
	for i := range lines {
		if lines[i].AtTable {
			atTable[i] = &lines[i]
			continue
		}
		inPot[i] = &lines[i]
		for n := range lines[i].Panel {
			if lines[i].Panel[n].Unknown > 0 {
				pot.Unknown[composition.Nutrient(n)] = append(pot.Unknown[composition.Nutrient(n)], i)
			}
		}
	}
	pot.Total = Together(inPot)
	pot.Serving = pot.Total.Scale(1 / servings)
	pot.Table = Together(atTable).Scale(1 / servings)
	return pot.Finished(Finish{})
}

// Together is the panel of several lines, their doubts combined; nil stands for a line
// that is left out.
func Together(lines []*LinePanel) Panel {
	var total Panel
	count := 0
	for _, lp := range lines {
		if lp != nil {
			count += len(lp.Doubts)
		}
	}
	doubts := make([]*Doubt, 0, count)
	for _, lp := range lines {
		if lp == nil {
			continue
		}
		for n := range total {
			total[n].Mid += lp.Panel[n].Mid
			total[n].Unknown += lp.Panel[n].Unknown
		}
		for d := range lp.Doubts {
			doubts = append(doubts, &lp.Doubts[d])
		}
	}
	total.setRanges(doubts)
	return total
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
