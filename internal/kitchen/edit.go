package kitchen

import (
	"reflect"

	"potwright/internal/recipe"
)

// edits are a person's own changes of a version, for the history: lines and
// steps that differ, and lines whose meaning was corrected.
func edits(parent recipe.Version, a Analysis) []recipe.Change {
	was, err := recipe.Parse(parent.Text)
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
