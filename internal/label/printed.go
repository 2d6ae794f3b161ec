package label

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// Rules is whose labelling rules a printed figure follows.
type Rules string

// The rules known here.
const (
	US Rules = "us" // 21 CFR 101.9, per serving
	EU Rules = "eu" // Regulation (EU) 1169/2011 and its guidance of 2012, per 100 g or 100 ml
)

// Source names the rounding rule, for pages to show.
func (r Rules) Source() string {
	if r == EU {
		return "EU guidance on tolerances and rounding, December 2012"
	}
	return Rule
}

// Printed gives the true amounts, in the nutrient's unit, that a label may
// declare as the figure: under the US rule sodium 140 mg stands for 137.5 to
// 145 mg. The middle is the centre of the range and the upper end itself is not
// reached. It is false for a figure that the rule never gives, such as sodium
// 143 mg.
func Printed(r Rules, n composition.Nutrient, figure float64) (amount spread.Range, ok bool) {
	round := Round
	if r == EU {
		round = RoundEU
	}
	amount, ok = invert(func(x float64) float64 { return round(n, x) }, figure, 2*figure+20)
	if ok && r != EU && n == composition.Energy && figure == 0 {
		return spread.Between(0, 2.5, 5), true // (c)(1): below 5 kcal may be declared as 0
	}
	return amount, ok
}

// invert finds the amounts from 0 to most that a rounding that never falls turns
// into the figure.
func invert(round func(float64) float64, figure, most float64) (spread.Range, bool) {
	if !(figure >= 0) || math.IsInf(most, 0) {
		return spread.Range{}, false
	}
	low := 0.0
	if figure > 0 {
		low = turn(most, func(x float64) bool { return round(x) > figure-slack*(1+figure) })
	}
	high := turn(most, func(x float64) bool { return round(x) > figure+slack*(1+figure) })
	if mid := (low + high) / 2; high-low < slack || math.Abs(round(mid)-figure) > slack*(1+figure) {
		return spread.Range{}, false
	}
	return spread.Between(tidy(low), (low+high)/2, tidy(high)), true
}

// turn finds where a condition that is false at 0 and true at most becomes true, to
// a millionth of a millionth of most.
func turn(most float64, reached func(float64) bool) float64 {
	low, high := 0.0, most
	for range 50 {
		if mid := (low + high) / 2; reached(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

// tidy takes the last digits of a search off an end.
func tidy(x float64) float64 { return Nearest(x, 1e-6) }
