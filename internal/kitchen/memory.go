package kitchen

import (
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/measure"
	"potwright/internal/product"
	"potwright/internal/recall"
	"potwright/internal/recipe"
)

// Memory keeps what was found of saved versions at hand. A version is never changed,
// so what was found holds for as long as what it was read with (the pantry, what the
// household said that phrases mean, whose cups and spoons) and, for a verdict, the
// people stay as they were: all of that is part of the key. It is safe for concurrent
// use; the rules and the food table are those of one run of the program.
type Memory struct {
	analyses recall.Memory[keptKey, Analysis]
	verdicts recall.Memory[keptKey, Swept]
}

// NewMemory keeps at most so many analyses (some 100 kB each) and verdicts (some 1 kB).
func NewMemory(analyses, verdicts int) *Memory {
	m := &Memory{}
	m.analyses.Limit, m.verdicts.Limit = analyses, verdicts
	return m
}

// keptKey is a version under all that what is kept rests on.
type keptKey struct {
	under   [sha256.Size]byte
	version int64
}

// ways are what a household's recipes are read with.
type ways struct {
	household  household.Household
	remembered map[string]recipe.Correction
	pantry     []product.Product
	measures   measure.System
}

func (k *Kitchen) waysOf(ctx context.Context, householdID int64) (w ways, err error) {
	if w.household, err = k.Store.FindHousehold(ctx, householdID); err != nil {
		return w, fmt.Errorf("find household %d: %w", householdID, err)
	}
	w.measures = w.household.Measures
	if w.remembered, err = k.Store.Choices(ctx, householdID); err != nil {
		return w, fmt.Errorf("find the choices of household %d: %w", householdID, err)
	}
	if w.pantry, err = k.Store.ListProducts(ctx, householdID); err != nil {
		return w, fmt.Errorf("list the products of household %d: %w", householdID, err)
	}
	return w, nil
}

// sum tells these ways from any others; with people, the people too.
func (w ways) sum(people bool) ([sha256.Size]byte, error) {
	if !people {
		w.household = household.Household{}
	}
	text, err := json.Marshal(struct {
		Household  household.Household
		Remembered map[string]recipe.Correction
		Pantry     []product.Product
		Measures   measure.System
	}{w.household, w.remembered, w.pantry, w.measures})
	if err != nil {
		return [sha256.Size]byte{}, fmt.Errorf("write what the household's recipes are read with: %w", err)
	}
	return sha256.Sum256(text), nil
}

// readerWith is the kitchen with the household's products and cups.
func (k *Kitchen) readerWith(w ways) (*Kitchen, error) {
	table, err := k.tableWith(w.pantry)
	if err != nil {
		return nil, err
	}
	return k.over(table).Measuring(w.measures), nil
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
