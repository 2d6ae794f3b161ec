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
		"1 beef stock cube, in 300ml boiling water":         "beef stock cube",
		"1 envelope gelatin softened in 1/4 cup cold water": "gelatin",
	} {
		r := ingredient.Read(text)
		assert.Equal(t, food, r.Food, text)
		assert.NotEqual(t, measure.Volume, r.Amount.Unit.Kind, text)
		assert.Empty(t, r.Other, text)
	}
}

func TestEachFoodOfALineKeepsItsOwnAmount(t *testing.T) {
	for text, want := range map[string]string{
		"1 1/2 tsp cinnamon, 1/4 tsp nutmeg":              "1 1/2 tsp cinnamon; 1/4 tsp nutmeg",
		"1 carrot; 1 parsnip; 1 stick of celery":          "1 carrot; 1 parsnip; 1 stick celery",
		"1 litre water + 2 stock cubes":                   "1 l water; 2 stock cubes",
		"2 cups water and 1 cup milk":                     "2 cups water; 1 cup milk",
		"1 egg plus 1 egg yolk":                           "1 egg; 1 egg yolk",
		"1 tsp salt, 1/2 tsp pepper, and 1/4 tsp cayenne": "1 tsp salt; 1/2 tsp pepper; 1/4 tsp cayenne",
		"1/2 cup each: flour, sugar":                      "1/2 cup flour; 1/2 cup sugar",
		"Toppings: 1 avocado, 1/2 cup salsa":              "1 avocado; 1/2 cup salsa",
		"Butter: 2 tbsp":                                  "2 tbsp butter",
		"1 cup rice, 2 1/2 cups water":                    "1 cup rice; 2 1/2 cups water",
		"2 tbsp butter + 1 tbsp for the dish":             "3 tbsp butter",
		"1 cup milk plus 2 tablespoons":                   "1 1/8 cups milk",
		"1 onion, 2 cups chopped":                         "1 onion",
		"1 lb carrots, 2 inches long":                     "1 lb carrots",
		"2 chicken breasts, 6 ounces each, pounded thin":  "2 chicken breasts",
		"12 shrimp, 3 per person":                         "12 shrimp",
		"1 large head garlic, about 12 cloves":            "1 head garlic",
	} {
		r := ingredient.Read(text)
		got := measure.Format(r.Amount.Quantity, r.Amount.Unit) + " " + r.Food
		for _, f := range r.Together {
			got += "; " + measure.Format(f.Amount.Quantity, f.Amount.Unit) + " " + f.Food
		}
		assert.Equal(t, want, got, text)
	}
}

func TestAListWithoutAmountsIsSeveralFoods(t *testing.T) {
	for text, want := range map[string][]string{
		"salt, pepper, sugar": {"salt", "pepper", "sugar"},
		"Sour cream, sliced scallions and tortilla chips for serving": {"sour cream", "scallions", "tortilla chips"},
	} {
		r := ingredient.Read(text)
		got := []string{r.Food}
		for _, f := range r.Together {
			got = append(got, f.Food)
		}
		assert.Equal(t, want, got, text)
	}
}

func TestWhatAnAsideTalksOfIsNoOtherFood(t *testing.T) {
	for text, want := range map[string][]string{
		"1 cup sour cream (or yogurt if you prefer)":                        {"yogurt"},
		"1 tsp hot chilli powder (or 1 level tbsp if you only have mild)":   nil,
		"3/4 cup sugar (or drop it down to 1/4 cup if you like it less so)": nil,
	} {
		var foods []string
		for _, a := range ingredient.Read(text).Alternatives {
			foods = append(foods, a.Food)
		}
		assert.Equal(t, want, foods, text)
	}
}

func TestTheShareOfFatTellsHowLeanMeatIs(t *testing.T) {
	for text, state := range map[string]string{
		"500g beef mince (5% fat)": "lean_95", "500g minced beef, 20% fat": "lean_80", "1 lb ground beef (93% lean)": "lean_93",
	} {
		assert.Contains(t, ingredient.Read(text).States, state, text)
	}
}
