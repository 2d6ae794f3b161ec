package api

import (
	"net/http"

	"potwright/internal/daybook"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

func libraryOperations() []operation {
	return []operation{
		{method: http.MethodGet, path: ofHousehold + "/tags", id: "listTags", summary: "Every tag that recipes are filed under", answer: tagList{}, status: http.StatusOK, do: listTags},
		{method: http.MethodGet, path: ofRecipe + "/tags", id: "findTags", summary: "What a recipe is filed under", answer: tagList{}, status: http.StatusOK, do: findTags},
		{method: http.MethodPut, path: ofRecipe + "/tags", id: "saveTags", summary: "File a recipe under these tags alone", body: tagsBody{}, answer: tagList{}, status: http.StatusOK, changes: true, state: findTags, do: saveTags},
		{method: http.MethodPost, path: ofHousehold + "/alike", id: "findAlike", summary: "A saved recipe of the same title or with mostly the same lines", body: alikeBody{}, answer: alikeAnswer{}, status: http.StatusOK, do: findAlike},
		{method: http.MethodGet, path: ofRecipe + "/made", id: "listMade", summary: "The times a recipe was made, the latest first", answer: madeList{}, status: http.StatusOK, do: listMade},
		{method: http.MethodPost, path: ofRecipe + "/made", id: "saveMade", summary: "Write down that a version was made and how it turned out", body: daybook.Made{}, answer: madeAnswer{}, status: http.StatusCreated, changes: true, do: saveMade},
		{method: http.MethodDelete, path: ofRecipe + "/made/:made_id", id: "deleteMade", summary: "Strike out a time it was made", status: http.StatusNoContent, changes: true, do: deleteMade},
		{method: http.MethodGet, path: ofHousehold + "/refusals", id: "listRefusals", summary: "Swap rules never to be suggested", answer: refusalList{}, status: http.StatusOK, do: listRefusals},
		{method: http.MethodPut, path: ofHousehold + "/refusals/:rule", id: "refuse", summary: "Never suggest a rule", status: http.StatusNoContent, changes: true, do: refuse},
		{method: http.MethodDelete, path: ofHousehold + "/refusals/:rule", id: "allowAgain", summary: "Let a rule be suggested again", status: http.StatusNoContent, changes: true, do: allowAgain},
	}
}

type tagList struct {
	Tags []string `json:"tags"`
}

// tagsBody is what a recipe is filed under.
type tagsBody struct {
	Tags []string `json:"tags"`
}

func listTags(r *request) (any, error) {
	tags, err := r.store.ListTags(r.ctx, r.household.ID)
	return tagList{append([]string{}, tags...)}, err
}

func findTags(r *request) (any, error) {
	if _, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id")); err != nil {
		return nil, err
	}
	tags, err := r.store.TagsOf(r.ctx, r.household.ID, r.id("recipe_id"))
	return tagList{append([]string{}, tags...)}, err
}

func saveTags(r *request) (any, error) {
	tags, err := kitchen.CleanTags(r.body.(*tagsBody).Tags)
	if err != nil {
		return nil, err
	}
	was, err := r.store.TagsOf(r.ctx, r.household.ID, r.id("recipe_id"))
	if err != nil {
		return nil, err
	}
	over, err := r.over(was)
	if err != nil {
		return nil, err
	}
	if err := r.store.SetTags(r.ctx, r.household.ID, r.id("recipe_id"), tags, over); err != nil {
		return nil, err
	}
	return findTags(r)
}

// alikeBody is a recipe to look for others like it; Except is the id of one that does
// not count.
type alikeBody struct {
	Text   string `json:"text"`
	Except int64  `json:"except,omitempty"`
}

// alikeAnswer is the recipe found, nil where none is like it.
type alikeAnswer struct {
	Recipe *recipeAnswer `json:"recipe"`
}

func findAlike(r *request) (any, error) {
	b := *r.body.(*alikeBody)
	_, a, err := r.open(dishBody{Text: b.Text})
	if err != nil {
		return nil, err
	}
	found, ok, err := r.kitchen.Alike(r.ctx, r.household.ID, a.Recipe, b.Except)
	if err != nil || !ok {
		return alikeAnswer{}, err
	}
	s := recipeAnswerOf(found)
	return alikeAnswer{&s}, nil
}

// madeAnswer is one time that a version was made.
type madeAnswer struct {
	ID int64 `json:"id"`
	daybook.Made
	// Words are the rating in words.
	Words string `json:"words,omitempty"`
}

type madeList struct {
	Made []madeAnswer `json:"made"`
}

func madeAnswerOf(m daybook.Made) madeAnswer { return madeAnswer{m.ID, m, m.Rating.Words()} }

func listMade(r *request) (any, error) {
	if _, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id")); err != nil {
		return nil, err
	}
	list, err := r.store.ListMade(r.ctx, r.household.ID, r.id("recipe_id"))
	out := madeList{[]madeAnswer{}}
	for _, m := range list {
		out.Made = append(out.Made, madeAnswerOf(m))
	}
	return out, err
}

// versionOf finds a version of the recipe of the path.
func (r *request) versionOf(id int64) (recipe.Version, error) {
	v, err := r.store.FindVersion(r.ctx, r.household.ID, id)
	if err == nil && v.RecipeID != r.id("recipe_id") {
		return v, unusable("version", "version %d is one of another recipe; expected one of this one's", id)
	}
	return v, err
}

func saveMade(r *request) (any, error) {
	m := *r.body.(*daybook.Made)
	if m.Date == "" {
		m.Date = r.today()
	}
	if err := m.Check(); err != nil {
		return nil, unusable("", "%s", err)
	}
	if _, err := r.versionOf(m.VersionID); err != nil {
		return nil, err
	}
	m, err := r.store.SaveMade(r.ctx, r.household.ID, m)
	if err != nil {
		return nil, err
	}
	return madeAnswerOf(m), nil
}

func deleteMade(r *request) (any, error) {
	if _, err := r.store.FindRecipe(r.ctx, r.household.ID, r.id("recipe_id")); err != nil {
		return nil, err
	}
	return nil, r.store.DeleteMade(r.ctx, r.household.ID, r.id("made_id"))
}

type refusalList struct {
	Rules []string `json:"rules"`
}

func listRefusals(r *request) (any, error) {
	ids, err := r.store.Refusals(r.ctx, r.household.ID)
	return refusalList{append([]string{}, ids...)}, err
}

func refuse(r *request) (any, error) {
	id := r.gin.Param("rule")
	for _, rule := range r.kitchen.Book.Rules() {
		if rule.ID == id {
			return nil, r.store.Refuse(r.ctx, r.household.ID, id, true)
		}
	}
	return nil, notFound("there is no swap rule %q; rules lists them", id)
}

func allowAgain(r *request) (any, error) {
	return nil, r.store.Refuse(r.ctx, r.household.ID, r.gin.Param("rule"), false)
}
