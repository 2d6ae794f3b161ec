package schemaorg_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
	"potwright/internal/schemaorg"
)

// schema.org/Recipe, HowToSection and HowToStep; @graph and lists of types are
// JSON-LD 1.1 (W3C Recommendation, 2020).
func TestAPageWithARecipeInItsMarkupIsReadAsThatRecipe(t *testing.T) {
	page, err := os.ReadFile("../../testdata/jsonld/page.html")
	require.NoError(t, err)
	text, ok := schemaorg.Plain(string(page))
	require.True(t, ok)
	r, err := recipe.Parse(text)
	require.NoError(t, err)
	assert.Equal(t, "Lamp-lit bean soup & greens", r.Title)
	assert.InDelta(t, 6, r.Servings, 0)
	require.Len(t, r.Lines, 4)
	assert.Equal(t, "1½ tsp salt", r.Lines[2].Reading.Text)
	assert.Equal(t, "2 cups chopped kale", r.Lines[3].Reading.Text)
	require.Len(t, r.Steps, 2)
	assert.Equal(t, "Stir in the kale & cook 5 minutes.", r.Steps[1].Text)
	assert.NotContains(t, text, "9 mg", "what a page claims of nutrition is not taken over")
}

func TestFormsOfYieldAndInstructions(t *testing.T) {
	for doc, want := range map[string]struct {
		servings float64
		steps    int
	}{
		`{"@type":"Recipe","name":"A","recipeYield":4,"recipeIngredient":["1 cup milk"],"recipeInstructions":"Warm it.\nServe."}`:                                                                                             {4, 2},
		`[{"@type":"https://schema.org/Recipe","name":"A","recipeYield":"Serves 8","recipeIngredient":"1 cup milk","recipeInstructions":["Warm it."]}]`:                                                                       {8, 1},
		`{"@type":"Recipe","name":"A","recipeYield":{"@type":"QuantitativeValue","value":12,"unitText":"muffins"},"ingredients":["1 cup milk"],"recipeInstructions":{"@type":"ItemList","itemListElement":["Mix.","Bake."]}}`: {12, 2},
		`{"@type":"WebPage","mainEntity":{"@type":"Recipe","name":"A","recipeYield":"6 servings","recipeIngredient":["1 cup milk"],"recipeInstructions":[{"@type":"HowToStep","name":"Warm it."}]}}`:                          {6, 1},
	} {
		text, ok := schemaorg.Plain(doc)
		require.True(t, ok, doc)
		r, err := recipe.Parse(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want.servings, r.Servings, 0, text)
		assert.Len(t, r.Steps, want.steps, text)
	}
}

func TestWhatHoldsNoRecipeIsLeftAsItIs(t *testing.T) {
	for _, in := range []string{"", "1 cup milk", "{", `{"@type":"Person"}`, "<html><body>1 cup milk</body></html>", "[[[[", `<script type="application/ld+json">{broken</script>`} {
		text, ok := schemaorg.Plain(in)
		assert.False(t, ok, in)
		assert.Equal(t, in, text)
	}
}

func FuzzPlain(f *testing.F) {
	f.Add(`{"@type":"Recipe","recipeIngredient":["1 cup milk"],"recipeInstructions":[{"itemListElement":[{}]}]}`)
	f.Add(`<script type="application/ld+json">{"@graph":[{"@type":["Recipe"]}]}</script>`)
	f.Fuzz(func(t *testing.T, in string) {
		text, ok := schemaorg.Plain(in)
		if !ok && text != in {
			t.Fatalf("input without a recipe was changed: %q", in)
		}
	})
}
