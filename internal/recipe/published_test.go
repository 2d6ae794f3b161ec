package recipe_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
)

// published are recipes of US agencies, reference material beside the
// repository; without it the test is skipped.
func published(t *testing.T) []publishedRecipe {
	t.Helper()
	const name = "validation/recipes_with_methods.json"
	path := filepath.Join(os.Getenv("POTWRIGHT_SHARED"), name)
	for dir, _ := os.Getwd(); os.Getenv("POTWRIGHT_SHARED") == "" && dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "shared", name)); err == nil {
			path = filepath.Join(dir, "shared", name)
			break
		}
	}
	b, err := os.ReadFile(path)
	if err != nil {
		t.Skipf("no reference recipes: set POTWRIGHT_SHARED to the folder that holds %s", name)
	}
	var list []publishedRecipe
	require.NoError(t, json.Unmarshal(b, &list))
	return list
}

type publishedRecipe struct {
	Title       string   `json:"title"`
	Servings    float64  `json:"servings"`
	Ingredients []string `json:"ingredients"`
	Steps       []string `json:"steps"`
}

func TestPublishedRecipesAreReadInEveryLayout(t *testing.T) {
	layouts := map[string]func(publishedRecipe) string{
		"with headings and numbers": func(r publishedRecipe) string {
			text := fmt.Sprintf("%s\n\nServes %v\n\nIngredients\n\n%s\n\nMethod\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n"))
			for i, s := range r.Steps {
				text += fmt.Sprintf("%d. %s\n", i+1, s)
			}
			return text
		},
		"bullets, paragraphs": func(r publishedRecipe) string {
			return fmt.Sprintf("%s\nServings: %v\nINGREDIENTS:\n• %s\nDIRECTIONS:\n%s\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n• "), strings.Join(r.Steps, "\n\n"))
		},
		"no headings, numbered steps": func(r publishedRecipe) string {
			text := fmt.Sprintf("%s\nMakes %v servings\n\n%s\n\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n"))
			for i, s := range r.Steps {
				text += fmt.Sprintf("%d. %s.\n", i+1, s)
			}
			return text
		},
		"no headings, paragraphs": func(r publishedRecipe) string {
			return fmt.Sprintf("%s\r\n\r\n%s\r\n\r\n%s.\r\n", r.Title, strings.Join(r.Ingredients, "\r\n"), strings.Join(r.Steps, ".\r\n\r\n"))
		},
	}
	all, good := 0, 0
	for name, layout := range layouts {
		for _, p := range published(t) {
			all++
			r, err := recipe.Parse(layout(p))
			require.NoError(t, err, name)
			if len(r.Lines) == len(p.Ingredients) && len(r.Steps) == len(p.Steps) && r.Title == p.Title {
				good++
				continue
			}
			t.Logf("%s: %s: %d of %d lines, %d of %d steps, title %q", name, p.Title, len(r.Lines), len(p.Ingredients), len(r.Steps), len(p.Steps), r.Title)
		}
	}
	t.Logf("%d of %d read whole", good, all)
	require.GreaterOrEqual(t, float64(good), 0.98*float64(all))
}
