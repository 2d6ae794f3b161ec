package api

import (
	"bytes"
	"fmt"
	"io"
	"net/http"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// Kinds of files.
const (
	plainKind    = "text/plain; charset=utf-8"
	markdownKind = "text/markdown; charset=utf-8"
	jsonLDKind   = "application/ld+json"
	csvKind      = "text/csv; charset=utf-8"
	archiveKind  = "application/zip"
)

func formOperations() []operation {
	return []operation{
		{method: http.MethodGet, path: ofVersion + "/text", id: "exportText", summary: "A version as plain text", gives: plainKind, status: http.StatusOK, do: exportText},
		{method: http.MethodGet, path: ofVersion + "/markdown", id: "exportMarkdown", summary: "A version as Markdown", gives: markdownKind, status: http.StatusOK, do: exportMarkdown},
		{method: http.MethodGet, path: ofVersion + "/jsonld", id: "exportJSONLD", summary: "A version as a schema.org recipe", gives: jsonLDKind, status: http.StatusOK, do: exportJSONLD},
		{method: http.MethodGet, path: ofVersion + "/figures.csv", id: "exportFigures", summary: "Every figure of a version line by line, with its source, as CSV", gives: csvKind, status: http.StatusOK, do: exportFigures("csv")},
		{method: http.MethodGet, path: ofVersion + "/figures.txt", id: "exportFiguresText", summary: "Every figure of a version line by line, with its source, as text", gives: plainKind, status: http.StatusOK, do: exportFigures("text")},
		{method: http.MethodGet, path: ofRecipe + "/file", id: "exportRecipe", summary: "A recipe with its versions for another household, without what is about this one", gives: archiveKind, status: http.StatusOK, do: exportRecipe},
		{method: http.MethodPost, path: ofHousehold + "/recipes/file", id: "takeRecipes", summary: "Take in the recipes of a file from another household: all or none", takes: archiveKind, answer: takenRecipes{}, status: http.StatusCreated, changes: true, do: takeRecipes},
		{method: http.MethodGet, path: ofHousehold + "/archive", id: "exportHousehold", summary: "Everything kept for a household as an archive", gives: archiveKind, status: http.StatusOK, private: true, do: exportHousehold},
		{method: http.MethodPost, path: "/archives", id: "takeHouseholds", summary: "Take in the households of an archive as new ones: all or none", takes: archiveKind, answer: takenHouseholds{}, status: http.StatusCreated, changes: true, do: takeHouseholds},
	}
}

// openedVersion opens the version of the path.
func (r *request) openedVersion() (recipe.Version, kitchen.Analysis, error) {
	return r.kitchen.Open(r.ctx, r.household.ID, r.id("version_id"))
}

// fileOf names a file of a version.
func fileOf(v recipe.Version, ending string, content []byte) file {
	return file{fmt.Sprintf("recipe-%d-version-%d.%s", v.RecipeID, v.Number, ending), content}
}

func exportText(r *request) (any, error) {
	v, a, err := r.openedVersion()
	return fileOf(v, "txt", []byte(recipe.Text(a.Recipe))), err
}

func exportMarkdown(r *request) (any, error) {
	v, a, err := r.openedVersion()
	return fileOf(v, "md", []byte(recipe.Markdown(a.Recipe))), err
}

func exportJSONLD(r *request) (any, error) {
	v, a, err := r.openedVersion()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	_, err = r.api.cfg.Formats.JSONLD(&b, a)
	return fileOf(v, "jsonld", b.Bytes()), err
}

func exportFigures(format string) func(*request) (any, error) {
	return func(r *request) (any, error) {
		v, a, err := r.openedVersion()
		if err != nil {
			return nil, err
		}
		ending := map[string]string{"csv": "csv", "text": "txt"}[format]
		var b bytes.Buffer
		err = kitchen.WriteAccounts(&b, format, r.kitchen.Check(a, r.household).Account(a))
		return fileOf(v, ending, b.Bytes()), err
	}
}

func exportRecipe(r *request) (any, error) {
	h, err := r.kitchen.Given(r.ctx, r.household.ID, r.id("recipe_id"))
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = r.api.cfg.Formats.Pack(r.ctx, &b, h)
	return file{fmt.Sprintf("recipe-%d.zip", r.id("recipe_id")), b.Bytes()}, err
}

// takenRecipes are the recipes taken in, and what of the file this program does not
// know.
type takenRecipes struct {
	Recipes []int64  `json:"recipes"`
	Notes   []string `json:"notes"`
}

func takeRecipes(r *request) (any, error) {
	sent := r.body.(*spool)
	h, notes, err := r.api.cfg.Formats.Unpack(sent, sent.size)
	if err != nil {
		return nil, err
	}
	ids, err := r.store.TakeRecipes(r.ctx, r.household.ID, h)
	return takenRecipes{append([]int64{}, ids...), append([]string{}, notes...)}, err
}

func exportHousehold(r *request) (any, error) {
	h, err := r.store.Holdings(r.ctx, r.household.ID)
	if err != nil {
		return nil, err
	}
	return largeFile{fmt.Sprintf("household-%d.zip", r.household.ID), func(w io.Writer) error {
		return r.api.cfg.Formats.PackAll(r.ctx, w, []kitchen.Holdings{h})
	}}, nil
}

// takenHouseholds are the households taken in, and what to know of them.
type takenHouseholds struct {
	Households []householdAnswer `json:"households"`
	Notes      []string          `json:"notes"`
}

func takeHouseholds(r *request) (any, error) {
	sent := r.body.(*spool)
	all, notes, err := r.api.cfg.Formats.UnpackAll(sent, sent.size)
	if err != nil {
		return nil, err
	}
	saved, doubts, err := r.kitchen.TakeIn(r.ctx, all)
	if err != nil {
		return nil, err
	}
	out := takenHouseholds{[]householdAnswer{}, append(append([]string{}, notes...), doubts...)}
	for _, h := range saved {
		out.Households = append(out.Households, answerOf(h))
	}
	return out, nil
}
