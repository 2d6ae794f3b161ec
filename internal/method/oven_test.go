package method_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/method"
	"potwright/internal/recipe"
)

func TestWhichStepNeedsAnOven(t *testing.T) {
	for text, needs := range map[string]bool{
		"Heat the oven to 375 F.":                            true,
		"Bake 25 minutes until bubbling.":                    true,
		"Scatter the cheese over and bake until golden.":     true,
		"Place in a dish, then roast for an hour.":           true,
		"Broil until brown.":                                 true,
		"Brown the beef in a Dutch oven and simmer 2 hours.": false,
		"Stir in the baked beans.":                           false,
		"Add the roasted peppers and cook 5 minutes.":        false,
		"Warm it in the microwave oven.":                     false,
		"Serve with the roast beef.":                         false,
		"Spread in a baking dish and chill.":                 false,
		"Lift the lid off with oven mitts.":                  false,
	} {
		_, ok := method.NeedsOven([]recipe.Step{{Text: text}})
		assert.Equal(t, needs, ok, text)
	}
	step, _ := method.NeedsOven([]recipe.Step{{Text: "Boil the penne."}, {Text: "Bake it."}})
	assert.Equal(t, 1, step)
}
