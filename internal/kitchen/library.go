package kitchen

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/recipe"
)

// RecipeQuery asks for some of a household's recipes.
type RecipeQuery struct {
	// Words must all stand in the title, a tag, or the newest version's text; letter
	// case does not matter.
	Words string
	Tag   string // one of the recipe's tags, or "" for any
	From  int    // how many to pass over
	Most  int    // how many to give; 0 for all
}

// LibraryStore keeps what recipes are filed under and what the household never wants
// suggested.
type LibraryStore interface {
	// ListTags gives the household's tags, each once, in order.
	ListTags(ctx context.Context, householdID int64) ([]string, error)
	// TagsOf gives a recipe's tags in order.
	TagsOf(ctx context.Context, householdID, recipeID int64) ([]string, error)
	// SetTags puts tags in place of a recipe's earlier ones. ErrNotFound where the
	// household has no such recipe, ErrChanged where the earlier ones are not what over
	// marks.
	SetTags(ctx context.Context, householdID, recipeID int64, tags []string, over Mark) error
	// Refuse keeps a rule from being suggested, or with on false allows it again.
	Refuse(ctx context.Context, householdID int64, rule string, on bool) error
}

// WishesFor are the wishes kept with a recipe and what the household never wants
// suggested.
func (k *Kitchen) WishesFor(ctx context.Context, householdID, recipeID int64) (adaptation.Wishes, error) {
	w, err := k.Store.Wishes(ctx, householdID, recipeID)
	if err != nil {
		return w, err
	}
	return k.WithRefusals(ctx, householdID, w)
}

// WithRefusals are wishes with what the household never wants suggested.
func (k *Kitchen) WithRefusals(ctx context.Context, householdID int64, w adaptation.Wishes) (adaptation.Wishes, error) {
	never, err := k.Store.Refusals(ctx, householdID)
	for _, rule := range never {
		w.Refuse = append(w.Refuse, adaptation.Pick{Line: -1, Rule: rule})
	}
	return w, err
}

// alikeLines is the share of a recipe's lines that another must have word for word
// to be taken for the same dish. A design choice.
const alikeLines = 0.7

// Alike finds a saved recipe that looks like the one given, other than except: of
// the same title, or with mostly the same lines.
func (k *Kitchen) Alike(ctx context.Context, householdID int64, rec recipe.Recipe, except int64) (found RecipeSummary, ok bool, err error) {
	list, _, err := k.Store.FindRecipes(ctx, householdID, RecipeQuery{})
	if err != nil {
		return found, false, fmt.Errorf("look for recipes like %q: %w", rec.Title, err)
	}
	for _, r := range list {
		if r.ID != except && strings.EqualFold(strings.TrimSpace(r.Title), strings.TrimSpace(rec.Title)) {
			return r, true, nil
		}
	}
	for _, line := range longestLines(rec) {
		list, _, err := k.Store.FindRecipes(ctx, householdID, RecipeQuery{Words: line, Most: mostAlike})
		if err != nil {
			return found, false, fmt.Errorf("look for recipes like %q: %w", rec.Title, err)
		}
		for _, r := range list {
			if r.ID == except {
				continue
			}
			v, err := k.Store.FindVersion(ctx, householdID, r.LatestID)
			if err != nil {
				return found, false, err
			}
			if sameLines(rec, v.Text) >= alikeLines {
				return r, true, nil
			}
		}
	}
	return found, false, nil
}

// How many lines are looked for in other recipes, and how many recipes that have
// one are read. Design choices: lines that are long are rare.
const (
	mostLooked = 2
	mostAlike  = 20
)

func longestLines(rec recipe.Recipe) []string {
	var out []string
	for _, l := range rec.Lines {
		out = append(out, l.Reading.Text)
	}
	slices.SortStableFunc(out, func(a, b string) int { return len(b) - len(a) })
	return out[:min(len(out), mostLooked)]
}

// sameLines is the share of a recipe's lines that stand in a text as lines.
func sameLines(rec recipe.Recipe, text string) float64 {
	there := map[string]bool{}
	for _, l := range strings.Split(strings.ToLower(text), "\n") {
		there[strings.TrimSpace(l)] = true
	}
	same := 0
	for _, l := range rec.Lines {
		if there[strings.ToLower(strings.TrimSpace(l.Reading.Text))] {
			same++
		}
	}
	if len(rec.Lines) == 0 {
		return 0
	}
	return float64(same) / float64(len(rec.Lines))
}
