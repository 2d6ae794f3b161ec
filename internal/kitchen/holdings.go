package kitchen

import (
	"time"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

// Holdings is everything kept for one household. Ids in it only tie its parts
// together: lines to products ("own:7"), versions to their parents. A store that
// takes it in gives new ones.
type Holdings struct {
	Household household.Household
	// Choices are the remembered corrections by food phrase.
	Choices  map[string]recipe.Correction
	Products []product.Product
	// Recipes stand in the order in which their newest versions were saved.
	Recipes []HeldRecipe
}

// HeldRecipe is a recipe with all its versions, the oldest first.
type HeldRecipe struct {
	Title     string
	CreatedAt time.Time
	Wishes    *adaptation.Wishes // nil where none were kept
	Versions  []recipe.Version
}

// Shared is the recipe alone, as another household may have it: with the products
// its lines are tied to, and without what the household is about: names, plates,
// wishes and choices stay at home.
func (h Holdings) Shared(r HeldRecipe) Holdings {
	versions := make([]recipe.Version, len(r.Versions))
	tied := map[string]bool{}
	for i, v := range r.Versions {
		v.PlatesJSON = ""
		changes := make([]recipe.Change, len(v.Changes))
		for j, c := range v.Changes {
			c.For = nil
			changes[j] = c
		}
		v.Changes = changes
		versions[i] = v
		for _, fix := range v.Fixes {
			tied[fix.FoodID] = true
		}
	}
	out := Holdings{Recipes: []HeldRecipe{{Title: r.Title, CreatedAt: r.CreatedAt, Versions: versions}}}
	for _, p := range h.Products {
		if tied[p.FoodID()] {
			out.Products = append(out.Products, p)
		}
	}
	return out
}
