package api

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/url"
	"strconv"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

var _ kitchen.Shelf = (*Client)(nil)

// household is a household as it is kept there.
func (a householdAnswer) household() household.Household {
	h := a.Household
	h.ID = a.ID
	return h
}

// CreateHousehold asks for createHousehold.
func (c *Client) CreateHousehold(ctx context.Context, h household.Household) (household.Household, error) {
	var a householdAnswer
	err := c.ask(ctx, question{id: "createHousehold", body: householdBody{h}}, &a)
	return a.household(), err
}

// FindHousehold asks for findHousehold.
func (c *Client) FindHousehold(ctx context.Context, id int64) (household.Household, error) {
	var a householdAnswer
	err := c.ask(ctx, question{id: "findHousehold", names: []any{id}}, &a)
	return a.household(), err
}

// SaveHousehold asks for saveHousehold, in the place of the household that over marks.
func (c *Client) SaveHousehold(ctx context.Context, h household.Household, over kitchen.Mark) (household.Household, error) {
	var was, a householdAnswer
	q := question{id: "saveHousehold", names: []any{h.ID}, body: householdBody{h}}
	if over != "" {
		tag, err := c.tagged(ctx, question{id: "findHousehold", names: []any{h.ID}}, &was)
		if err != nil {
			return household.Household{}, err
		}
		if kitchen.MarkOf(was.household()) != over {
			return household.Household{}, kitchen.ErrChanged
		}
		q.over = tag
	}
	err := c.ask(ctx, q, &a)
	return a.household(), err
}

// ListHouseholds asks for listHouseholds: those that the token sees.
func (c *Client) ListHouseholds(ctx context.Context) ([]household.Household, error) {
	var list householdList
	err := c.ask(ctx, question{id: "listHouseholds"}, &list)
	var out []household.Household
	for _, a := range list.Households {
		out = append(out, a.household())
	}
	return out, err
}

// ListRecipes is FindRecipes without a question.
func (c *Client) ListRecipes(ctx context.Context, householdID int64) ([]kitchen.RecipeSummary, error) {
	list, _, err := c.FindRecipes(ctx, householdID, kitchen.RecipeQuery{})
	return list, err
}

// FindRecipes asks for listRecipes, part by part.
func (c *Client) FindRecipes(ctx context.Context, householdID int64, q kitchen.RecipeQuery) (out []kitchen.RecipeSummary, all int, err error) {
	for {
		most := mostListed
		if q.Most > 0 {
			most = min(most, q.Most-len(out))
		}
		query := url.Values{"q": {q.Words}, "tag": {q.Tag}, "from": {strconv.Itoa(q.From + len(out))}, "most": {strconv.Itoa(most)}}
		var list recipeList
		if err := c.ask(ctx, question{id: "listRecipes", names: []any{householdID}, query: query}, &list); err != nil {
			return nil, 0, err
		}
		for _, r := range list.Recipes {
			out = append(out, kitchen.RecipeSummary{ID: r.ID, Title: r.Title, Versions: r.Versions, LatestID: r.LatestID, CreatedAt: r.CreatedAt, SavedAt: r.SavedAt})
		}
		if list.Next == "" || len(list.Recipes) == 0 || q.Most > 0 && len(out) >= q.Most {
			return out, list.All, nil
		}
	}
}

// version is one as it is kept there.
func (a versionAnswer) version() (recipe.Version, error) {
	v := recipe.Version{ID: a.ID, RecipeID: a.RecipeID, ParentID: a.ParentID, Number: a.Number, SavedAt: a.SavedAt, Note: a.Note, Text: a.Text, Corrections: a.Corrections, Changes: a.Changes}
	if a.Corrections == nil { // a program of before, that keeps them by number
		vs := []recipe.Version{v}
		recipe.TieNumbered(vs, map[int64]map[int]recipe.Correction{v.ID: a.Fixes})
		v = vs[0]
	}
	panel, err := json.Marshal(a.PerServing)
	v.PanelJSON = string(panel)
	if err == nil && len(a.Plates) > 0 {
		var plates []byte
		plates, err = json.Marshal(a.Plates)
		v.PlatesJSON = string(plates)
	}
	return v, err
}

func (c *Client) askVersion(ctx context.Context, q question) (recipe.Version, error) {
	var a versionAnswer
	if err := c.ask(ctx, q, &a); err != nil {
		return recipe.Version{}, err
	}
	return a.version()
}

// CreateRecipe asks for createRecipe: title, figures and time are the server's own.
func (c *Client) CreateRecipe(ctx context.Context, householdID int64, _ string, v recipe.Version) (recipe.Version, error) {
	return c.askVersion(ctx, question{id: "createRecipe", names: []any{householdID}, body: saveBody{v.Text, correctionsBody{Corrections: v.Corrections}, v.Note}})
}

// AddVersion asks for addVersion, which saves a person's changes of a text: an adapted
// version, whose plates the server would have to take on trust, it does not.
func (c *Client) AddVersion(ctx context.Context, householdID int64, _ string, v recipe.Version) (recipe.Version, error) {
	if v.PlatesJSON != "" {
		return recipe.Version{}, errors.New("an adapted version is saved by the server itself: by its pages, or by its operation saveAdapted")
	}
	return c.askVersion(ctx, question{id: "addVersion", names: []any{householdID, v.RecipeID}, body: addBody{v.ParentID, saveBody{v.Text, explicit(v.Corrections), v.Note}}})
}

// explicit are corrections that are sent also where there are none.
func explicit(corrections []recipe.LineCorrection) correctionsBody {
	return correctionsBody{Corrections: append([]recipe.LineCorrection{}, corrections...)}
}

// FindVersion asks for findVersion.
func (c *Client) FindVersion(ctx context.Context, householdID, versionID int64) (recipe.Version, error) {
	return c.askVersion(ctx, question{id: "findVersion", names: []any{householdID, versionID}})
}

// FindWritten asks for findVersion, one after the other.
func (c *Client) FindWritten(ctx context.Context, householdID int64, versionIDs []int64) (map[int64]recipe.Written, error) {
	out := make(map[int64]recipe.Written, len(versionIDs))
	for _, id := range versionIDs {
		v, err := c.FindVersion(ctx, householdID, id)
		if err != nil {
			return nil, err
		}
		out[id] = recipe.Written{Text: v.Text, Corrections: v.Corrections}
	}
	return out, nil
}

// Choices asks for listChoices.
func (c *Client) Choices(ctx context.Context, householdID int64) (map[string]recipe.Correction, error) {
	var list choiceList
	err := c.ask(ctx, question{id: "listChoices", names: []any{householdID}}, &list)
	return list.Choices, err
}

// ListProducts asks for listProducts.
func (c *Client) ListProducts(ctx context.Context, householdID int64) ([]product.Product, error) {
	var list productList
	err := c.ask(ctx, question{id: "listProducts", names: []any{householdID}}, &list)
	return list.Products, err
}

// Wishes asks for findWishes.
func (c *Client) Wishes(ctx context.Context, householdID, recipeID int64) (w adaptation.Wishes, err error) {
	err = c.ask(ctx, question{id: "findWishes", names: []any{householdID, recipeID}}, &w)
	return w, err
}

// Refusals asks for listRefusals.
func (c *Client) Refusals(ctx context.Context, householdID int64) ([]string, error) {
	var list refusalList
	err := c.ask(ctx, question{id: "listRefusals", names: []any{householdID}}, &list)
	return list.Rules, err
}

// AddPhoto adds none: a photo is sent to the server's pages, which make it fit to keep.
func (c *Client) AddPhoto(context.Context, int64, photo.Photo) (photo.Photo, error) {
	return photo.Photo{}, fmt.Errorf("photos are added on the pages of %s, or by its operation addPhoto", c.base)
}

// Holdings asks for exportHousehold, of which all recipes come.
func (c *Client) Holdings(ctx context.Context, householdID int64, recipeIDs ...int64) (kitchen.Holdings, error) {
	if len(recipeIDs) > 0 {
		return kitchen.Holdings{}, errors.New("a recipe's file for another household is made by the server: by its pages, or by its operation exportRecipe")
	}
	sent := &spool{}
	if err := c.ask(ctx, question{id: "exportHousehold", names: []any{householdID}}, sent); err != nil {
		return kitchen.Holdings{}, err
	}
	c.kept = append(c.kept, sent)
	all, _, err := c.formats.UnpackAll(sent, sent.size)
	if err == nil && len(all) != 1 {
		err = fmt.Errorf("%d households in it; expected 1", len(all))
	}
	if err != nil {
		return kitchen.Holdings{}, fmt.Errorf("read the archive that the server at %s sent: %w", c.base.Host, err)
	}
	return all[0], nil
}

// TakeHoldings asks for takeHouseholds.
func (c *Client) TakeHoldings(ctx context.Context, all []kitchen.Holdings) ([]household.Household, error) {
	sent, err := newSpool(func(w io.Writer) error { return c.formats.PackAll(ctx, w, all) })
	if err != nil {
		return nil, err
	}
	defer sent.drop()
	var taken takenHouseholds
	err = c.ask(ctx, question{id: "takeHouseholds", body: sent}, &taken)
	var out []household.Household
	for _, h := range taken.Households {
		out = append(out, h.household())
	}
	return out, err
}

// TakeRecipes asks for takeRecipes.
func (c *Client) TakeRecipes(ctx context.Context, householdID int64, h kitchen.Holdings) ([]int64, error) {
	sent, err := newSpool(func(w io.Writer) error { return c.formats.Pack(ctx, w, h) })
	if err != nil {
		return nil, err
	}
	defer sent.drop()
	var taken takenRecipes
	err = c.ask(ctx, question{id: "takeRecipes", names: []any{householdID}, body: sent}, &taken)
	return taken.Recipes, err
}
