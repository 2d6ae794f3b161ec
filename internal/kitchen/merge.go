package kitchen

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"potwright/internal/daybook"
	"potwright/internal/photo"
)

// merged is what is there now with the change that leads from what someone saw to what
// they want; ok is false where somebody else changed it to something else.
func merged[T comparable](now, seen, wanted T) (out T, ok bool) {
	switch {
	case wanted == seen:
		return now, true
	case now == seen || now == wanted:
		return wanted, true
	}
	return now, false
}

// mergedSet is merged for things that are in or out: that can't collide.
func mergedSet[T comparable](now, seen, wanted []T) []T {
	out := slices.DeleteFunc(slices.Clone(now), func(t T) bool {
		return slices.Contains(seen, t) && !slices.Contains(wanted, t)
	})
	for _, t := range wanted {
		if !slices.Contains(seen, t) && !slices.Contains(out, t) {
			out = append(out, t)
		}
	}
	return out
}

// PhotoWords are what a cook says of a photo.
type PhotoWords struct {
	Caption string `json:"caption"`
	OnCard  bool   `json:"on_card"`
}

// WordsOf is what is said of a photo.
func WordsOf(p photo.Photo) PhotoWords { return PhotoWords{p.Caption, p.OnCard} }

// Describe says of a photo what someone wants who saw it described otherwise; with main
// it stands for the dish from now on. Where somebody else changed the same words in
// between, nothing is saved: ErrChanged, with what is there now.
func Describe(ctx context.Context, store PhotoStore, householdID int64, p photo.Photo, seen, wanted PhotoWords, main bool) (PhotoWords, error) {
	for range changeTries {
		now, err := FindPhoto(ctx, store, householdID, p.RecipeID, p.ID)
		if err != nil {
			return PhotoWords{}, err
		}
		next := now
		var ok bool
		if next.Caption, ok = merged(now.Caption, seen.Caption, wanted.Caption); !ok {
			return WordsOf(now), ErrChanged
		}
		next.OnCard, _ = merged(now.OnCard, seen.OnCard, wanted.OnCard) // of two answers both can't be new
		next.Main = main
		if err = store.SavePhoto(ctx, householdID, next, MarkOf(now)); !errors.Is(err, ErrChanged) {
			return WordsOf(next), err
		}
	}
	return PhotoWords{}, fmt.Errorf("photo %d: %w", p.ID, ErrChanged)
}

// EntryTime is when something is or was eaten, and which of the two.
type EntryTime struct {
	Date  daybook.Date  `json:"date"`
	Meal  daybook.Meal  `json:"meal"`
	State daybook.State `json:"state"`
}

// TimeOf is an entry's.
func TimeOf(e daybook.Entry) EntryTime { return EntryTime{e.Date, e.Meal, e.State} }

// MoveEntry moves an entry as someone wants who saw it elsewhere. Where somebody else
// moved it in between, nothing is saved: ErrChanged, with where it is now. The day and
// whether it was eaten belong together.
func MoveEntry(ctx context.Context, store DaybookStore, householdID, entryID int64, seen, wanted EntryTime) (EntryTime, error) {
	for range changeTries {
		now, err := store.FindEntry(ctx, householdID, entryID)
		if err != nil {
			return EntryTime{}, err
		}
		next, ok := mergedTime(TimeOf(now), seen, wanted)
		if !ok {
			return TimeOf(now), ErrChanged
		}
		moved := now
		moved.Date, moved.Meal, moved.State = next.Date, next.Meal, next.State
		if err = store.ChangeEntry(ctx, householdID, moved, MarkOf(now)); !errors.Is(err, ErrChanged) {
			return next, err
		}
	}
	return EntryTime{}, fmt.Errorf("entry %d: %w", entryID, ErrChanged)
}

func mergedTime(now, seen, wanted EntryTime) (EntryTime, bool) {
	type day struct {
		date  daybook.Date
		state daybook.State
	}
	on, ok1 := merged(day{now.Date, now.State}, day{seen.Date, seen.State}, day{wanted.Date, wanted.State})
	meal, ok2 := merged(now.Meal, seen.Meal, wanted.Meal)
	return EntryTime{on.date, meal, on.state}, ok1 && ok2
}
