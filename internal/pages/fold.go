package pages

import "fmt"

// folded is a long list of boxes: those ticked stand first, the rest folds out.
type folded struct {
	Chosen []tick
	Rest   []tickGroup
	// More says how many boxes fold out; "" where none does.
	More string
}

// fold puts what is ticked in front of what may be ticked besides.
func fold(groups ...tickGroup) folded {
	var out folded
	rest := 0
	for _, g := range groups {
		others := tickGroup{Title: g.Title}
		for _, t := range g.Ticks {
			if t.On {
				out.Chosen = append(out.Chosen, t)
			} else {
				others.Ticks = append(others.Ticks, t)
			}
		}
		if len(others.Ticks) > 0 {
			out.Rest = append(out.Rest, others)
			rest += len(others.Ticks)
		}
	}
	switch {
	case rest > 0 && len(out.Chosen) > 0:
		out.More = fmt.Sprintf("%d ticked; %d more to choose from", len(out.Chosen), rest)
	case rest > 0:
		out.More = fmt.Sprintf("None ticked; %d to choose from", rest)
	}
	return out
}
