package pages

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

// figure writes an amount to three figures, thousands in tens.
func figure(x float64) string {
	switch a := math.Abs(x); {
	case a == 0:
		return "0"
	case a >= 1000:
		return group(math.Round(x/10) * 10)
	case a >= 10:
		return strconv.FormatFloat(math.Round(x), 'f', 0, 64)
	case a >= 1:
		return trimZeros(strconv.FormatFloat(x, 'f', 1, 64))
	case a >= 0.005:
		return trimZeros(strconv.FormatFloat(x, 'f', 2, 64))
	default:
		return "under 0.01"
	}
}

func trimZeros(s string) string {
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// group writes 12340 as 12,340.
func group(x float64) string {
	s := strconv.FormatFloat(x, 'f', 0, 64)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// rangeWords writes a range with its unit: "about 480 mg (390 to 610)".
func rangeWords(r spread.Range, unit string) string {
	low, mid, high := figure(r.Low), figure(r.Mid), figure(r.High)
	if unit != "" {
		mid += " " + unit
	}
	if low == high {
		return mid
	}
	return fmt.Sprintf("about %s (%s to %s)", mid, low, high)
}

// amountWords writes an amount of a panel; what is unknown is said, never left
// out.
func amountWords(a nutrient.Amount, unit string) string {
	switch {
	case a.Unknown > 0 && a.High == 0:
		return "not known"
	case a.Unknown > 0:
		return "at least " + strings.TrimPrefix(rangeWords(a.Range, unit), "about ")
	default:
		return rangeWords(a.Range, unit)
	}
}

// fitWords is a plate's verdict in words. suits is set where every limit holds
// as strictly as its setter asks.
func fitWords(f household.Fit, suits bool) string {
	switch {
	case f == household.Inside:
		return "suits"
	case f == household.Close && suits:
		return "suits, but it is close"
	case f == household.Close:
		return "too close to be sure"
	case f == household.Over:
		return "does not suit yet"
	default:
		return "not known"
	}
}

// plateWords is a plate's verdict in words; what only a label or a test can tell
// is never called suiting.
func plateWords(p adaptation.Plate) string {
	switch {
	case p.Fits && len(p.Provided) > 0:
		return "suits only if the labels say so"
	case p.Fits && p.Verdict.Fit == household.Unknown:
		return "suits as far as words can tell: test it"
	default:
		return fitWords(p.Verdict.Fit, p.Fits)
	}
}

// largestWords says how much a member may have, rounded down.
func largestWords(l portion.Largest) string {
	if !l.Bounded() {
		return ""
	}
	if l.Plenty() {
		return "The largest portion inside every limit: more than anyone eats."
	}
	return fmt.Sprintf("The largest portion inside every limit: %s (%s decides).", portionWords(l.Shown()), l.By)
}

// findingWords is one finding's verdict in words.
func findingWords(f household.Finding) string {
	switch f.Kind {
	case "avoid":
		return avoidWords(f.Fit)
	case "texture":
		return textureFitWords(f)
	}
	least := f.Limit != nil && f.Limit.AtLeast != nil && f.Limit.AtMost == nil
	switch {
	case f.Fit == household.Inside:
		return "inside"
	case f.Fit == household.Close && least:
		return "close: may fall short"
	case f.Fit == household.Close:
		return "close: may pass it"
	case f.Fit == household.Over && least:
		return "short"
	case f.Fit == household.Over:
		return "over"
	}
	return "not known"
}

func avoidWords(f household.Fit) string {
	switch f {
	case household.Inside:
		return "nothing found"
	case household.Close:
		return "look closely"
	case household.Over:
		return "found in the dish"
	}
	return "not known"
}

func textureFitWords(f household.Finding) string {
	switch {
	case f.Fit == household.Inside:
		return "can be aimed at"
	case f.ByPlate && f.Fit != household.Unknown:
		return "to be put right on the plate"
	case f.Fit == household.Close:
		return "look closely"
	case f.Fit == household.Over:
		return "does not suit yet"
	}
	return "not known"
}

// stateWords says how far a line was understood.
func stateWords(s foodmatch.State) string {
	switch s {
	case foodmatch.Read:
		return "read as written"
	case foodmatch.Assumed:
		return "read with a guess"
	case foodmatch.Skipped:
		return "left out of the sums"
	default:
		return "not read: its part is not known"
	}
}

// setByWords says who set a limit.
func setByWords(s household.SetBy) string {
	switch s {
	case household.Clinician:
		return "set by a clinician"
	case household.Guidance:
		return "from published guidance"
	default:
		return "own choice"
	}
}

// limitWords writes a limit: "sodium: at most 600 mg a meal, set by a
// clinician".
func limitWords(l household.Limit) string {
	var parts []string
	if l.AtLeast != nil {
		parts = append(parts, "at least "+typedAmount(*l.AtLeast))
	}
	if l.AtMost != nil {
		parts = append(parts, "at most "+typedAmount(*l.AtMost))
	}
	return fmt.Sprintf("%s: %s %s a %s, %s", l.Nutrient.Name(), strings.Join(parts, " and "),
		l.Nutrient.Unit(), l.Per, setByWords(l.SetBy))
}

// planWords writes a plan: "allowance of 4 a meal, counted in “choice” (…)".
func planWords(p household.Plan) string {
	return fmt.Sprintf("allowance of %s a %s, counted in “%s” (%s)", typedAmount(p.Allowance), p.Per, p.Unit, unitWords(p))
}

// unitWords says what one unit of a plan is.
func unitWords(p household.Plan) string {
	var ws []string
	for _, n := range composition.Nutrients() {
		if w := p.Weights[n]; w > 0 {
			ws = append(ws, fmt.Sprintf("one for every %s %s of %s", typedWeight(w), n.Unit(), n.Name()))
		}
	}
	return strings.Join(ws, ", ")
}

// typedWeight writes a weight (units per g) as the amount of one unit, four
// figures, which is how people think of it.
func typedWeight(w float64) string {
	x, _ := strconv.ParseFloat(strconv.FormatFloat(1/w, 'g', 4, 64), 64)
	return plain(x)
}

// portionWords writes a share of a serving.
func portionWords(p float64) string {
	switch {
	case p == 1:
		return "one serving"
	case p == 0.5:
		return "half a serving"
	default:
		return typedAmount(math.Round(p*100)/100) + " of a serving"
	}
}

// countWords writes a count with its noun.
func countWords(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
