package kitchen

import (
	"context"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/measure"
	"potwright/internal/product"
	"potwright/internal/recipe"
)

// Stocked is a product of a household's pantry as the kitchen reads it.
type Stocked struct {
	product.Product
	// Food is what its label means, nil where it no longer reads.
	Food *composition.Food
	// Warnings are doubts about the label.
	Warnings []diagnostic.Fault
	// Err is why it does not read, such as a like food that left the table.
	Err error
}

// ReadProduct reads a label: the food it means, without an id, and doubts about it.
// err is diagnostic.Faults where it does not read.
func (k *Kitchen) ReadProduct(l product.Label) (food *composition.Food, warnings []diagnostic.Fault, err error) {
	var like *composition.Food
	if f, ok := k.Table.ByID(l.LikeID); ok {
		like = f
	}
	return product.Read(l, like)
}

// Pantry gives the household's products by name, each with its food.
func (k *Kitchen) Pantry(ctx context.Context, householdID int64) ([]Stocked, error) {
	list, err := k.Store.ListProducts(ctx, householdID)
	if err != nil {
		return nil, err
	}
	return k.stocked(list), nil
}

// stocked reads the labels of products.
func (k *Kitchen) stocked(list []product.Product) []Stocked {
	out := make([]Stocked, len(list))
	for i, p := range list {
		s := Stocked{Product: p}
		if s.Food, s.Warnings, s.Err = k.ReadProduct(p.Label); s.Food != nil {
			s.Food.ID = p.FoodID()
		}
		out[i] = s
	}
	return out
}

// Foods is the food table with the household's products laid over it. A product
// whose label no longer reads is left out; Pantry says why.
func (k *Kitchen) Foods(ctx context.Context, householdID int64) (*composition.Table, error) {
	list, err := k.Store.ListProducts(ctx, householdID)
	if err != nil {
		return nil, err
	}
	return k.tableWith(list)
}

// ReadFor is Read for a household: with its products, its remembered choices and
// its cups and spoons.
func (k *Kitchen) ReadFor(ctx context.Context, householdID int64, text string, corrections []recipe.LineCorrection) (Analysis, error) {
	return k.readAs(ctx, recipe.ParseWith, householdID, text, corrections)
}

// Reread is ReadFor for a text that was saved, or comes of one: it may be longer than
// what is read anew.
func (k *Kitchen) Reread(ctx context.Context, householdID int64, text string, corrections []recipe.LineCorrection) (Analysis, error) {
	return k.readAs(ctx, recipe.ParseKept, householdID, text, corrections)
}

func (k *Kitchen) readAs(ctx context.Context, parse parser, householdID int64, text string, corrections []recipe.LineCorrection) (Analysis, error) {
	w, err := k.waysOf(ctx, householdID)
	if err != nil {
		return Analysis{}, err
	}
	return w.read(parse, text, corrections, nil)
}

// over is the kitchen with another food table; nil leaves its own.
func (k *Kitchen) over(table *composition.Table) *Kitchen {
	if table == nil {
		return k
	}
	other := *k
	other.Table = table
	return &other
}

// Measuring is the kitchen with the cups and spoons of a system.
func (k *Kitchen) Measuring(s measure.System) *Kitchen {
	if s == k.Measures {
		return k
	}
	other := *k
	other.Measures = s
	return &other
}
