package kitchen_test

import (
	"bytes"
	"image"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/recipe"
)

func pngOf(t *testing.T, w, h int) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, w, h))))
	return b.Bytes()
}

func TestAPhotoIsKeptWithItsRecipe(t *testing.T) {
	k, h := stored(t)
	v, _ := first(t, k, h)
	p, err := k.AddPhoto(t.Context(), h.ID, v.RecipeID, pngOf(t, 900, 600), "the pot")
	require.NoError(t, err)
	assert.True(t, p.Main)
	small, err := storeOf(k).PhotoFile(t.Context(), h.ID, p.Digest, true)
	require.NoError(t, err)
	assert.Equal(t, p.Picture.Small.JPEG, small)
	assert.Equal(t, 400, p.Picture.Small.Width)

	for name, c := range map[string]struct {
		file []byte
		want string
	}{
		"the same again": {pngOf(t, 900, 600), "the recipe has this photo already"},
		"no picture":     {[]byte("two onions"), "this is no picture"},
	} {
		_, err := k.AddPhoto(t.Context(), h.ID, v.RecipeID, c.file, "")
		var fault diagnostic.Fault
		require.ErrorAs(t, err, &fault, name)
		assert.Contains(t, fault.Error(), c.want)
	}
	for i := 1; i < photo.MostPhotos; i++ {
		_, err := k.AddPhoto(t.Context(), h.ID, v.RecipeID, pngOf(t, i, 1), "")
		require.NoError(t, err)
	}
	_, err = k.AddPhoto(t.Context(), h.ID, v.RecipeID, pngOf(t, 40, 1), "")
	require.ErrorContains(t, err, "12 photos already; expected at most 12: remove one first")
	_, err = k.AddPhoto(t.Context(), h.ID+1, v.RecipeID, pngOf(t, 41, 1), "")
	require.ErrorIs(t, err, kitchen.ErrNotFound)
}

// What is given away is what a cook ticked, and one of it stands for the dish.
func TestOnlyPhotosOfTheCardAreGivenAway(t *testing.T) {
	r := kitchen.HeldRecipe{Versions: []recipe.Version{{ID: 1, Number: 1}}, Photos: []photo.Photo{{Digest: "a", Main: true}, {Digest: "b", OnCard: true}}}
	assert.Equal(t, []photo.Photo{{Digest: "b", OnCard: true, Main: true}}, kitchen.Holdings{}.Shared(r).Recipes[0].Photos)
	assert.False(t, r.Photos[1].Main, "the household's own is not touched")
}
