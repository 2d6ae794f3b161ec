package label

import (
	"math"

	"potwright/internal/composition"
	"potwright/internal/spread"
)

// dailyValue gives the daily value for adults in the nutrient's unit, and the
// kind of value it is: a reference value (DRV, 21 CFR 101.9(c)(9)) or a
// recommended intake (RDI, (c)(8)(iv)); text of 2016. Folate is left out: its
// value counts dietary folate equivalents.
func dailyValue(n composition.Nutrient) (value float64, reference, ok bool) {
	switch n {
	case composition.Fat:
		return 78, true, true
	case composition.SaturatedFat:
		return 20, true, true
	case composition.Cholesterol:
		return 300, true, true
	case composition.Sodium:
		return 2300, true, true
	case composition.Carbohydrate:
		return 275, true, true
	case composition.Fibre:
		return 28, true, true
	case composition.AddedSugars:
		return 50, true, true
	case composition.VitaminD:
		return 20, false, true
	case composition.Calcium:
		return 1300, false, true
	case composition.Iron:
		return 18, false, true
	case composition.Potassium:
		return 4700, false, true
	case composition.Phosphorus: // this and the rest of the table from memory
		return 1250, false, true
	case composition.Magnesium:
		return 420, false, true
	case composition.VitaminC:
		return 90, false, true
	case composition.VitaminK:
		return 120, false, true
	default:
		return 0, false, false
	}
}

// DailyRule names the rule that DailyPercent follows, for pages to show.
const DailyRule = "US 21 CFR 101.9(c)(8), (c)(9) and (d)(7)(ii)"

// DailyPercent gives the percentage of the daily value that a label declares
// for x, in the nutrient's unit: to 1 % where a DRV exists (21 CFR
// 101.9(d)(7)(ii)), else to 2, 5 or 10 % with 0 below 2 % ((c)(8)(iii)). It is
// false where the nutrient has no daily value here or x is not a known amount.
func DailyPercent(n composition.Nutrient, x float64) (percent float64, ok bool) {
	value, reference, ok := dailyValue(n)
	if !ok || math.IsNaN(x) || math.IsInf(x, 0) || x < 0 {
		return 0, false
	}
	share := 100 * x / value
	switch {
	case reference:
		return Nearest(share, 1), true
	case share+slack < 2:
		return 0, true
	case share <= 10+slack:
		return Nearest(share, 2), true
	case share <= 50+slack:
		return Nearest(share, 5), true
	default:
		return Nearest(share, 10), true
	}
}

// PrintedPercent gives the true amounts, in the nutrient's unit, that a printed
// percentage of the daily value stands for: calcium 20 % is 17.5 to 22.5 % of
// 1,300 mg. It is false for a nutrient without a daily value and for a percentage
// that DailyPercent never gives.
func PrintedPercent(n composition.Nutrient, percent float64) (amount spread.Range, ok bool) {
	value, _, ok := dailyValue(n)
	if !ok {
		return spread.Range{}, false
	}
	rounded := func(x float64) float64 {
		p, _ := DailyPercent(n, x)
		return p
	}
	return invert(rounded, percent, value*(percent+20)/50)
}
