package composition

// pureSpread is the relative standard deviation of what a substance is made of:
// salt is sodium chloride whoever sells it. Moisture and additives only; from
// memory.
const pureSpread = 0.01

// IsPure reports whether the food is one substance as far as the nutrient goes,
// the same whoever sells it: the sodium of salt, the carbohydrate of sugar and
// starch, the fat of oil. Blends and spreads are not. A content with bounds of its
// own is as sure as that: it is this very product's.
func (f *Food) IsPure(n Nutrient) bool {
	if f.Nutrients[n].Bounded {
		return true
	}
	switch n {
	case Sodium:
		return f.HasKind("salt") && !f.HasKind("spice_blend_salted") && !f.HasKind("potassium_salt")
	case Carbohydrate, Sugars, AddedSugars:
		return f.HasKind("sugar") || f.HasKind("starch") && !f.HasKind("thickener")
	case Fat:
		return f.isOil()
	case Energy:
		return f.isOil() || f.IsPure(Carbohydrate)
	default:
		return false
	}
}

func (f *Food) isOil() bool {
	return f.HasKind("oil") && !f.HasKind("margarine") && !f.HasKind("salad_dressing") && !f.HasKind("mayonnaise")
}

// usualSpread is the relative standard deviation between samples of a nutrient
// in a food, used where its row has none of its own. Medians of SD/mean over
// USDA SR28 rows with n >= 3, by food group.
func usualSpread(f *Food, n Nutrient) float64 {
	if f.IsPure(n) {
		return pureSpread
	}
	if n == Sodium {
		if s, ok := sodiumSpread[f.Group]; ok {
			return s
		}
		return 0.28
	}
	return otherSpread[n]
}

var sodiumSpread = map[Group]float64{
	"0100": 0.09, "1800": 0.09, "1300": 0.10, "0500": 0.14, "1500": 0.21,
	"1600": 0.21, "1100": 0.31, "0200": 0.45,
}

var otherSpread = [NutrientCount]float64{
	Energy: 0.05, Protein: 0.09, Fat: 0.22, SaturatedFat: 0.22, TransFat: 0.40,
	Cholesterol: 0.15, Carbohydrate: 0.08, Fibre: 0.14, Sugars: 0.20, AddedSugars: 0.25,
	Potassium: 0.14, Phosphorus: 0.12, Calcium: 0.15, Iron: 0.20, Magnesium: 0.12,
	VitaminC: 0.30, VitaminD: 0.30, VitaminK: 0.24, Folate: 0.25, Water: 0.02, Alcohol: 0.05,
}
