package usda

import "potwright/internal/composition"

// usdaNumber is the number of a nutrient in NUTR_DEF; added sugars have none.
var usdaNumber = map[composition.Nutrient]string{
	composition.Energy: "208", composition.Protein: "203", composition.Fat: "204",
	composition.SaturatedFat: "606", composition.TransFat: "605", composition.Cholesterol: "601",
	composition.Sodium: "307", composition.Carbohydrate: "205", composition.Fibre: "291",
	composition.Sugars: "269", composition.Potassium: "306", composition.Phosphorus: "305",
	composition.Calcium: "301", composition.Iron: "303", composition.Magnesium: "304",
	composition.VitaminC: "401", composition.VitaminD: "328", composition.VitaminK: "430",
	composition.Folate: "417", composition.Water: "255", composition.Alcohol: "221",
}

// NutrientNumber is the agency's number of a nutrient, the same in the Standard
// Reference and in FoodData Central; "" where it has none.
func NutrientNumber(n composition.Nutrient) string { return usdaNumber[n] }

// NutrientOf is the nutrient of the agency's number.
func NutrientOf(number string) (composition.Nutrient, bool) {
	for n, has := range usdaNumber {
		if has == number {
			return n, true
		}
	}
	return 0, false
}
