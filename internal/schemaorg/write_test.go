package schemaorg_test

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
	"potwright/internal/schemaorg"
	"potwright/internal/testkit"
)

func analysis(t *testing.T, text string) kitchen.Analysis {
	t.Helper()
	a, err := testkit.Kitchen(t).Read(text, nil, nil)
	require.NoError(t, err)
	return a
}

// schema.org/Recipe, NutritionInformation ("calories: Energy", the others Mass as
// "number unit"), HowToSection; ISO 8601 durations.
func TestWriteIsStrict(t *testing.T) {
	a := analysis(t, "Pea & <b>pod</b> soup\nServes 4\nPrep time: 20 minutes\nCook time: 1 hour 15 min\nTotal time: about an hour\n\nIngredients\n2 cups frozen green peas\n\nFor the top:\n1 tbsp butter\n\nMethod\nBoil the peas in water for 10 minutes.\n\nTo finish:\nStir in the butter and serve it hot.\n")
	var b bytes.Buffer
	lost, err := schemaorg.Write(&b, a)
	require.NoError(t, err)
	assert.NotContains(t, b.String(), "<b>", "it may stand in a page")
	var d map[string]any
	require.NoError(t, json.Unmarshal(b.Bytes(), &d))
	assert.Equal(t, "https://schema.org", d["@context"])
	assert.Equal(t, "Recipe", d["@type"])
	assert.Equal(t, "Pea & <b>pod</b> soup", d["name"])
	assert.Equal(t, "Serves 4", d["recipeYield"])
	assert.Equal(t, "PT20M", d["prepTime"])
	assert.Equal(t, "PT1H15M", d["cookTime"])
	assert.Nil(t, d["totalTime"], "about an hour is no duration")
	assert.Equal(t, []any{"2 cups frozen green peas", "1 tbsp butter"}, d["recipeIngredient"])
	assert.Equal(t, []any{
		map[string]any{"@type": "HowToStep", "text": "Boil the peas in water for 10 minutes."},
		map[string]any{"@type": "HowToSection", "name": "To finish", "itemListElement": []any{
			map[string]any{"@type": "HowToStep", "text": "Stir in the butter and serve it hot."}}},
	}, d["recipeInstructions"])
	nutrition, ok := d["nutrition"].(map[string]any)
	require.True(t, ok)
	assert.Equal(t, "NutritionInformation", nutrition["@type"])
	assert.Regexp(t, regexp.MustCompile(`^\d+ calories$`), nutrition["calories"])
	for _, property := range []string{"fatContent", "saturatedFatContent", "carbohydrateContent", "proteinContent", "fiberContent"} {
		assert.Regexp(t, regexp.MustCompile(`^\d+(\.\d+)? g$`), nutrition[property], property)
	}
	assert.Regexp(t, regexp.MustCompile(`^\d+ mg$`), nutrition["sodiumContent"])
	told := strings.Join(lost, "\n")
	assert.Contains(t, told, "headings over groups of ingredients")
	assert.Contains(t, told, "notes stand in the property text alone")
	assert.Contains(t, told, "without their ranges")
}

func TestWhatIsNotFullyKnownIsNotWrittenAsLess(t *testing.T) {
	var b bytes.Buffer
	lost, err := schemaorg.Write(&b, analysis(t, "Odd soup\nServes 2\n\nIngredients\n1 cup milk\n1 cup moonroot\n"))
	require.NoError(t, err)
	assert.NotContains(t, b.String(), "nutrition")
	assert.Contains(t, strings.Join(lost, "\n"), "not fully known, so left out: energy")
}
