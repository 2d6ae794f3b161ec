package portion

import (
	"fmt"
	"math"
	"strings"

	"potwright/internal/household"
)

// shownCosts is how many costs of a plan are told about a portion.
const shownCosts = 4

// CostText says where a portion's cost steps up, those around a portion of a
// share of a serving first: "2 choices under 0.63 of a serving, 2.5 choices under
// 0.87, then 3 choices". Shares are rounded down to hundredths, so that anything
// under the figure shown does cost no more. "" where there are no steps.
func CostText(p household.Plan, steps []Step, at float64) string {
	if len(steps) < 2 {
		return ""
	}
	first := 0
	for i, s := range steps {
		if s.From <= at {
			first = i
		}
	}
	first = max(0, min(first-1, len(steps)-shownCosts))
	var parts []string
	for i := first; i < len(steps) && i < first+shownCosts; i++ {
		last := i+1 == len(steps) || i+1 == first+shownCosts
		switch {
		case last && i+1 == len(steps):
			parts = append(parts, "then "+p.Units(steps[i].Cost))
		case i == first:
			parts = append(parts, fmt.Sprintf("%s under %s of a serving", p.Units(steps[i].Cost), hundredths(steps[i+1].From)))
		default:
			parts = append(parts, fmt.Sprintf("%s under %s", p.Units(steps[i].Cost), hundredths(steps[i+1].From)))
		}
	}
	return strings.Join(parts, ", ")
}

func hundredths(x float64) string { return fmt.Sprintf("%g", math.Floor(x*100+1e-9)/100) }

// Common is the largest portion that is inside every limit of everyone at the
// table, one size for all; By names whose and what. names[i] is the member of
// each[i]. Known is false where someone's is not.
func Common(names []string, each []Largest) Largest {
	out := Largest{Share: math.Inf(1), Known: true}
	for i, l := range each {
		out.Known = out.Known && l.Known
		if l.Share < out.Share {
			out.Share, out.By = l.Share, l.By+" of "+names[i]
		}
	}
	return out
}
