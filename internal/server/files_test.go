package server_test

import (
	"bytes"
	"encoding/json"
	"mime/multipart"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// upload sends a file as a page's form does.
func (h *house) upload(path, field, name, content string) reply {
	h.t.Helper()
	var b bytes.Buffer
	form := multipart.NewWriter(&b)
	part, err := form.CreateFormFile(field, name)
	require.NoError(h.t, err)
	_, err = part.Write([]byte(content))
	require.NoError(h.t, err)
	require.NoError(h.t, form.Close())
	return h.ask(http.MethodPost, path, form.FormDataContentType(), b.String())
}

func TestARecipeGoesToAnotherHouseholdWithoutLosingAnything(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/pantry/new", "name", "quay broth", "panel", "us", "serving", "1 cup (240 g)", "f_sodium_mg", "140")
	h.must(dish+"/lines/4", "food", "own:1", "grams", "480")
	h.must(dish+"/lines/3", "food", "sr:16029", "remember", "yes")
	other, _, _ := strings.Cut(h.must("/", "name", "Mill Row"), "/people")

	file := h.get(dish + "/file")
	require.Equal(t, http.StatusOK, file.StatusCode)
	assert.Equal(t, "application/zip", file.Header.Get("Content-Type"))
	r := h.upload(other+"/recipes/file", "file", "recipe-1.zip", file.body)
	require.Equal(t, http.StatusSeeOther, r.StatusCode, alertOf(t, r.body))
	taken := r.Header.Get("Location")
	assert.Contains(t, h.get(taken).body, "with all its versions")

	was, err := h.store.ListVersions(t.Context(), 1, 1)
	require.NoError(t, err)
	got, err := h.store.ListVersions(t.Context(), 2, 2)
	require.NoError(t, err)
	require.Len(t, got, len(was))
	for i := range got {
		assert.Equal(t, was[i].Text, got[i].Text)
		assert.Equal(t, was[i].Note, got[i].Note)
		assert.Equal(t, was[i].SavedAt, got[i].SavedAt)
		assert.Equal(t, was[i].PanelJSON, got[i].PanelJSON)
	}
	ps, err := h.store.ListProducts(t.Context(), 2)
	require.NoError(t, err)
	require.Len(t, ps, 1, "the label it uses comes along")
	last := got[len(got)-1]
	assert.Equal(t, ps[0].FoodID(), correctionOf(t, last, "2 cups chicken broth").FoodID)
	assert.Equal(t, "sr:16029", correctionOf(t, got[0], "2 (15 oz) cans kidney beans").FoodID, "what was remembered at home is a correction there")
	figures := h.get(dish + "/versions/3/figures?format=csv")
	there := h.get("/h/2/recipes/2/versions/6/figures?format=csv")
	assert.Equal(t, dishLines(figures.body, "own:1"), dishLines(there.body, ps[0].FoodID()), "every figure of the dish is the same there")
	for _, private := range []string{"Ana", "Ben", "Quay Lane"} {
		assert.NotContains(t, h.get(taken).body, private)
	}
}

// dishLines are the lines of a table of figures but for the plates of the people,
// with the product's id made the same.
func dishLines(csv, own string) (out []string) {
	for _, line := range strings.Split(csv, "\n") {
		if !strings.Contains(line, ",plate,") {
			out = append(out, strings.ReplaceAll(line, own, "own"))
		}
	}
	return out
}

func TestAFileOfTextOrASavedWebPageIsReadAsIfPasted(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	page := "<html><head><script type=\"application/ld+json\">" + h.get(dish+"/versions/1/jsonld").body + "</script></head><body>A blog</body></html>"
	for name, content := range map[string]string{"pot.txt": potText, "pot.html": page} {
		r := h.upload(base+"/recipes/file", "file", name, content)
		require.Equal(t, http.StatusSeeOther, r.StatusCode, name)
		to := r.Header.Get("Location")
		assert.Contains(t, to, "done=recipe", name)
		assert.Contains(t, h.get(to).body, "2 (15 oz) cans kidney beans", name)
	}
	r := h.upload(base+"/recipes/file", "file", "empty.html", "<html><body><p>Nothing</p></body></html>")
	require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, alertOf(t, r.body), "no recipe that can be found in it")
}

func TestWrongFilesAreToldAndNothingIsSaved(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	whole := h.get(dish + "/file").body
	for name, c := range map[string]struct{ field, file, content, says string }{
		"no file":       {"other", "x.zip", "x", "Choose a file first"},
		"an empty file": {"file", "x.zip", "", "Choose a file first"},
		"a picture":     {"file", "x.png", "\x89PNG\r\n\x1a\n", "this is not an archive"},
		"half of it":    {"file", "x.zip", whole[:len(whole)/2], "its end is missing"},
		"24 megabytes":  {"file", "x.zip", strings.Repeat("x", 24<<20+1), "at most 24 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			r := h.upload(base+"/recipes/file", c.field, c.file, c.content)
			require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
			assert.Contains(t, alertOf(t, r.body), c.says)
			checkPage(t, name, parse(t, r))
		})
	}
	assert.Equal(t, http.StatusBadRequest, h.post(base+"/recipes/file", "file", "x").StatusCode)
	list, err := h.store.ListRecipes(t.Context(), 1)
	require.NoError(t, err)
	assert.Len(t, list, 1)
}

func TestARecipeIsGivenToOtherPrograms(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	r := h.get(dish + "/versions/1/jsonld")
	assert.Equal(t, "application/ld+json", r.Header.Get("Content-Type"))
	var doc map[string]any
	require.NoError(t, json.Unmarshal([]byte(r.body), &doc))
	assert.Equal(t, "Recipe", doc["@type"])
	md := h.get(dish + "/versions/1/markdown")
	assert.Contains(t, md.body, "# Harbour bean pot")
	assert.Contains(t, md.body, "3. Simmer for 20 minutes and serve.")
	assert.Contains(t, h.get(dish).body, "What schema.org has no place for in this one")

	h.must(base+"/recipes/new", "text", r.body)
	v, err := h.store.FindVersion(t.Context(), 1, 2)
	require.NoError(t, err)
	assert.Equal(t, potText, v.Text)
	told := h.must(base+"/recipes/new", "text", strings.Replace(r.body, `"@type": "Recipe",`, `"@type": "Recipe", "author": "Nobody", "keywords": "beans",`, 1))
	assert.Contains(t, h.get(told).body, "Read from a web page. not taken over: author, keywords.", "what was left is told")
}

func TestAPageThatCannotBeReadIsToldPlainly(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	for in, says := range map[string]string{
		`<html><div itemscope itemtype="https://schema.org/Recipe"><p itemprop="name">Pie</p></div></html>`: "microdata or RDFa, which can't be read; expected the recipe as it reads on the page",
		"{\"@type\":\"Recipe\",\n\"name\":\"Half":                                                           "Line 2: the recipe's JSON-LD is broken",
		"<html><body><p>Nothing</p></body></html>":                                                          "no recipe that can be found in it",
	} {
		r := h.post(base+"/recipes/new", "text", in)
		require.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
		assert.Contains(t, alertOf(t, r.body), says)
		assert.Equal(t, in, valueOf(parse(t, r), "text"), "what was pasted stays")
	}
}
