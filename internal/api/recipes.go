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
}

func recipeAnswerOf(s kitchen.RecipeSummary) recipeAnswer {
	return recipeAnswer{s.ID, s.Title, s.Versions, s.LatestID, s.CreatedAt, s.SavedAt}
}

// versionAnswer is one saved state of a recipe.
type versionAnswer struct {
	ID       int64                     `json:"id"`
	RecipeID int64                     `json:"recipe"`
	ParentID int64                     `json:"parent,omitempty"`
	Number   int                       `json:"number"`
	SavedAt  time.Time                 `json:"saved_at"`
	Note     string                    `json:"note"`
	Text     string                    `json:"text"`
	Fixes    map[int]recipe.Correction `json:"fixes"`
	Changes  []recipe.Change           `json:"changes"`
	// PerServing is the panel as it was computed when it was saved.
	PerServing kitchen.Amounts `json:"per_serving"`
}

type versionList struct {
	Versions []versionAnswer `json:"versions"`
}

func versionAnswerOf(v recipe.Version) (versionAnswer, error) {
	a := versionAnswer{ID: v.ID, RecipeID: v.RecipeID, ParentID: v.ParentID, Number: v.Number, SavedAt: v.SavedAt,
		Note: v.Note, Text: v.Text, Fixes: v.Fixes, Changes: append([]recipe.Change{}, v.Changes...), PerServing: kitchen.Amounts{}}
	if v.PanelJSON != "" {
		if err := json.Unmarshal([]byte(v.PanelJSON), &a.PerServing); err != nil {
			return a, fmt.Errorf("read the panel of version %d: %w", v.ID, err)
		}
	}
	return a, nil
}

// saveBody is a recipe to save.
type saveBody struct {
	Text  string                    `json:"text"`
	Fixes map[int]recipe.Correction `json:"fixes,omitempty"`
	Note  string                    `json:"note,omitempty"`
}

// addBody is a further version, made from the parent.
type addBody struct {
	Parent int64 `json:"parent"`
	saveBody
}

func (r *request) readToSave(b saveBody) (kitchen.Analysis, error) {
	_, a, err := r.open(dishBody{Text: b.Text, Fixes: b.Fixes})
	return a, err
}

func listRecipes(r *request) (any, error) {
	list, err := r.api.cfg.Kitchen.Store.ListRecipes(r.ctx, r.household.ID)
	if err != nil {
		return nil, err
	}
	out := recipeList{Recipes: []recipeAnswer{}}
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
	v, err := r.api.cfg.Kitchen.SaveNew(r.ctx, r.household.ID, a, b.Note)
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
	s, err := r.api.cfg.Kitchen.Store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id"))
	if err != nil {
		return nil, err
	}
	return recipeAnswerOf(s), nil
}

func listVersions(r *request) (any, error) {
	k, id := r.api.cfg.Kitchen, r.household.ID
	if _, err := k.Store.FindRecipe(r.ctx, id, r.id("recipe_id")); err != nil {
		return nil, err
	}
	vs, err := k.Store.ListVersions(r.ctx, id, r.id("recipe_id"))
	if err != nil {
		return nil, err
	}
	out := versionList{Versions: []versionAnswer{}}
	for _, v := range vs {
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
	k, id := r.api.cfg.Kitchen, r.household.ID
	parent, err := k.Store.FindVersion(r.ctx, id, b.Parent)
	if err != nil {
		return nil, err
	}
	if parent.RecipeID != r.id("recipe_id") {
		return nil, unusable("version %d is one of another recipe; expected the parent among this one's versions", b.Parent)
	}
	a, err := r.readToSave(b.saveBody)
	if err != nil {
		return nil, err
	}
	v, err := k.SaveEdit(r.ctx, id, parent, a, b.Note)
	return r.saved(v, err)
}

func findVersion(r *request) (any, error) {
	v, err := r.api.cfg.Kitchen.Store.FindVersion(r.ctx, r.household.ID, r.id("version_id"))
	if err != nil {
		return nil, err
	}
	return versionAnswerOf(v)
}

// saveAdaptedBody says for whom and how a version is to be adapted.
type saveAdaptedBody struct {
	Members []string           `json:"members,omitempty"`
	Wishes  *adaptation.Wishes `json:"wishes,omitempty"`
	Note    string             `json:"note,omitempty"`
}

func saveAdapted(r *request) (any, error) {
	b := *r.body.(*saveAdaptedBody)
	parent, ans, err := r.adapted(adaptBody{dishBody{Version: r.id("version_id"), Members: b.Members}, b.Wishes})
	if err != nil {
		return nil, err
	}
	if !ans.Fits {
		return nil, unusable("no allowed change suits everyone, so nothing was saved; adapt says why and what can be done")
	}
	v, err := r.api.cfg.Kitchen.SaveAdapted(r.ctx, r.household.ID, parent, ans, b.Note)
	return r.saved(v, err)
}

func findWishes(r *request) (any, error) {
	k, id := r.api.cfg.Kitchen, r.household.ID
	if _, err := k.Store.FindRecipe(r.ctx, id, r.id("recipe_id")); err != nil {
		return nil, err
	}
	return k.Store.Wishes(r.ctx, id, r.id("recipe_id"))
}

func saveWishes(r *request) (any, error) {
	w := *r.body.(*adaptation.Wishes)
	k, id := r.api.cfg.Kitchen, r.household.ID
	s, err := k.Store.FindRecipe(r.ctx, id, r.id("recipe_id"))
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
	return w, k.Store.SaveWishes(r.ctx, id, s.ID, w)
}
