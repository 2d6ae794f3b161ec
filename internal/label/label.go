// Package label rounds amounts of nutrients for people to read, by the rule of
// the US nutrition label: 21 CFR 101.9(c), text of 2016. It is used at the edge
// only; nothing is computed from a rounded amount.
package label

import (
	"math"
	"strconv"
	"strings"

	"potwright/internal/composition"
)

// Rule names the rule that Round and Text follow, for pages to show.
const Rule = "US 21 CFR 101.9(c)"

// slack lets a sum of decimals that falls just short of a half in binary round
// up as it would on paper. It is a share of one step.
const slack = 1e-9

// Nearest rounds x half up to a multiple of step; a step of 0 or less leaves x
// alone. 101.9 names no tie rule; half up is what its own samples show.
func Nearest(x, step float64) float64 {
	if step <= 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	n := math.Floor(x/step + 0.5 + slack)
	if step < 1 {
		if per := math.Round(1 / step); math.Abs(per*step-1) < slack {
			return n / per // 3/10, not 3*0.1
		}
	}
	return n * step
}

// Round gives the figure that a label would declare for x, in the nutrient's
// unit. Where 101.9(c) leaves a choice the larger figure is taken. Amounts below
// zero round like zero.
func Round(n composition.Nutrient, x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	x = math.Max(0, x)
	if x+slack < least(n) {
		return 0
	}
	return math.Max(Nearest(x, Step(n, x)), firstStep(n))
}

// Step is the increment used at x, in the nutrient's unit.
func Step(n composition.Nutrient, x float64) float64 {
	switch n {
	case composition.Energy: // (c)(1)
		return pick(x <= 50, 5, 10)
	case composition.Fat, composition.SaturatedFat, composition.TransFat: // (c)(2)
		return pick(x < 5, 0.5, 1)
	case composition.Cholesterol: // (c)(3)
		return 5
	case composition.Sodium: // (c)(4)
		return pick(x <= 140, 5, 10)
	case composition.Iron, composition.VitaminD, composition.Alcohol:
		// FDA's suggestion for vitamins and minerals with a daily value below 25
		// (labelling questions and answers, 2019); alcohol is our own choice.
		return 0.1
	case composition.Potassium, composition.Phosphorus, composition.Calcium,
		composition.Magnesium, composition.Folate:
		return 10 // the same suggestion, daily value of 250 or more (from memory)
	default:
		// (c)(6) and (c)(7); vitamins C and K by FDA's suggestion for daily values
		// from 25 to 250; water is our own choice.
		return 1
	}
}

// least is the amount below which a label says 0.
func least(n composition.Nutrient) float64 {
	switch n {
	case composition.Fat, composition.SaturatedFat, composition.TransFat:
		return 0.5
	case composition.Cholesterol:
		return 2
	case composition.Sodium:
		return 5
	case composition.Protein, composition.Carbohydrate, composition.Fibre,
		composition.Sugars, composition.AddedSugars:
		return 0.5
	default:
		return 0
	}
}

// firstStep is the smallest figure other than 0: cholesterol from 2 to 5 mg is
// declared "less than 5 mg".
func firstStep(n composition.Nutrient) float64 {
	if n == composition.Cholesterol {
		return 5
	}
	return 0
}

// Text writes the rounded amount with its unit: "140 mg", "less than 1 g".
func Text(n composition.Nutrient, x float64) string {
	if bound, below := lessThan(n, x); below {
		return "less than " + Figure(bound) + " " + n.Unit()
	}
	return Figure(Round(n, x)) + " " + n.Unit()
}

// lessThan tells the amounts that a label declares as "less than".
func lessThan(n composition.Nutrient, x float64) (bound float64, below bool) {
	if x+slack < least(n) {
		return 0, false
	}
	switch n {
	case composition.Cholesterol:
		return 5, x < 5
	case composition.Protein, composition.Carbohydrate, composition.Fibre,
		composition.Sugars, composition.AddedSugars:
		return 1, x < 1
	default:
		return 0, false
	}
}

// Figure writes a number with thousands separated and at most three decimals,
// trailing zeros dropped: 1,240 and 0.5.
func Figure(x float64) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return "unknown"
	}
	s := strconv.FormatFloat(Nearest(math.Abs(x), 0.001), 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	whole, part, _ := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if part != "" {
		whole += "." + part
	}
	if x < 0 && s != "0" {
		whole = "-" + whole
	}
	return whole
}

func pick(first bool, a, b float64) float64 {
	if first {
		return a
	}
	return b
}
