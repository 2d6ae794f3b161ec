package ingredient_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// NIST Handbook 44, Appendix C: 1 lb is 16 oz, 1 oz is 28.349523125 g.
func TestPoundsAndOuncesAreOneWeight(t *testing.T) {
	for text, grams := range map[string]float64{
		"1 pound 4 ounces potatoes":         20 * 28.349523125,
		"1 lb 2 oz flour":                   18 * 28.349523125,
		"2 pounds 3 ounces beef":            35 * 28.349523125,
		"1 tablespoon plus 1 teaspoon salt": 4 * 4.92892159375,
	} {
		a := ingredient.Read(text).Amount
		assert.InDelta(t, grams, a.Quantity.Mid()*a.Unit.Size, 1e-9, text)
	}
}

func TestPoundsAndOuncesInParenthesesAreThePackSize(t *testing.T) {
	for _, text := range []string{
		"1 can hominy (1 lb. 13 ounce can)",
		"1 can hominy (1 lb 13 ounces)",
		"1 can (1 lb. 13 ounce) hominy",
	} {
		r := ingredient.Read(text)
		assert.True(t, r.HasContainer, text)
		assert.InDelta(t, 29*28.349523125, r.Container.Quantity.Mid()*r.Container.Unit.Size, 1e-9, text)
	}
}

func TestAMeasureOfWhatTheFoodIsWorkedWithIsNotItsOwn(t *testing.T) {
	for text, food := range map[string]string{
		"1 egg, beaten with 1 tbsp water":                   "egg",
		"1 egg beaten with 1 tablespoon milk":               "egg",
		"4 potatoes, boiled in 2 cups water":                "potatoes",
		"1 envelope gelatin softened in 1/4 cup cold water": "gelatin",
	} {
		r := ingredient.Read(text)
		assert.Equal(t, food, r.Food, text)
		assert.NotEqual(t, measure.Volume, r.Amount.Unit.Kind, text)
		assert.Empty(t, r.Other, text)
	}
}
