package cli_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/api"
	"potwright/internal/archive"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/schemaorg"
	"potwright/internal/server"
	"potwright/internal/testkit"
)

// publishedTexts are some 600 recipes of USDA MyPlate Kitchen, NIH/NHLBI and state
// extension services as plain text.
func publishedTexts(t *testing.T) (texts []string) {
	t.Helper()
	for _, file := range []string{"recipes_with_methods.json", "recipes_panels.json"} {
		b, err := os.ReadFile(testkit.Shared(t, filepath.Join("validation", file)))
		require.NoError(t, err)
		var list []struct {
			Title              string
			Servings           float64
			Ingredients, Steps []string
		}
		require.NoError(t, json.Unmarshal(b, &list))
		for _, r := range list {
			text := fmt.Sprintf("%s\nServes %g\nIngredients\n%s\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n"))
			if len(r.Steps) > 0 {
				text += "Method\n\n" + strings.Join(r.Steps, "\n\n") + "\n"
			}
			texts = append(texts, text)
		}
	}
	require.Greater(t, len(texts), 500)
	return texts
}

// bare is a recipe without the places of its words in a text.
func bare(r recipe.Recipe) (title string, servings float64, lines, steps []string) {
	for _, l := range r.Lines {
		lines = append(lines, l.Section+"|"+l.Reading.Text)
	}
	for _, s := range r.Steps {
		steps = append(steps, s.Section+"|"+s.Text)
	}
	return r.Title, r.Servings, lines, steps
}

func TestPublishedRecipesComeBackEqual(t *testing.T) {
	k := testkit.Kitchen(t)
	texts := publishedTexts(t)
	held := kitchen.Holdings{Household: household.Household{Name: "H"}}
	bySchemaAlone := 0
	for _, text := range texts {
		a, err := k.Read(text, nil, nil)
		require.NoError(t, err)
		var b bytes.Buffer
		_, err = schemaorg.Write(&b, a)
		require.NoError(t, err)
		found, ok, err := schemaorg.Read(b.String())
		require.NoError(t, err)
		require.True(t, ok)
		assert.Equal(t, text, found.Text, "letter by letter")
		if sameWithoutText(t, b.Bytes(), a.Recipe) {
			bySchemaAlone++
		}
		held.Recipes = append(held.Recipes, kitchen.HeldRecipe{Title: a.Recipe.Title, CreatedAt: testkit.Now(),
			Versions: []recipe.Version{{ID: 1, Number: 1, SavedAt: testkit.Now(), Text: text}}})
	}
	t.Logf("JSON-LD: all %d the same; %d also without the property text", len(texts), bySchemaAlone)
	assert.GreaterOrEqual(t, bySchemaAlone, len(texts)*98/100)

	var b bytes.Buffer
	require.NoError(t, archive.Write(t.Context(), &b, []kitchen.Holdings{held}, time.Now()))
	back, err := archive.Read(bytes.NewReader(b.Bytes()), int64(b.Len()), archive.WholeLimits())
	require.NoError(t, err)
	assert.Equal(t, []kitchen.Holdings{held}, []kitchen.Holdings{testkit.WithFiles(t, back.Households[0])})
	t.Logf("archive: all %d the same, %d kB", len(texts), b.Len()>>10)
}

// Through the JSON door of a server: each recipe is saved, read back and exported by it,
// and all of them leave and come back as an archive over HTTP. One in twelve where
// POTWRIGHT_ROUNDTRIPS is not "all".
func TestPublishedRecipesComeBackEqualOverTheDoor(t *testing.T) {
	texts := publishedTexts(t)
	if os.Getenv("POTWRIGHT_ROUNDTRIPS") != "all" {
		texts = slices.Collect(func(yield func(string) bool) {
			for i := 0; i < len(texts) && yield(texts[i]); i += 12 {
			}
		})
	}
	k := newKept(t, false)
	client, err := api.NewClient(api.Address{URL: k.url, Timeout: time.Minute}, server.Formats{Asked: true})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, client.Close()) })
	house, err := client.CreateHousehold(t.Context(), household.Household{Name: "Published"})
	require.NoError(t, err)
	for _, text := range texts {
		want, err := recipe.Parse(text)
		require.NoError(t, err)
		v, err := client.CreateRecipe(t.Context(), house.ID, "", recipe.Version{Text: text})
		require.NoError(t, err, text)
		got, err := client.FindVersion(t.Context(), house.ID, v.ID)
		require.NoError(t, err)
		assert.Equal(t, text, got.Text, "letter by letter")
		here := fmt.Sprintf("%s/api/v1/households/%d/versions/%d/", k.url, house.ID, v.ID)
		found, ok, err := schemaorg.Read(body(t, here+"jsonld"))
		require.NoError(t, err)
		require.True(t, ok)
		assert.Equal(t, text, found.Text)
		plain, err := recipe.Parse(body(t, here+"text"))
		require.NoError(t, err)
		title, servings, lines, steps := bare(want)
		title2, servings2, lines2, steps2 := bare(plain)
		assert.Equal(t, []any{title, servings, lines, steps}, []any{title2, servings2, lines2, steps2}, "as plain text")
	}
	all, err := client.Holdings(t.Context(), house.ID)
	require.NoError(t, err)
	require.Len(t, all.Recipes, len(texts))
	all.Household.Name = "Come back"
	saved, err := client.TakeHoldings(t.Context(), []kitchen.Holdings{all})
	require.NoError(t, err)
	back, err := client.Holdings(t.Context(), saved[0].ID)
	require.NoError(t, err)
	for i := range all.Recipes {
		assert.Equal(t, all.Recipes[i].Title, back.Recipes[i].Title)
		assert.Equal(t, all.Recipes[i].Versions[0].Text, back.Recipes[i].Versions[0].Text)
		assert.Equal(t, all.Recipes[i].Versions[0].PanelJSON, back.Recipes[i].Versions[0].PanelJSON)
	}
	t.Logf("JSON door: all %d the same", len(texts))
}

// body is what an address answers with.
func body(t *testing.T, address string) string {
	t.Helper()
	resp, err := http.Get(address)
	require.NoError(t, err)
	defer resp.Body.Close()
	b, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, resp.StatusCode, string(b))
	return string(b)
}

// sameWithoutText reads the document as another program would have written it.
func sameWithoutText(t *testing.T, document []byte, want recipe.Recipe) bool {
	t.Helper()
	var doc map[string]any
	require.NoError(t, json.Unmarshal(document, &doc))
	delete(doc, "text")
	b, err := json.Marshal(doc)
	require.NoError(t, err)
	found, ok, err := schemaorg.Read(string(b))
	require.NoError(t, err)
	require.True(t, ok)
	got, err := recipe.Parse(found.Text)
	if err != nil {
		t.Log(err, found.Text)
		return false
	}
	t1, s1, l1, m1 := bare(want)
	t2, s2, l2, m2 := bare(got)
	same := t1 == t2 && s1 == s2 && assert.ObjectsAreEqual(l1, l2) && assert.ObjectsAreEqual(m1, m2)
	if !same {
		t.Logf("differs without text: %s\n%q\n%q\n%q\n%q", t1, l1, l2, m1, m2)
	}
	return same
}
