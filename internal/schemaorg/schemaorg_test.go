package schemaorg_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
	"potwright/internal/schemaorg"
)

var update = flag.Bool("update", false, "rewrite the golden texts")

// TestRecipesAsFoundInTheWild reads testdata/jsonld: each file shows a shape that
// pages really use, with invented content. "in" is what was pasted, "text" the
// recipe read from it, "lost" what is told to be left; "error" stands in their place
// where it can't be read. The comment says how many ingredients and steps a person
// counts.
func TestRecipesAsFoundInTheWild(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jsonld/*.txtar")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 30)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			a, err := txtar.ParseFile(file)
			require.NoError(t, err)
			in := string(a.Files[0].Data)
			in = strings.NewReplacer("␀BOM", "\ufeff", "␀TAB", "\t", "␀BELL", "\a").Replace(in)
			got := []txtar.File{a.Files[0]}
			found, ok, err := schemaorg.Read(in)
			switch {
			case err != nil:
				got = append(got, txtar.File{Name: "error", Data: []byte(err.Error() + "\n")})
			case ok:
				got = append(got, txtar.File{Name: "text", Data: []byte(strings.TrimRight(found.Text, "\n") + "\n")},
					txtar.File{Name: "lost", Data: []byte(strings.Join(append(found.Lost, ""), "\n"))})
			}
			if *update {
				require.NoError(t, os.WriteFile(file, txtar.Format(&txtar.Archive{Comment: a.Comment, Files: got}), 0o600))
			}
			assert.Equal(t, string(txtar.Format(&txtar.Archive{Files: a.Files})), string(txtar.Format(&txtar.Archive{Files: got})))
			if ok {
				counted(t, string(a.Comment), found.Text)
			}
		})
	}
}

// counted holds the text against what the comment says a person counts.
func counted(t *testing.T, comment, text string) {
	t.Helper()
	var lines, steps int
	words := strings.Fields(comment)
	for i, w := range words {
		switch {
		case strings.HasPrefix(w, "ingredient") && i > 0:
			lines = atoi(words[i-1])
		case strings.HasPrefix(w, "step") && i > 0:
			steps = atoi(words[i-1])
		}
	}
	if lines == 0 {
		return // there is nothing to read
	}
	r, err := recipe.Parse(text)
	require.NoError(t, err, text)
	assert.Len(t, r.Lines, lines, text)
	assert.Len(t, r.Steps, steps, text)
}

func atoi(s string) (n int) {
	for _, c := range s {
		if c >= '0' && c <= '9' {
			n = 10*n + int(c-'0')
		}
	}
	return n
}

// schema.org/Recipe, HowToSection and HowToStep; @graph and lists of types are
// JSON-LD 1.1 (W3C Recommendation, 2020).
func TestAPageWithARecipeInItsMarkupIsReadAsThatRecipe(t *testing.T) {
	page, err := os.ReadFile("../../testdata/jsonld/page.html")
	require.NoError(t, err)
	found, ok, err := schemaorg.Read(string(page))
	require.NoError(t, err)
	require.True(t, ok)
	r, err := recipe.Parse(found.Text)
	require.NoError(t, err)
	assert.Equal(t, "Lamp-lit bean soup & greens", r.Title)
	assert.InDelta(t, 6, r.Servings, 0)
	require.Len(t, r.Lines, 4)
	assert.Equal(t, "1½ tsp salt", r.Lines[2].Reading.Text)
	assert.Equal(t, "2 cups chopped kale", r.Lines[3].Reading.Text)
	require.Len(t, r.Steps, 2)
	assert.Equal(t, "Stir in the kale & cook 5 minutes.", r.Steps[1].Text)
	assert.NotContains(t, found.Text, "9 mg", "what a page claims of nutrition is not taken over")
	assert.Contains(t, strings.Join(found.Lost, "\n"), "the page's nutrition figures: they are computed afresh")
}

func TestFormsOfYield(t *testing.T) {
	for yield, want := range map[string]float64{
		`4`: 4, `"4"`: 4, `"Serves 8"`: 8, `"6 servings"`: 6, `["6","6 servings"]`: 6, `["", "3 portions"]`: 3, `"4 to 6"`: 5,
		`{"@type":"QuantitativeValue","value":12,"unitText":"muffins"}`: 12,
	} {
		found, ok, err := schemaorg.Read(`{"@type":"Recipe","name":"A","recipeYield":` + yield + `,"recipeIngredient":["1 cup milk"],"recipeInstructions":"Warm it."}`)
		require.NoError(t, err)
		require.True(t, ok)
		r, err := recipe.Parse(found.Text)
		require.NoError(t, err, found.Text)
		assert.InDelta(t, want, r.Servings, 0, yield)
	}
}

func TestWhatHoldsNoRecipeIsLeftAsItIs(t *testing.T) {
	for _, in := range []string{"", "1 cup milk", "{", `{"@type":"Person"}`, "<html><body>1 cup milk</body></html>", "[[[[", `<script type="application/ld+json">{broken</script>`} {
		_, ok, err := schemaorg.Read(in)
		assert.False(t, ok, in)
		assert.NoError(t, err, in)
	}
}

func FuzzRead(f *testing.F) {
	f.Add(`{"@type":"Recipe","recipeIngredient":["1 cup milk"],"recipeInstructions":[{"itemListElement":[{}]}]}`)
	f.Add(`<script type="application/ld+json">{"@graph":[{"@type":["Recipe"]}]}</script>`)
	f.Add(`{"@type":"Recipe",/* c */"prepTime":"PT5M","recipeIngredient":[["a",],],}`)
	f.Fuzz(func(t *testing.T, in string) {
		found, ok, err := schemaorg.Read(in)
		if ok && (err != nil || found.Text == "") {
			t.Fatalf("found %q, %v", found.Text, err)
		}
	})
}
