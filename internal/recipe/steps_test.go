package recipe_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
)

func TestStepsWithoutNumbersOrFullStops(t *testing.T) {
	for name, c := range map[string]struct {
		method string
		want   []string
	}{
		"each line is a step": {
			"Heat oven to 350 F\nBeat sugar, oil and eggs\nSpices next, about 15 seconds\nBake 1 hour",
			[]string{"Heat oven to 350 F", "Beat sugar, oil and eggs", "Spices next, about 15 seconds", "Bake 1 hour"},
		},
		"a line that ends in the middle goes on": {
			"Beat sugar, oil and\nEggs until white\nPour into a\nDutch oven",
			[]string{"Beat sugar, oil and Eggs until white", "Pour into a Dutch oven"},
		},
		"sentences over the ends of lines are joined": {
			"Heat the oven to 350\nF and beat the sugar with\nthe oil, then grate the\nParmesan over it\nBake 1 hour",
			[]string{"Heat the oven to 350 F and beat the sugar with the oil, then grate the Parmesan over it", "Bake 1 hour"},
		},
		"numbers rule": {
			"1. Heat the oven\nBeat the eggs\n2. Bake",
			[]string{"Heat the oven Beat the eggs", "Bake"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			r, err := recipe.Parse("Cake\nIngredients\n1 cup sugar\n2 eggs\nMethod\n" + c.method + "\n")
			require.NoError(t, err)
			var got []string
			for _, s := range r.Steps {
				got = append(got, s.Text)
			}
			assert.Equal(t, c.want, got)
			again, err := recipe.Parse(recipe.Text(r))
			require.NoError(t, err)
			assert.Equal(t, r.Steps, again.Steps)
		})
	}
}
