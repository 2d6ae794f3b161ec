package shopping

import (
	"math"
	"slices"

	"potwright/internal/foodmatch"
	"potwright/internal/label"
	"potwright/internal/measure"
)

// pouredKinds are the kinds of food whose packages tell a volume (in the US the
// declaration of net quantity of a liquid, 21 CFR 101.7). What of them is dried is
// sold by weight.
var pouredKinds = []string{"broth", "milk", "plant_milk", "buttermilk", "evaporated_milk", "half_and_half", "cream", "coconut_milk",
	"fruit_juice", "citrus_juice", "vegetable_juice", "wine", "beer", "spirit", "vinegar", "soy_sauce", "oil", "coffee", "tea", "soft_drink"}

// driedStates are states in which such a food is no liquid.
var driedStates = []string{"dried", "powder", "instant", "frozen concentrate"}

// spoonfuls is the volume, ml, up to which spoons say enough: a quarter cup.
const spoonfuls = 60

// poured is how many millilitres an item is, by the food table's own measure; ok is
// false where it is not sold by volume or its measure is not known.
func poured(g *gathered) (ml float64, ok bool) {
	f := g.item.Food
	if f == nil || !slices.ContainsFunc(pouredKinds, f.HasKind) || slices.ContainsFunc(driedStates, f.HasState) {
		return 0, false
	}
	perML := foodmatch.GramsPerMillilitre(f)
	if perML <= 0 {
		return 0, false
	}
	return g.weighed.Mid / perML, true
}

// volumeText is a volume as packages tell it, rounded up; "" where there is none.
func volumeText(ml float64, w Weights) string {
	up := func(x, step float64) string { return label.Figure(math.Max(1, math.Ceil(x/step-nearStep)) * step) }
	switch ounce, _ := measure.FindUnit("fl oz"); {
	case ml < 0.5:
		return ""
	case w == Pounds:
		return up(ml/ounce.Size, 1) + " fl oz"
	case ml >= 1000:
		return up(ml/1000, 0.1) + " l"
	default:
		return up(ml, 10) + " ml"
	}
}
