package ingredient_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"potwright/internal/ingredient"
)

func TestEveryAmountOfALineIsScaledAndItsWordsStay(t *testing.T) {
	for _, c := range []struct {
		line string
		k    float64
		want string
	}{
		{"1 cup milk", 2, "2 cups milk"},
		{"2 cups flour, sifted", 0.5, "1 cup flour, sifted"},
		{"1 tbsp olive oil, divided", 4, "4 tbsp olive oil, divided"},
		{"1 cup broth", 1.0 / 8, "2 tbsp broth"},
		{"1 tablespoon soy sauce", 0.5, "1 1/2 tsp soy sauce"},
		{"2 (15 oz) cans kidney beans", 1.5, "3 (15 oz) cans kidney beans"},
		{"1 (14.5 oz) can diced tomatoes, drained", 2, "2 (14.5 oz) cans diced tomatoes, drained"},
		{"2 x 400 g cans tomatoes", 0.5, "1 x 400 g can tomatoes"},
		{"14.5 oz can tomatoes", 2, "2 cans (14 1/2 oz) tomatoes"},
		{"1 lb (about 3 medium) potatoes", 2, "2 lb (about 6 medium) potatoes"},
		{"1 cup (240 ml) milk", 1.5, "1 1/2 cups (360 ml) milk"},
		{"3 carrots (about 1/2 pound), sliced", 2, "6 carrots (about 1 lb), sliced"},
		{"1 cup plus 2 tablespoons flour", 2, "2 1/4 cups flour"},
		{"1 1/2 to 2 cups water", 2, "3 to 4 cups water"},
		{"1 cup milk or 3/4 cup cream", 2, "2 cups milk or 1 1/2 cups cream"},
		{"1 large onion, chopped", 2, "2 large onions, chopped"},
		{"2 tablespoons butter, plus more for greasing", 2, "4 tbsp butter, plus more for greasing"},
		{"2 cloves garlic, cut into 1/4 inch slices", 3, "6 cloves garlic, cut into 1/4 inch slices"},
		{"1 teaspoon each salt and pepper", 2, "2 tsp each salt and pepper"},
		{"250g flour", 3, "750 g flour"},
		{"1 1/2 tsp cinnamon, 1/4 tsp nutmeg", 2, "3 tsp cinnamon, 1/2 tsp nutmeg"},
		{"1 l water + 2 stock cubes", 2, "2 l water + 4 stock cubes"},
		{"800 g potatoes", 2.5, "2000 g potatoes"},
		{"Juice of 1 lemon", 2, "Juice of 2 lemons"},
		{"small onion, chopped", 2, "2 small onions, chopped"},
		{"large clove of garlic", 3, "3 large cloves of garlic"},
		{"small bunch coriander", 2, "2 small bunches coriander"},
		{"thumb-sized piece of ginger, grated", 2, "about 2 knobs of ginger, grated"},
		{"heaped tablespoon flour", 2, "about 2 heaped tbsp flour"},
		{"4 large eggs", 0.25, "1 large egg"},
		{"2 potatoes", 0.5, "1 potato"},
		{"salt to taste", 7, "salt to taste"},
		{"oil for frying", 2, "oil for frying"},
	} {
		got, ok := ingredient.Scaled(ingredient.Read(c.line), c.k)
		assert.True(t, ok, c.line)
		assert.Equal(t, c.want, got)
	}
}

func TestAnAmountTooSmallToMeasureIsLeftAndSaid(t *testing.T) {
	text, ok := ingredient.Scaled(ingredient.Read("1 pinch saffron"), 0.1)
	assert.False(t, ok)
	assert.Equal(t, "1 pinch saffron", text)
}

func TestAScaledLineReadAfreshIsTheLineTimesTheFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		amount := rapid.SampledFrom([]string{"1", "2", "1/2", "1 1/3", "3/4", "2 to 3", "about 4", "12", "0.5"}).Draw(t, "amount")
		unit := rapid.SampledFrom([]string{"cup", "cups", "tbsp", "teaspoons", "g", "ml", "kg", "lb", "oz", "", "cloves", "(400 g) cans", "stalks", "quart"}).Draw(t, "unit")
		food := rapid.SampledFrom([]string{"flour", "chicken broth", "garlic", "diced tomatoes, drained", "butter, melted", "onions"}).Draw(t, "food")
		k := rapid.Float64Range(0.2, 12).Draw(t, "k")
		was := ingredient.Read(amount + " " + unit + " " + food)
		text, ok := ingredient.Scaled(was, k)
		if !ok {
			assert.Equal(t, was.Text, text)
			return
		}
		got := ingredient.Read(text)
		assert.Equal(t, strings.TrimSuffix(was.Food, "s"), strings.TrimSuffix(got.Food, "s"), text)
		assert.Equal(t, was.Amount.Unit.Kind, got.Amount.Unit.Kind, text)
		of := func(r ingredient.Reading) float64 {
			return r.Amount.Quantity.Mid() * math.Max(r.Amount.Unit.Size, 1e-9)
		}
		assert.InEpsilon(t, k*of(was), of(got), 0.35+1e-9, "%q times %v is %q", was.Text, k, text)
	})
}
