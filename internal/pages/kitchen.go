package pages

import (
	"context"
	"iter"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/daybook"
	"potwright/internal/diagnostic"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/product"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

// Kitchen is the use cases the pages call; *kitchen.Kitchen is one.
type Kitchen interface {
	// ChangeHousehold saves a household as change makes it of what is kept; what others
	// save meanwhile is kept too.
	ChangeHousehold(ctx context.Context, id int64, change func(household.Household) (household.Household, error)) error
	Household(ctx context.Context, id int64) (household.Household, error)
	ReadFor(ctx context.Context, householdID int64, text string, corrections []recipe.LineCorrection) (kitchen.Analysis, error)
	Reread(ctx context.Context, householdID int64, text string, corrections []recipe.LineCorrection) (kitchen.Analysis, error)
	ReadEdit(ctx context.Context, householdID int64, parent recipe.Version, text string) (kitchen.Analysis, error)
	Sweep(ctx context.Context, householdID int64, o kitchen.SweepOptions) iter.Seq2[kitchen.Swept, error]
	SweepOf(ctx context.Context, householdID int64, list []kitchen.RecipeSummary, o kitchen.SweepOptions) iter.Seq2[kitchen.Swept, error]
	Meal(h household.Household, m household.Member, servings []kitchen.Serving) kitchen.MealPlate
	Check(a kitchen.Analysis, h household.Household) kitchen.Report
	Adapt(ctx context.Context, a kitchen.Analysis, h household.Household, w adaptation.Wishes) (adaptation.Answer, error)
	Tradeoff(ctx context.Context, a kitchen.Analysis, h household.Household, w adaptation.Wishes, of adaptation.Figure) (points []adaptation.Point, all bool, err error)
	WithRefusals(ctx context.Context, householdID int64, w adaptation.Wishes) (adaptation.Wishes, error)
	Alike(ctx context.Context, householdID int64, rec recipe.Recipe, except int64) (found kitchen.RecipeSummary, ok bool, err error)
	SaveNew(ctx context.Context, householdID int64, a kitchen.Analysis, note string) (recipe.Version, error)
	SaveEdit(ctx context.Context, householdID int64, parent recipe.Version, a kitchen.Analysis, note string) (recipe.Version, error)
	SaveAgain(ctx context.Context, householdID int64, old recipe.Version, note string) (recipe.Version, error)
	SaveAdapted(ctx context.Context, householdID int64, parent recipe.Version, ans adaptation.Answer, note string) (recipe.Version, error)
	ReadProduct(l product.Label) (food *composition.Food, warnings []diagnostic.Fault, err error)
	Pantry(ctx context.Context, householdID int64) ([]kitchen.Stocked, error)
	Given(ctx context.Context, householdID, recipeID int64) (kitchen.Holdings, error)
	AddPhoto(ctx context.Context, householdID, recipeID int64, file []byte, caption string) (photo.Photo, error)
	Foods(ctx context.Context, householdID int64) (*composition.Table, error)
	DishEntry(h household.Household, m household.Member, v recipe.Version, a kitchen.Analysis, share spread.Range) daybook.Entry
	FoodEntry(m household.Member, f *composition.Food, grams spread.Range) daybook.Entry
	Shop(ctx context.Context, h household.Household, recipes []kitchen.Wanted) (kitchen.Purchases, error)
	ForServings(ctx context.Context, householdID int64, a kitchen.Analysis, servings float64) (scaled kitchen.Analysis, notes []string, err error)
	Open(ctx context.Context, householdID, versionID int64) (recipe.Version, kitchen.Analysis, error)
}

// Foods looks foods up for what people write down of themselves and their pantry;
// *composition.Table does.
type Foods interface {
	// Search lists at most limit foods for the words typed, best first.
	Search(words string, limit int) []*composition.Food
	// ByID finds one food; ok is false where there is none.
	ByID(id string) (food *composition.Food, ok bool)
	// ByName finds one food by its whole name.
	ByName(name string) (food *composition.Food, ok bool)
}

// preset is a published limit or plan that a person may start from.
type preset struct {
	id, name, source string
	limits           []household.Limit
	plan             *household.Plan
}

// presetsOf lists what the book of needs offers with figures.
func presetsOf(n *household.Needs) []preset {
	var out []preset
	for _, p := range n.Presets() {
		if len(p.Limits) > 0 {
			out = append(out, preset{"limit-" + p.ID, p.Title, sourceWords(p.Source, p.Date, p.Note, p.FromMemory), p.Limits, nil})
		}
	}
	for _, p := range n.Plans() {
		out = append(out, preset{"plan-" + p.ID, p.Title, sourceWords(p.Source, p.Date, p.Note, p.FromMemory), nil, &p.Plan})
	}
	return out
}

// sourceWords says where a figure comes from, and where it needs checking.
func sourceWords(source, date, note string, fromMemory bool) string {
	s := source
	if date != "" {
		s += ", " + date
	}
	if fromMemory {
		s += " (not read in the document itself: check it there)"
	}
	if note != "" {
		s += ". " + note
	}
	return s
}
