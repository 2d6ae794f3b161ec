package kitchen

import (
	"context"
	"encoding/json"
	"fmt"
	"unicode/utf8"

	"potwright/internal/adaptation"
	"potwright/internal/diagnostic"
	"potwright/internal/recipe"
)

// SaveNew saves an analysed recipe as a new recipe's first version.
func (k *Kitchen) SaveNew(ctx context.Context, householdID int64, a Analysis, note string) (recipe.Version, error) {
	v, err := k.version(a, note)
	if err != nil {
		return recipe.Version{}, err
	}
	return k.Store.CreateRecipe(ctx, householdID, a.Recipe.Title, v)
}

// SaveEdit saves changed text or corrections as a child version of parent.
func (k *Kitchen) SaveEdit(ctx context.Context, householdID int64, parent recipe.Version, a Analysis, note string) (recipe.Version, error) {
	v, err := k.version(a, note)
	if err != nil {
		return recipe.Version{}, err
	}
	v.RecipeID, v.ParentID = parent.RecipeID, parent.ID
	v.Changes = edits(parent, a)
	return k.Store.AddVersion(ctx, householdID, a.Recipe.Title, v)
}

// SaveAgain saves an earlier version as the newest: a child of that version with its
// words, corrections and plates.
func (k *Kitchen) SaveAgain(ctx context.Context, householdID int64, old recipe.Version, note string) (recipe.Version, error) {
	a, err := k.Reread(ctx, householdID, old.Text, old.Corrections)
	if err != nil {
		return recipe.Version{}, fmt.Errorf("read version %d: %w", old.Number, err)
	}
	v, err := k.version(a, note)
	if err != nil {
		return recipe.Version{}, err
	}
	v.RecipeID, v.ParentID, v.Text, v.PlatesJSON = old.RecipeID, old.ID, old.Text, old.PlatesJSON
	return k.Store.AddVersion(ctx, householdID, a.Recipe.Title, v)
}

// SaveAdapted saves an answer as a child version of parent with its reasons and
// everyone's plate, computed afresh from the text that is saved.
func (k *Kitchen) SaveAdapted(ctx context.Context, householdID int64, parent recipe.Version, ans adaptation.Answer, note string) (recipe.Version, error) {
	a, err := k.Reread(ctx, householdID, recipe.Text(ans.Recipe), ans.Recipe.Corrections())
	if err != nil {
		return recipe.Version{}, fmt.Errorf("read the adapted recipe afresh: %w", err)
	}
	v, err := k.version(a, note)
	if err != nil {
		return recipe.Version{}, err
	}
	v.RecipeID, v.ParentID = parent.RecipeID, parent.ID
	for _, c := range ans.Changes {
		v.Changes = append(v.Changes, recipe.Change{
			Line: c.Line, From: c.From, To: c.Lines(),
			RuleID: c.Option.Rule.ID, Why: c.Why, For: c.For,
		})
	}
	plates := make([]MemberDocument, len(ans.Plates))
	for i, p := range ans.Plates {
		plates[i] = memberDocument(p)
	}
	text, err := json.Marshal(plates)
	if err != nil {
		return recipe.Version{}, fmt.Errorf("write the plates: %w", err)
	}
	v.PlatesJSON = string(text)
	return k.Store.AddVersion(ctx, householdID, a.Recipe.Title, v)
}

// Open reads a saved version, with the household's products and remembered choices
// as they are now. The analysis may be shared with others: it is not to be changed.
func (k *Kitchen) Open(ctx context.Context, householdID, versionID int64) (recipe.Version, Analysis, error) {
	w, err := k.waysOf(ctx, householdID)
	if err != nil {
		return recipe.Version{}, Analysis{}, err
	}
	key := keptKey{w.dish, versionID}
	if k.Memory != nil {
		// Two households may read alike, and neither may open what is the other's.
		if o, known := k.Memory.opened.Find(key); known && o.household == householdID {
			return o.version, o.analysis, nil
		}
	}
	v, err := k.Store.FindVersion(ctx, householdID, versionID)
	if err != nil {
		return recipe.Version{}, Analysis{}, err
	}
	a, err := w.read(recipe.ParseKept, v.Text, v.Corrections, nil)
	if err != nil {
		return v, Analysis{}, fmt.Errorf("read version %d: %w", v.ID, err)
	}
	if k.Memory != nil {
		a.of = key
		k.Memory.opened.Put(key, opened{householdID, v, a})
	}
	return v, a, nil
}

// CheckNote is a diagnostic.Fault where a note is longer than one that is kept.
func CheckNote(note string) error {
	if n := utf8.RuneCountInString(note); n > recipe.MostNote {
		return diagnostic.Fault{Field: "note", Problem: fmt.Sprintf("the note has %d characters", n), Expected: fmt.Sprintf("at most %d", recipe.MostNote)}
	}
	return nil
}

func (k *Kitchen) version(a Analysis, note string) (recipe.Version, error) {
	if err := CheckNote(note); err != nil {
		return recipe.Version{}, err
	}
	panel, err := json.Marshal(AmountsOf(a.Pot.Serving))
	if err != nil {
		return recipe.Version{}, fmt.Errorf("write the panel: %w", err)
	}
	return recipe.Version{
		SavedAt: k.Now(), Note: note, Text: textOf(a.Recipe), Corrections: a.Recipe.Corrections(), PanelJSON: string(panel),
	}, nil
}

// textOf is the recipe's own words where it was read from text, else its lines
// and steps written out.
func textOf(rec recipe.Recipe) string {
	if rec.Text != "" {
		return rec.Text
	}
	return recipe.Text(rec)
}
