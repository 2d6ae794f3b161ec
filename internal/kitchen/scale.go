package kitchen

import (
	"context"
	"fmt"

	"potwright/internal/diagnostic"
	"potwright/internal/label"
	"potwright/internal/recipe"
)

// ScaledRecipe is a recipe's text for another number of servings.
type ScaledRecipe struct {
	Text        string                  `json:"text"`
	Servings    float64                 `json:"servings"`
	Factor      float64                 `json:"factor"`
	Corrections []recipe.LineCorrection `json:"-"` // weights scaled
	// Notes say what was not scaled, each a sentence for the cook.
	Notes []string `json:"notes"`
}

// Scaled writes the recipe for another number of servings. A number that is none,
// or over recipe.MostServings, is a diagnostic.Faults.
func (a Analysis) Scaled(servings float64) (ScaledRecipe, error) {
	if !(servings > 0) || servings > recipe.MostServings {
		return ScaledRecipe{}, diagnostic.Faults{{Problem: fmt.Sprintf("%v is no number of servings", servings), Expected: fmt.Sprintf("a number above 0 and at most %d", recipe.MostServings)}}
	}
	rec, s := recipe.Scaled(a.Recipe, servings)
	out := ScaledRecipe{Text: recipe.Text(rec), Servings: servings, Factor: s.Factor, Corrections: rec.Corrections()}
	if s.Factor == 1 {
		out.Notes = []string{}
		return out, nil
	}
	out.Notes = []string{"Times, heat and pan sizes in the method are not scaled: a larger pot takes longer to boil, a deeper dish longer to bake."}
	for _, i := range s.Left {
		out.Notes = append(out.Notes, fmt.Sprintf("Line %d is as it was; multiply it by %s yourself: %s", i+1, label.Figure(label.Nearest(s.Factor, 0.01)), a.Recipe.Lines[i].Reading.Text))
	}
	for _, i := range s.Amounts {
		out.Notes = append(out.Notes, fmt.Sprintf("Step %d names an amount, which is as it was: %s", i+1, a.Recipe.Steps[i].Text))
	}
	if a.Recipe.ServingsAssumed {
		out.Notes = append(out.Notes, fmt.Sprintf("The recipe does not say how many it serves; %s was assumed before scaling.", label.Figure(a.Recipe.Servings)))
	}
	return out, nil
}

// ForServings is a household's dish read anew for another number of servings, as it is
// when that is its own; notes say what was not scaled. Faults as Scaled.
func (k *Kitchen) ForServings(ctx context.Context, householdID int64, a Analysis, servings float64) (scaled Analysis, notes []string, err error) {
	if servings == a.Recipe.Servings {
		return a, nil, nil
	}
	text, err := a.Scaled(servings)
	if err != nil {
		return a, nil, err
	}
	if scaled, err = k.Reread(ctx, householdID, text.Text, text.Corrections); err != nil {
		return a, nil, fmt.Errorf("read %q for %v servings: %w", a.Recipe.Title, servings, err)
	}
	return scaled, text.Notes, nil
}
