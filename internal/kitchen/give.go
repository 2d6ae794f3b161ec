package kitchen

import (
	"context"
	"fmt"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"
)

// Given is one recipe as another household may have it. What the household
// remembers of its foods goes along as corrections of its lines, so that it is read
// there as it is here. ErrNotFound where the household has no such recipe.
func (k *Kitchen) Given(ctx context.Context, householdID, recipeID int64) (Holdings, error) {
	h, err := k.Store.Holdings(ctx, householdID, recipeID)
	if err != nil {
		return Holdings{}, err
	}
	for _, r := range h.Recipes {
		if len(r.Versions) == 0 || r.Versions[0].RecipeID != recipeID {
			continue
		}
		for i, v := range r.Versions {
			r.Versions[i].Corrections = settled(v, h.Choices)
		}
		return h.Shared(r), nil
	}
	return Holdings{}, fmt.Errorf("recipe %d: %w", recipeID, ErrNotFound)
}

// settled are a version's corrections with the remembered foods of the lines that have
// none.
func settled(v recipe.Version, choices map[string]recipe.Correction) []recipe.LineCorrection {
	r, err := recipe.ParseKept(v.Text, ingredient.Read)
	if err != nil || len(choices) == 0 {
		return v.Corrections
	}
	r.Correct(v.Corrections)
	for i, l := range r.Lines {
		r.Lines[i].Fix, _ = foodmatch.WithRemembered(l.Fix, choices, l.Reading)
	}
	return r.Corrections()
}
