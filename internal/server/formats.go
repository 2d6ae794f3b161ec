package server

import (
	"context"
	"io"
	"time"

	"potwright/internal/archive"
	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
	"potwright/internal/schemaorg"
)

// Formats are the files of the pages and of the JSON door: schema.org markup, and
// archives of recipes and of whole households.
type Formats struct {
	// Asked is set where an archive comes from a server that was asked for it, and may be
	// as large as a file; others send theirs unasked.
	Asked bool
}

// Markup finds the recipe in a page's code or in JSON-LD; other text is given as it
// is.
func (Formats) Markup(text string) (words string, lost []string, err error) {
	found, ok, err := schemaorg.Read(text)
	if err != nil || !ok {
		return text, nil, err
	}
	return found.Text, found.Lost, nil
}

// JSONLD writes a recipe for other programs.
func (Formats) JSONLD(w io.Writer, a kitchen.Analysis) (lost []string, err error) {
	return schemaorg.Write(w, a)
}

// Pack writes recipes as a file for another household.
func (Formats) Pack(ctx context.Context, w io.Writer, h kitchen.Holdings) error {
	return archive.WriteRecipes(ctx, w, h, time.Now())
}

// Unpack reads such a file within the limits of an upload.
func (Formats) Unpack(r io.ReaderAt, size int64) (h kitchen.Holdings, notTaken []string, err error) {
	a, err := archive.Read(r, size, archive.SharedLimits())
	switch {
	case err != nil:
		return kitchen.Holdings{}, nil, err
	case a.Recipes == nil || len(a.Recipes.Recipes) == 0:
		return kitchen.Holdings{}, nil, diagnostic.Faults{{Problem: "this file holds whole households, or no recipe",
			Expected: "a recipe's file; whole households are taken in with potwright import"}}
	}
	return *a.Recipes, a.NotTaken, nil
}

// PackAll writes whole households as an archive.
func (Formats) PackAll(ctx context.Context, w io.Writer, all []kitchen.Holdings) error {
	return archive.Write(ctx, w, all, time.Now())
}

// UnpackAll reads such an archive.
func (f Formats) UnpackAll(r io.ReaderAt, size int64) (all []kitchen.Holdings, notTaken []string, err error) {
	within := archive.SentLimits()
	if f.Asked {
		within = archive.WholeLimits()
	}
	a, err := archive.Read(r, size, within)
	switch {
	case err != nil:
		return nil, nil, err
	case a.Recipes != nil:
		return nil, nil, diagnostic.Faults{{Problem: "this file holds recipes and no household", Expected: "an archive of households; a recipe's file is taken into a household"}}
	}
	return a.Households, a.NotTaken, nil
}
