package label

import (
	"math"

	"potwright/internal/composition"
)

// RoundEU gives the figure per 100 g or 100 ml that a European label would
// declare for x, in the nutrient's unit, by the Commission's guidance on
// tolerances and rounding of December 2012 (Regulation (EU) 1169/2011). Salt has
// a rule of its own: RoundSalt. Amounts below zero round like zero.
func RoundEU(n composition.Nutrient, x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return x
	}
	x = math.Max(0, x)
	switch n {
	case composition.Energy:
		return Nearest(x, 1)
	case composition.Fat, composition.Carbohydrate, composition.Sugars, composition.AddedSugars,
		composition.Protein, composition.Fibre:
		return grams(x, 0.5)
	case composition.SaturatedFat, composition.TransFat:
		return grams(x, 0.1)
	case composition.Sodium: // the guidance counts it in g; the steps are from memory
		return sodiumEU(x)
	default:
		return significant(x, digitsEU(n))
	}
}

// grams is the guidance's rule for amounts in g: to 1 g from 10 g, to 0.1 g below,
// and 0 up to the least.
func grams(x, least float64) float64 {
	switch {
	case x <= least+slack:
		return 0
	case x < 10:
		return Nearest(x, 0.1)
	default:
		return Nearest(x, 1)
	}
}

func sodiumEU(mg float64) float64 {
	switch {
	case mg <= 5+slack:
		return 0
	case mg < 1000:
		return Nearest(mg, 10)
	default:
		return Nearest(mg, 100)
	}
}

// digitsEU is how many significant figures a vitamin or mineral is declared with
// (the guidance of 2012, from memory).
func digitsEU(n composition.Nutrient) int {
	switch n {
	case composition.Calcium, composition.Phosphorus, composition.Magnesium, composition.Potassium, composition.Folate:
		return 3
	default:
		return 2
	}
}

func significant(x float64, digits int) float64 {
	if x <= 0 {
		return 0
	}
	return Nearest(x, math.Pow(10, math.Floor(math.Log10(x)+slack)-float64(digits-1)))
}
