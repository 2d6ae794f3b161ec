package testkit

import (
	"context"
	"slices"

	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
)

// WithFiles is the holdings with the files of their photos in place of the album, to be
// compared with others or kept when what they come from is closed.
func WithFiles(t require.TestingT, h kitchen.Holdings) kitchen.Holdings {
	h.Recipes = slices.Clone(h.Recipes)
	for i := range h.Recipes {
		r := &h.Recipes[i]
		r.Photos = slices.Clone(r.Photos)
		for j, p := range r.Photos {
			picture, err := h.Picture(context.Background(), p)
			require.NoError(t, err)
			r.Photos[j].Picture = picture
		}
	}
	h.Album = nil
	return h
}
