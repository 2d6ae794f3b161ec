package kitchen

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"potwright/internal/diagnostic"
)

// Bounds of what a recipe is filed under: so many tags, of so many characters each. A
// design choice.
const (
	MostTags = 20
	TagLimit = 40
)

// CleanTags are tags as they are kept, with single blanks. A diagnostic.Fault says what
// can't be kept.
func CleanTags(typed []string) ([]string, error) {
	if len(typed) > MostTags {
		return nil, diagnostic.Fault{Field: "tags", Problem: fmt.Sprintf("%d tags", len(typed)), Expected: fmt.Sprintf("at most %d", MostTags)}
	}
	tags := make([]string, len(typed))
	for i, t := range typed {
		tags[i] = strings.Join(strings.Fields(t), " ")
		if n := utf8.RuneCountInString(tags[i]); n == 0 || n > TagLimit || strings.Contains(t, ",") {
			return nil, diagnostic.Fault{Field: fmt.Sprintf("tags[%d]", i), Problem: fmt.Sprintf("the tag %q can't be kept", t),
				Expected: fmt.Sprintf("1 to %d characters without a comma", TagLimit)}
		}
	}
	return tags, nil
}

// Retag files a recipe under the wanted tags as someone who saw it under others asks:
// what somebody else filed it under in between, or took it out of, stays so. A
// diagnostic.Fault says what can't be kept.
func Retag(ctx context.Context, store LibraryStore, householdID, recipeID int64, seen, wanted []string) error {
	for range changeTries {
		now, err := store.TagsOf(ctx, householdID, recipeID)
		if err != nil {
			return err
		}
		tags, err := CleanTags(mergedSet(now, seen, wanted))
		if err != nil {
			return err
		}
		if err = store.SetTags(ctx, householdID, recipeID, tags, MarkOf(now)); !errors.Is(err, ErrChanged) {
			return err
		}
	}
	return fmt.Errorf("tags of recipe %d: %w", recipeID, ErrChanged)
}
