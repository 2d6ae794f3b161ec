package api

import (
	"encoding/json"
	"fmt"
	"time"

	"potwright/internal/adaptation"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// recipeAnswer is a saved recipe in a list.
type recipeAnswer struct {
	ID        int64     `json:"id"`
	Title     string    `json:"title"`
	Versions  int       `json:"versions"`
	LatestID  int64     `json:"latest_version"`
	CreatedAt time.Time `json:"created_at"`
	SavedAt   time.Time `json:"saved_at"`
}

type recipeList struct {
	Recipes []recipeAnswer `json:"recipes"`
	stretch
}

func recipeAnswerOf(s kitchen.RecipeSummary) recipeAnswer {
	return recipeAnswer{s.ID, s.Title, s.Versions, s.LatestID, s.CreatedAt, s.SavedAt}
}

// versionAnswer is one saved state of a recipe.
type versionAnswer struct {
	ID          int64                   `json:"id"`
	RecipeID    int64                   `json:"recipe"`
	ParentID    int64                   `json:"parent,omitempty"`
	Number      int                     `json:"number"`
	SavedAt     time.Time               `json:"saved_at"`
	Note        string                  `json:"note"`
	Text        string                  `json:"text"`
	Corrections []recipe.LineCorrection `json:"corrections"`
	// Fixes are those of the corrections that have their line, by its number as the text
	// is read today, counted from 0.
	Fixes   map[int]recipe.Correction `json:"fixes"`
	Changes []recipe.Change           `json:"changes"`
	// PerServing is the panel, Plates what everyone of an adapted one got, both as they
	// were computed when it was saved.
	PerServing kitchen.Amounts          `json:"per_serving"`
	Plates     []kitchen.MemberDocument `json:"plates,omitempty"`
}

type versionList struct {
	Versions []versionAnswer `json:"versions"`
	stretch
}

func versionAnswerOf(v recipe.Version) (versionAnswer, error) {
	a := versionAnswer{ID: v.ID, RecipeID: v.RecipeID, ParentID: v.ParentID, Number: v.Number, SavedAt: v.SavedAt,
		Note: v.Note, Text: v.Text, Corrections: append([]recipe.LineCorrection{}, v.Corrections...), Fixes: fixesOf(v), Changes: append([]recipe.Change{}, v.Changes...), PerServing: kitchen.Amounts{}}
	if v.PanelJSON != "" {
		if err := json.Unmarshal([]byte(v.PanelJSON), &a.PerServing); err != nil {
			return a, fmt.Errorf("read the panel of version %d: %w", v.ID, err)
		}
	}
	if v.PlatesJSON != "" {
		if err := json.Unmarshal([]byte(v.PlatesJSON), &a.Plates); err != nil {
			return a, fmt.Errorf("read the plates of version %d: %w", v.ID, err)
		}
	}
	return a, nil
}

// saveBody is a recipe to save.
type saveBody struct {
	Text string `json:"text"`
	correctionsBody
	Note string `json:"note,omitempty"`
}

// addBody is a further version, made from the parent. Where corrections are left out,
// those of the parent stay with the lines whose words did not change.
type addBody struct {
	Parent int64 `json:"parent"`
	saveBody
}

func (r *request) readToSave(b saveBody) (kitchen.Analysis, error) {
	_, a, err := r.open(dishBody{Text: b.Text, correctionsBody: b.correctionsBody})
	return a, err
}

// queryOf reads which of the household's recipes are asked for.
func (r *request) queryOf() (kitchen.RecipeQuery, error) {
	from, most, err := r.part()
	return kitchen.RecipeQuery{Words: r.gin.Query("q"), Tag: r.gin.Query("tag"), From: from, Most: most}, err
}

func (r *request) readEdit(parent recipe.Version, b saveBody) (kitchen.Analysis, error) {
	if b.told() {
		return r.readToSave(b)
	}
	text, lost, err := r.api.cfg.Formats.Markup(b.Text)
	if err != nil {
		return kitchen.Analysis{}, err
	}
	a, err := r.kitchen.ReadEdit(r.ctx, r.household.ID, parent, text)
	a.Recipe.Notes = append(a.Recipe.Notes, lost...)
	return a, err
}

func listRecipes(r *request) (any, error) {
	q, err := r.queryOf()
	if err != nil {
		return nil, err
	}
	list, all, err := r.store.FindRecipes(r.ctx, r.household.ID, q)
	if err != nil {
		return nil, err
	}
	out := recipeList{Recipes: []recipeAnswer{}, stretch: r.stretchOf(q.From, len(list), all)}
	for _, s := range list {
		out.Recipes = append(out.Recipes, recipeAnswerOf(s))
	}
	return out, nil
}

func createRecipe(r *request) (any, error) {
	b := *r.body.(*saveBody)
	a, err := r.readToSave(b)
	if err != nil {
		return nil, err
	}
	v, err := r.kitchen.SaveNew(r.ctx, r.household.ID, a, b.Note)
	return r.saved(v, err)
}

// saved answers with a new version and says where it is.
func (r *request) saved(v recipe.Version, err error) (any, error) {
	if err != nil {
		return nil, err
	}
	r.gin.Header("Location", fmt.Sprintf("%s/households/%d/versions/%d", Base, r.household.ID, v.ID))
	return versionAnswerOf(v)
}

func findRecipe(r *request) (any, error) {
	s, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id"))
	if err != nil {
		return nil, err
	}
	return recipeAnswerOf(s), nil
}

func listVersions(r *request) (any, error) {
	from, most, err := r.part()
	if err != nil {
		return nil, err
	}
	if _, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id")); err != nil {
		return nil, err
	}
	vs, err := r.store.ListVersions(r.ctx, r.household.ID, r.id("recipe_id"))
	if err != nil {
		return nil, err
	}
	shown := vs[min(from, len(vs)):min(from+most, len(vs))]
	out := versionList{Versions: []versionAnswer{}, stretch: r.stretchOf(from, len(shown), len(vs))}
	for _, v := range shown {
		a, err := versionAnswerOf(v)
		if err != nil {
			return nil, err
		}
		out.Versions = append(out.Versions, a)
	}
	return out, nil
}

func addVersion(r *request) (any, error) {
	b := *r.body.(*addBody)
	k, id := r.kitchen, r.household.ID
	parent, err := r.store.FindVersion(r.ctx, id, b.Parent)
	if err != nil {
		return nil, err
	}
	if parent.RecipeID != r.id("recipe_id") {
		return nil, unusable("parent", "version %d is one of another recipe; expected the parent among this one's versions", b.Parent)
	}
	a, err := r.readEdit(parent, b.saveBody)
	if err != nil {
		return nil, err
	}
	v, err := k.SaveEdit(r.ctx, id, parent, a, b.Note)
	return r.saved(v, err)
}

func findVersion(r *request) (any, error) {
	v, err := r.store.FindVersion(r.ctx, r.household.ID, r.id("version_id"))
	if err != nil {
		return nil, err
	}
	return versionAnswerOf(v)
}

// saveAdaptedBody says for whom and how a version is to be adapted.
type saveAdaptedBody struct {
	eatersBody
	Wishes *adaptation.Wishes `json:"wishes,omitempty"`
	Note   string             `json:"note,omitempty"`
}

func saveAdapted(r *request) (any, error) {
	b := *r.body.(*saveAdaptedBody)
	parent, ans, err := r.adapted(adaptBody{dishBody{Version: r.id("version_id"), eatersBody: b.eatersBody}, b.Wishes})
	if err != nil {
		return nil, err
	}
	if !ans.Fits {
		return nil, unusable("", "no allowed change suits everyone, so nothing was saved; adapt says why and what can be done")
	}
	v, err := r.kitchen.SaveAdapted(r.ctx, r.household.ID, parent, ans, b.Note)
	return r.saved(v, err)
}

func findWishes(r *request) (any, error) {
	if _, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id")); err != nil {
		return nil, err
	}
	return r.store.Wishes(r.ctx, r.household.ID, r.id("recipe_id"))
}

func saveWishes(r *request) (any, error) {
	w := *r.body.(*adaptation.Wishes)
	k, id := r.kitchen, r.household.ID
	s, err := r.store.FindRecipe(r.ctx, id, r.id("recipe_id"))
	if err != nil {
		return nil, err
	}
	_, a, err := k.Open(r.ctx, id, s.LatestID)
	if err != nil {
		return nil, err
	}
	if err := checkWishes(w, len(a.Recipe.Lines)); err != nil {
		return nil, err
	}
	was, err := r.store.Wishes(r.ctx, id, s.ID)
	if err != nil {
		return nil, err
	}
	over, err := r.over(was)
	if err != nil {
		return nil, err
	}
	return w, r.store.SaveWishes(r.ctx, id, s.ID, w, over)
}
