package recipe_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
)

func TestMarkdown(t *testing.T) {
	r, err := recipe.Parse("Two-step *stew*\nServes 4\nPrep time: 5 minutes\n\nIngredients\n2 cups water\nFor the top:\n1 cup oats [rolled]\n\nMethod\n1. Boil the water.\n2. Scatter the oats over it & serve.\n")
	require.NoError(t, err)
	assert.Equal(t, `# Two-step \*stew\*

Serves 4

## Ingredients

- 2 cups water

### For the top

- 1 cup oats \[rolled\]

## Method

1. Boil the water.
2. Scatter the oats over it \& serve.

## Notes

- Prep time: 5 minutes
`, recipe.Markdown(r))
}
