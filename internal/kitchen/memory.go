package kitchen

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"sync"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/measure"
	"potwright/internal/nutrient"
	"potwright/internal/product"
	"potwright/internal/recall"
	"potwright/internal/recipe"
)

// Memory keeps what was found of saved versions at hand. A version is never changed,
// so what was found holds for as long as what it was read with (the pantry, what the
// household said that phrases mean, whose cups and spoons) and, for a gist, what people
// need besides limits stay as they were: all of that is part of the key. It is safe for
// concurrent use; the rules and the food table are those of one run of the program.
type Memory struct {
	opened  recall.Memory[keptKey, opened]
	answers recall.Memory[sum, adaptation.Answer]
	gists   recall.Memory[keptKey, adaptation.Gist]
	ways    recall.Memory[int64, *ways]
}

// NewMemory keeps at most so many analyses (some 100 kB each) and gists (some 5 kB),
// the lines of a few households and some answers of the search for swaps.
func NewMemory(analyses, gists int) *Memory {
	m := &Memory{}
	m.opened.Limit, m.gists.Limit, m.ways.Limit, m.answers.Limit = analyses, gists, keptHouseholds, keptAnswers
	return m
}

// How many households are kept at hand, and how many lines of each (some 2 kB); how
// many answers (some 200 kB). Design choices: a line recurs from version to version,
// few households share a program, and few dishes are planned at a time.
const (
	keptHouseholds = 8
	keptLines      = 4000
	keptAnswers    = 100
)

// opened is a household's version with what was found of it.
type opened struct {
	household int64
	version   recipe.Version
	analysis  Analysis
}

// keptKey is a version under all that what is kept rests on.
type keptKey struct {
	under   sum
	version int64
}

type sum = [sha256.Size]byte

// ways are what a household's recipes are read with.
type ways struct {
	revision   string // of what belongs to no recipe, when they were asked for
	household  household.Household
	remembered map[string]recipe.Correction
	pantry     []product.Product
	// dish tells what a reading rests on from any other, gist what a gist does.
	dish, gist sum
	*reading
}

// reading is the kitchen with a household's products and cups, put together when
// something is read, and the lines it read before.
type reading struct {
	kitchen func() (*Kitchen, error)
	known   *lines
}

// waysOf finds the household's ways; they may be shared with others, and are not to be
// changed.
func (k *Kitchen) waysOf(ctx context.Context, householdID int64) (*ways, error) {
	store, ok := k.Store.(Revised)
	if k.Memory == nil || !ok {
		return k.findWays(ctx, householdID)
	}
	revision, err := store.RevisionOf(ctx, 0)
	if err != nil {
		return nil, err
	}
	before, known := k.Memory.ways.Find(householdID)
	if known && before.revision == revision {
		return before, nil
	}
	w, err := k.findWays(ctx, householdID)
	if err != nil {
		return nil, err
	}
	if w.revision = revision; known && before.dish == w.dish {
		w.reading = before.reading
	}
	k.Memory.ways.Put(householdID, w)
	return w, nil
}

// Household is the household as it is saved. What its members hold may be shared with
// others: it is not to be changed.
func (k *Kitchen) Household(ctx context.Context, id int64) (household.Household, error) {
	w, err := k.waysOf(ctx, id)
	if err != nil {
		return household.Household{}, err
	}
	h := w.household
	h.Members = slices.Clone(h.Members)
	return h, nil
}

func (k *Kitchen) findWays(ctx context.Context, householdID int64) (*ways, error) {
	w := &ways{}
	var err error
	if w.household, err = k.Store.FindHousehold(ctx, householdID); err != nil {
		return nil, fmt.Errorf("find household %d: %w", householdID, err)
	}
	if w.remembered, err = k.Store.Choices(ctx, householdID); err != nil {
		return nil, fmt.Errorf("find the choices of household %d: %w", householdID, err)
	}
	if w.pantry, err = k.Store.ListProducts(ctx, householdID); err != nil {
		return nil, fmt.Errorf("list the products of household %d: %w", householdID, err)
	}
	if w.dish, err = w.sum(household.Household{}); err != nil {
		return nil, err
	}
	if w.gist, err = w.sum(adaptation.WithoutLimits(w.household)); err != nil {
		return nil, err
	}
	w.reading = &reading{known: newLines()}
	w.kitchen = sync.OnceValues(func() (*Kitchen, error) { return k.readerWith(w.pantry, w.household.Measures) })
	return w, nil
}

// sum tells these ways for the people given from any others.
func (w *ways) sum(people household.Household) (sum, error) {
	text, err := json.Marshal(struct {
		Household  household.Household
		Remembered map[string]recipe.Correction
		Pantry     []product.Product
		Measures   measure.System
	}{people, w.remembered, w.pantry, w.household.Measures})
	if err != nil {
		return sum{}, fmt.Errorf("write what the household's recipes are read with: %w", err)
	}
	return sha256.Sum256(text), nil
}

// read reads text as the household's own, as Kitchen.read does.
func (w *ways) read(parse parser, text string, corrections []recipe.LineCorrection, sheet *nutrient.Sheet) (Analysis, error) {
	reader, err := w.kitchen()
	if err != nil {
		return Analysis{}, err
	}
	return reader.read(parse, text, w.remembered, corrections, w.known, sheet)
}

// readerWith is the kitchen with products and cups.
func (k *Kitchen) readerWith(pantry []product.Product, measures measure.System) (*Kitchen, error) {
	table, err := k.tableWith(pantry)
	if err != nil {
		return nil, err
	}
	return k.over(table).Measuring(measures), nil
}

// tableWith is the food table with products laid over it; one whose label no longer
// reads is left out.
func (k *Kitchen) tableWith(pantry []product.Product) (*composition.Table, error) {
	var own []*composition.Food
	for _, s := range k.stocked(pantry) {
		if s.Food != nil {
			own = append(own, s.Food)
		}
	}
	table, err := k.Table.With(own)
	if err != nil {
		return nil, fmt.Errorf("lay the pantry over the food table: %w", err)
	}
	return table, nil
}
