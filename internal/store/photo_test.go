package store_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/testkit"
)

// aPhoto is a photo whose files are words: the store doesn't open them.
func aPhoto(recipeID int64, name string) photo.Photo {
	p := photo.Picture{Large: photo.Image{JPEG: []byte(name + "\x00\xff large"), Width: 1600, Height: 1200}, Small: photo.Image{JPEG: []byte(name + " small"), Width: 400, Height: 300}}
	return photo.Photo{RecipeID: recipeID, Digest: p.Digest(), Picture: p, Caption: name, AddedAt: time.Date(2026, 3, 1, 12, 0, 0, 7, time.UTC)}
}

func mustPhoto(t *testing.T, s *kept, householdID, recipeID int64, name string) photo.Photo {
	t.Helper()
	p, err := s.AddPhoto(t.Context(), householdID, aPhoto(recipeID, name))
	require.NoError(t, err)
	return p
}

// light is a photo as a list gives it.
func light(p photo.Photo) photo.Photo {
	p.Picture.Large.JPEG, p.Picture.Small.JPEG = nil, nil
	return p
}

func TestPhotosAreKeptByteForByte(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "Quay Lane")
		soup := mustRecipe(t, s, h.ID, "Soup").RecipeID
		first, second := mustPhoto(t, s, h.ID, soup, "the pot"), mustPhoto(t, s, h.ID, soup, "the plate")
		assert.True(t, first.Main, "the first stands for the dish")
		assert.False(t, second.Main)
		list, err := s.ListPhotos(t.Context(), h.ID, soup)
		require.NoError(t, err)
		assert.Equal(t, []photo.Photo{light(first), light(second)}, list)
		for _, small := range []bool{false, true} {
			want := second.Picture.Large.JPEG
			if small {
				want = second.Picture.Small.JPEG
			}
			got, err := s.PhotoFile(t.Context(), h.ID, second.Digest, small)
			require.NoError(t, err)
			assert.Equal(t, want, got)
		}
		held, err := s.Holdings(t.Context(), h.ID)
		require.NoError(t, err)
		assert.Equal(t, []photo.Photo{light(first), light(second)}, held.Recipes[0].Photos, "the files stay where they are")
		assert.Equal(t, []photo.Photo{first, second}, testkit.WithFiles(t, held).Recipes[0].Photos)
	})
}

func TestOnePhotoStandsForTheDish(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "Quay Lane")
		soup, bread := mustRecipe(t, s, h.ID, "Soup").RecipeID, mustRecipe(t, s, h.ID, "Bread").RecipeID
		first, second, third := mustPhoto(t, s, h.ID, soup, "a"), mustPhoto(t, s, h.ID, soup, "b"), mustPhoto(t, s, h.ID, soup, "c")
		mains := func() map[int64]photo.Photo {
			got, err := s.MainPhotos(t.Context(), h.ID, []int64{soup, bread})
			require.NoError(t, err)
			return got
		}
		assert.Equal(t, map[int64]photo.Photo{soup: light(first)}, mains())

		third.Main, third.Caption, third.OnCard = true, "on the plate", true
		require.NoError(t, s.SavePhoto(t.Context(), h.ID, third, ""))
		assert.Equal(t, map[int64]photo.Photo{soup: light(third)}, mains())
		second.Caption = "in the oven"
		require.NoError(t, s.SavePhoto(t.Context(), h.ID, second, ""))
		assert.Equal(t, light(third), mains()[soup], "a caption alone leaves it")
		list, err := s.ListPhotos(t.Context(), h.ID, soup)
		require.NoError(t, err)
		first.Main = false
		assert.Equal(t, []photo.Photo{light(third), light(first), light(second)}, list)

		require.NoError(t, s.DeletePhoto(t.Context(), h.ID, soup, third.ID))
		assert.Equal(t, first.ID, mains()[soup].ID, "the oldest takes its place")
		require.NoError(t, s.DeletePhoto(t.Context(), h.ID, soup, second.ID))
		require.NoError(t, s.DeletePhoto(t.Context(), h.ID, soup, first.ID))
		assert.Empty(t, mains())
		none, err := s.MainPhotos(t.Context(), h.ID, nil)
		require.NoError(t, err)
		assert.Empty(t, none)
	})
}

func TestPhotosRefused(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "Quay Lane")
		soup, bread := mustRecipe(t, s, h.ID, "Soup").RecipeID, mustRecipe(t, s, h.ID, "Bread").RecipeID
		mustPhoto(t, s, h.ID, soup, "a")
		mustPhoto(t, s, h.ID, bread, "a")
		_, err := s.AddPhoto(t.Context(), h.ID, aPhoto(soup, "a"))
		require.ErrorIs(t, err, kitchen.ErrPhotoThere)
		_, err = s.AddPhoto(t.Context(), h.ID, photo.Photo{RecipeID: soup})
		require.ErrorContains(t, err, "there is no picture")
		for i := 1; i < photo.MostPhotos; i++ {
			mustPhoto(t, s, h.ID, soup, fmt.Sprint(i))
		}
		_, err = s.AddPhoto(t.Context(), h.ID, aPhoto(soup, "one more"))
		require.ErrorIs(t, err, kitchen.ErrPhotosFull)
	})
}

func TestAPhotoIsFoundOnlyInItsHouseholdAndRecipe(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h, other := mustHousehold(t, s, "Quay Lane"), mustHousehold(t, s, "Mill Row")
		soup, bread := mustRecipe(t, s, h.ID, "Soup").RecipeID, mustRecipe(t, s, h.ID, "Bread").RecipeID
		p := mustPhoto(t, s, h.ID, soup, "a")
		elsewhere := p
		elsewhere.RecipeID = bread
		for name, err := range map[string]error{
			"save, another household":   s.SavePhoto(t.Context(), other.ID, p, ""),
			"save, another recipe":      s.SavePhoto(t.Context(), h.ID, elsewhere, ""),
			"delete, another household": s.DeletePhoto(t.Context(), other.ID, soup, p.ID),
			"delete, another recipe":    s.DeletePhoto(t.Context(), h.ID, bread, p.ID),
			"add, another household":    func() error { _, err := s.AddPhoto(t.Context(), other.ID, aPhoto(soup, "b")); return err }(),
			"file, another household":   func() error { _, err := s.PhotoFile(t.Context(), other.ID, p.Digest, false); return err }(),
		} {
			require.ErrorIs(t, err, kitchen.ErrNotFound, name)
		}
		list, err := s.ListPhotos(t.Context(), other.ID, soup)
		require.NoError(t, err)
		assert.Empty(t, list)
		mains, err := s.MainPhotos(t.Context(), other.ID, []int64{soup})
		require.NoError(t, err)
		assert.Empty(t, mains)
	})
}

func TestHoldingsOfOneRecipeHoldNoOther(t *testing.T) {
	eachEngine(t, func(t *testing.T, on engine) {
		s := on.newStore(t)
		h := mustHousehold(t, s, "Quay Lane")
		soup, _ := mustRecipe(t, s, h.ID, "Soup").RecipeID, mustRecipe(t, s, h.ID, "Bread")
		held, err := s.Holdings(t.Context(), h.ID, soup)
		require.NoError(t, err)
		require.Len(t, held.Recipes, 1)
		assert.Equal(t, "Soup", held.Recipes[0].Title)
	})
}
