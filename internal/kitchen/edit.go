package kitchen

import (
	"context"
	"reflect"

	"potwright/internal/ingredient"
	"potwright/internal/recipe"
)

// ReadEdit is ReadFor for the changed text of a version. Its corrections stay with
// the lines whose words did not change, and with those in their place that differ in
// their amount only.
func (k *Kitchen) ReadEdit(ctx context.Context, householdID int64, parent recipe.Version, text string) (Analysis, error) {
	was, err := recipe.ParseKept(parent.Text, ingredient.Read)
	if err != nil || len(parent.Fixes) == 0 {
		return k.ReadFor(ctx, householdID, text, nil)
	}
	is, err := recipe.Parse(text)
	if err != nil {
		return Analysis{}, err
	}
	return k.ReadFor(ctx, householdID, text, keptFixes(parent.Fixes, was.Lines, is.Lines))
}

// keptFixes carries corrections of lines over to changed lines.
func keptFixes(fixes map[int]recipe.Correction, was, is []recipe.Line) map[int]recipe.Correction {
	byText := map[string]recipe.Correction{}
	for i, fix := range fixes {
		if i >= 0 && i < len(was) {
			byText[was[i].Reading.Text] = fix
		}
	}
	out := map[int]recipe.Correction{}
	for i, l := range is {
		if fix, ok := byText[l.Reading.Text]; ok {
			out[i] = fix
			continue
		}
		if fix, had := fixes[i]; had && len(is) == len(was) {
			if fix, ok := carried(was[i].Reading, l.Reading, fix); ok {
				out[i] = fix
			}
		}
	}
	return out
}

// carried is a correction of a line for the changed line that stands for the same
// food: the food stays, and a weight goes with the amount.
func carried(was, is ingredient.Reading, fix recipe.Correction) (recipe.Correction, bool) {
	if was.Food == "" || was.Food != is.Food {
		return recipe.Correction{}, false
	}
	if fix.Grams == nil {
		return fix, true
	}
	k, ok := ingredient.Times(is, was)
	if !ok {
		fix.Grams = nil
		return fix, fix.FoodID != "" || fix.Skip
	}
	grams := fix.Grams.Scale(k)
	fix.Grams = &grams
	return fix, true
}

// edits are a person's own changes of a version, for the history: lines and
// steps that differ, and lines whose meaning was corrected.
func edits(parent recipe.Version, a Analysis) []recipe.Change {
	was, err := recipe.ParseKept(parent.Text, ingredient.Read)
	if err != nil {
		return nil // a parent that no longer reads has nothing to compare with
	}
	lines, steps := recipe.Diff(was, a.Recipe)
	var out []recipe.Change
	for _, d := range lines {
		if d.Kind != recipe.Same {
			out = append(out, recipe.Change{Line: d.FromIndex, From: d.From, To: nonEmpty(d.To), Why: []string{"edited"}})
			continue
		}
		fix := a.Recipe.Lines[d.ToIndex].Fix
		old, had := parent.Fixes[d.FromIndex]
		if had != (fix != nil) || had && !reflect.DeepEqual(old, *fix) {
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
