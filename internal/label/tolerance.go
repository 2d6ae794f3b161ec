package label

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// Tolerated gives the amounts, in the nutrient's unit, that a tested food may hold
// while its label declares the figure. figure is per serving under the US rule,
// per 100 g under the European one. It says what the law lets pass, not what is
// likely.
func Tolerated(r Rules, n composition.Nutrient, figure float64) spread.Range {
	if !(figure >= 0) || math.IsInf(figure, 0) {
		return spread.Range{}
	}
	if r == EU {
		down, up := toleratedEU(n, figure)
		return spread.Between(figure-down, figure, figure+up)
	}
	// 21 CFR 101.9(g)(4)-(6): vitamins, minerals, protein, fibre, carbohydrate and
	// potassium must reach 80 % of the label; energy, sugars, fats, cholesterol and
	// sodium must not pass 120 %. The other side of each is bounded by good practice
	// only; the same fifth is taken for it (a choice of ours).
	return spread.Between(0.8*figure, figure, 1.2*figure)
}

// toleratedEU is how far a food may fall below and rise above the figure per
// 100 g: guidance of December 2012, table 1, from memory. Energy, trans fat and
// cholesterol are not in it; a fifth is taken (a choice of ours).
func toleratedEU(n composition.Nutrient, figure float64) (down, up float64) {
	both := func(x float64) (float64, float64) { return x, x }
	switch n {
	case composition.Carbohydrate, composition.Sugars, composition.AddedSugars, composition.Protein, composition.Fibre:
		return both(stepped(figure, 10, 2))
	case composition.Fat:
		return both(stepped(figure, 10, 1.5))
	case composition.SaturatedFat:
		if figure < 4 {
			return both(0.8)
		}
		return both(0.2 * figure)
	case composition.Sodium:
		if figure < 500 {
			return both(150)
		}
		return both(0.2 * figure)
	case composition.VitaminC, composition.VitaminD, composition.VitaminK, composition.Folate:
		return 0.35 * figure, 0.5 * figure
	case composition.Potassium, composition.Phosphorus, composition.Calcium, composition.Iron, composition.Magnesium:
		return 0.35 * figure, 0.45 * figure
	default:
		return both(0.2 * figure)
	}
}

// stepped is a fixed amount below a figure of low g, a fifth up to 40 g, and 8 g
// above.
func stepped(figure, low, fixed float64) float64 {
	switch {
	case figure < low:
		return fixed
	case figure <= 40:
		return 0.2 * figure
	default:
		return 8
	}
}
