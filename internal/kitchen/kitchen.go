package kitchen

import (
	"context"
	"errors"
	"time"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
)

// Kitchen is the use cases over one food table, one rulebook and one store.
type Kitchen struct {
	Table *composition.Table
	Store Store
	Now   func() time.Time
}

// Analysis is a recipe read, matched and computed.
type Analysis struct {
	Recipe recipe.Recipe
	Pot    nutrient.Pot // Pot.Lines[i] belongs to Recipe.Lines[i]
}

// Report is what an analysed dish means for everyone at the table.
type Report struct {
	Plates []adaptation.Plate // one a member, at the member's usual portion
	Fit    household.Fit      // the worst
	// Hands are the lines and steps that load the cook's hands, as sentences.
	Hands []string
}

var errUnfinished = errors.New("not written yet")

// Read reads recipe text (as pasted) and computes it. remembered are the
// household's corrections by food phrase, fixes those by line of this recipe;
// both may be nil. Bad text gives a diagnostic.Faults error that says what is
// wrong and where; warnings are in Analysis.Recipe.Notes.
func (k *Kitchen) Read(text string, remembered map[string]recipe.Correction, fixes map[int]recipe.Correction) (Analysis, error) {
	return Analysis{}, errUnfinished
}

// Check says what a portion of the dish means for each member given.
func (k *Kitchen) Check(a Analysis, h household.Household) Report { return Report{} }

// Adapt finds the least change that suits every member given.
func (k *Kitchen) Adapt(ctx context.Context, a Analysis, h household.Household, w adaptation.Wishes) (adaptation.Answer, error) {
	return adaptation.Answer{}, errUnfinished
}

// SaveNew saves an analysed recipe as a new recipe's first version.
func (k *Kitchen) SaveNew(ctx context.Context, householdID int64, a Analysis, note string) (recipe.Version, error) {
	return recipe.Version{}, errUnfinished
}

// SaveEdit saves changed text or corrections as a child version of parent.
func (k *Kitchen) SaveEdit(ctx context.Context, householdID int64, parent recipe.Version, a Analysis, note string) (recipe.Version, error) {
	return recipe.Version{}, errUnfinished
}

// SaveAdapted saves an answer as a child version of parent, re-read and
// re-computed from its own text.
func (k *Kitchen) SaveAdapted(ctx context.Context, householdID int64, parent recipe.Version, ans adaptation.Answer, note string) (recipe.Version, error) {
	return recipe.Version{}, errUnfinished
}

// Open reads a saved version afresh.
func (k *Kitchen) Open(ctx context.Context, householdID, versionID int64) (recipe.Version, Analysis, error) {
	return recipe.Version{}, Analysis{}, errUnfinished
}
