package api

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"potwright/internal/diagnostic"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"
)

// correctionsBody is what someone says the ingredient lines of a text mean: by the words
// of the line, or by its number.
type correctionsBody struct {
	Corrections []recipe.LineCorrection `json:"corrections,omitzero"`
	// Fixes are corrections by the number of the line, counted from 0.
	Fixes map[int]recipe.Correction `json:"fixes,omitzero"`
}

// told reports whether anything is said of corrections, none included.
func (b correctionsBody) told() bool { return b.Corrections != nil || b.Fixes != nil }

// of are the corrections for the text.
func (b correctionsBody) of(text string) ([]recipe.LineCorrection, error) {
	if n := len(b.Corrections); n > recipe.MaxLines {
		return nil, unusable("corrections", "there are %d of them; expected at most %d, as many as a recipe has lines", n, recipe.MaxLines)
	}
	for i, c := range b.Corrections {
		if c.Words == "" && c.At == 0 {
			return nil, unusable(fmt.Sprintf("corrections.%d.words", i), "no words; expected those of the ingredient line that is corrected")
		}
		if err := checkedAs(fmt.Sprintf("corrections.%d.", i), c.Correction); err != nil {
			return nil, err
		}
	}
	if len(b.Fixes) == 0 {
		return b.Corrections, nil
	}
	if len(b.Corrections) > 0 {
		return nil, unusable("fixes", "corrections and fixes say the same in two ways; expected one of them")
	}
	return numbered(b.Fixes, text)
}

// numbered are corrections by number for a text, which names a line without doubt: it is
// read now.
func numbered(fixes map[int]recipe.Correction, text string) ([]recipe.LineCorrection, error) {
	rec, err := recipe.Parse(text)
	if err != nil {
		return nil, err
	}
	for _, i := range slices.Sorted(maps.Keys(fixes)) {
		if i < 0 || i >= len(rec.Lines) {
			return nil, unusable(fmt.Sprintf("fixes.%d", i), "there is no ingredient line %d; expected 0 to %d, counted from 0", i, len(rec.Lines)-1)
		}
		fix := fixes[i]
		if err := checkedAs(fmt.Sprintf("fixes.%d.", i), fix); err != nil {
			return nil, err
		}
		rec.Lines[i].Fix = &fix
	}
	return rec.Corrections(), nil
}

// checkedAs is Check with the field's place in the body.
func checkedAs(place string, c recipe.Correction) error {
	var fault diagnostic.Fault
	if err := c.Check(); errors.As(err, &fault) {
		fault.Field = place + fault.Field
		return fault
	}
	return nil
}

// fixesOf are a version's corrections by the number of their line.
func fixesOf(v recipe.Version) map[int]recipe.Correction {
	out := map[int]recipe.Correction{}
	if len(v.Corrections) == 0 {
		return out
	}
	rec, err := recipe.ParseKept(v.Text, ingredient.Read)
	if err != nil {
		return out
	}
	rec.Correct(v.Corrections)
	for i, l := range rec.Lines {
		if l.Fix != nil {
			out[i] = *l.Fix
		}
	}
	return out
}
