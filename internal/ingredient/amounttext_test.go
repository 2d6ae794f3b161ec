package ingredient_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/ingredient"
)

func TestTheAmountOfALineIsToldWithoutItsFood(t *testing.T) {
	for line, want := range map[string]string{
		"2 tablespoons butter":           "2 tbsp",
		"1 (14.5 oz) can diced tomatoes": "1 can of 14 1/2 oz",
		"1 large onion, diced":           "1 large",
		"salt to taste":                  "",
		"2 to 3 cloves garlic":           "2 to 3 cloves",
	} {
		assert.Equal(t, want, ingredient.AmountText(ingredient.Read(line)), line)
	}
}
