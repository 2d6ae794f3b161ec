package kitchen

import (
	"context"
	"reflect"

	"potwright/internal/ingredient"
	"potwright/internal/recipe"
)

// ReadEdit is ReadFor for the changed text of a version. Its corrections stay with
// the lines whose words did not change, and with those in their place that differ in
// their amount only; the others are strays.
func (k *Kitchen) ReadEdit(ctx context.Context, householdID int64, parent recipe.Version, text string) (Analysis, error) {
	was, err := recipe.ParseKept(parent.Text, ingredient.Read)
	if err != nil || len(parent.Corrections) == 0 {
		return k.ReadFor(ctx, householdID, text, parent.Corrections)
	}
	is, err := recipe.Parse(text)
	if err != nil {
		return Analysis{}, err
	}
	was.Correct(parent.Corrections)
	return k.ReadFor(ctx, householdID, text, recipe.Carried(was, is))
}

// edits are a person's own changes of a version, for the history: lines and
// steps that differ, and lines whose meaning was corrected.
func edits(parent recipe.Version, a Analysis) []recipe.Change {
	was, err := recipe.ParseKept(parent.Text, ingredient.Read)
	if err != nil {
		return nil // a parent that no longer reads has nothing to compare with
	}
	was.Correct(parent.Corrections)
	lines, steps := recipe.Diff(was, a.Recipe)
	var out []recipe.Change
	for _, d := range lines {
		if d.Kind != recipe.Same {
			out = append(out, recipe.Change{Line: d.FromIndex, From: d.From, To: nonEmpty(d.To), Why: []string{"edited"}})
			continue
		}
		if !reflect.DeepEqual(was.Lines[d.FromIndex].Fix, a.Recipe.Lines[d.ToIndex].Fix) {
			out = append(out, recipe.Change{Line: d.FromIndex, From: d.From, To: nonEmpty(d.To), Why: []string{"what the line means was corrected"}})
		}
	}
	for _, d := range steps {
		if d.Kind != recipe.Same {
			out = append(out, recipe.Change{Line: -1, From: d.From, To: nonEmpty(d.To), Why: []string{"step edited"}})
		}
	}
	return out
}

func nonEmpty(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}
