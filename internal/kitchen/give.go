package kitchen

import (
	"context"
	"fmt"
	"maps"

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
			r.Versions[i].Fixes = settledFixes(v, h.Choices)
		}
		return h.Shared(r), nil
	}
	return Holdings{}, fmt.Errorf("recipe %d: %w", recipeID, ErrNotFound)
}

// settledFixes are a version's corrections with the remembered foods of the lines
// that have none.
func settledFixes(v recipe.Version, choices map[string]recipe.Correction) map[int]recipe.Correction {
	r, err := recipe.ParseKept(v.Text, ingredient.Read)
	if err != nil || len(choices) == 0 {
		return v.Fixes
	}
	fixes := maps.Clone(v.Fixes)
	for i, l := range r.Lines {
		choice, ok := choices[foodmatch.Phrase(l.Reading)]
		fix := fixes[i]
		if !ok || fix.FoodID != "" || fix.Skip {
			continue
		}
		if fixes == nil {
			fixes = map[int]recipe.Correction{}
		}
		fix.FoodID, fix.Skip = choice.FoodID, choice.Skip
		fixes[i] = fix
	}
	return fixes
}
