package kitchen

import (
	"strconv"

	"potwright/internal/adaptation"
	"potwright/internal/cooking"
	"potwright/internal/household"
)

// Report is what an analysed dish means for everyone at the table.
type Report struct {
	Plates []adaptation.Plate // one a member, at the member's usual portion
	// Fit is the worst of the plates; Fits is set where every limit and need of
	// everyone holds at its own strictness and no label has to tell first.
	Fit  household.Fit
	Fits bool
	// Hands are the lines and steps that load the cook's hands.
	Hands []household.HandNote
}

// dish is the analysis as the adaptation looks at it.
func (k *Kitchen) dish(a Analysis) adaptation.Dish {
	foods := make([][]household.LineFood, len(a.read))
	for i, l := range a.read {
		foods[i] = l.seen(k.Needs)
	}
	return adaptation.Dish{Recipe: a.Recipe, Pot: a.Pot, Foods: foods, Heat: heatOf(a.Plan)}
}

// heatOf tells what a plan says of a line's heat; nil where it tells nothing.
func heatOf(p cooking.Plan) func(line int) household.Heat {
	if !p.Told {
		return nil
	}
	return func(line int) household.Heat {
		switch l := p.Of(line); {
		case l.Heated() && l.Sure:
			return household.HeatedThrough
		case l.Treatment == cooking.Raw:
			return household.NotHeated
		default:
			return household.HeatNotTold
		}
	}
}

func lineID(i int) string { return strconv.Itoa(i) }

// Check says what a usual portion of the dish means for each member given.
func (k *Kitchen) Check(a Analysis, h household.Household) Report {
	return k.CheckPortions(a, h, usualPortions(h))
}

func usualPortions(h household.Household) []float64 {
	portions := make([]float64, len(h.Members))
	for i, m := range h.Members {
		portions[i], _, _ = m.Portions()
	}
	return portions
}

// CheckPortions is Check with a portion (share of a serving) for each member.
func (k *Kitchen) CheckPortions(a Analysis, h household.Household, portions []float64) Report {
	r := Report{Plates: make([]adaptation.Plate, 0, len(h.Members)), Fit: household.Inside, Fits: true}
	dish := k.dish(a)
	table := adaptation.Lay(h, k.Needs, dish)
	for i, m := range h.Members {
		p := table.Serve(m, portions[i])
		r.Plates = append(r.Plates, p)
		r.Fits = r.Fits && p.Fits && len(p.Provided) == 0
		r.Fit = household.Worse(r.Fit, p.Verdict.Fit)
	}
	r.Hands = adaptation.HandNotes(k.Needs, dish, h.Cook)
	return r
}
