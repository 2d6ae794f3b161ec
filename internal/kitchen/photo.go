package kitchen

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"unicode/utf8"

	"potwright/internal/diagnostic"
	"potwright/internal/photo"
)

// Errors of AddPhoto.
var (
	ErrPhotoThere = errors.New("the recipe has this photo already")
	ErrPhotosFull = fmt.Errorf("the recipe has %d photos already", photo.MostPhotos)
)

// PhotoStore keeps the photos of dishes, each with its recipe. What is kept is found by
// household as well as by id.
type PhotoStore interface {
	// ListPhotos gives a recipe's photos without their files: the one that stands for
	// the dish first, then as they were added.
	ListPhotos(ctx context.Context, householdID, recipeID int64) ([]photo.Photo, error)
	// MainPhotos gives the photos that stand for dishes, without their files, by recipe;
	// a recipe that has none is left out.
	MainPhotos(ctx context.Context, householdID int64, recipeIDs []int64) (map[int64]photo.Photo, error)
	// SavePhoto keeps the caption of a photo and whether it goes on the card; with Main
	// it stands for the dish from now on, in place of another. ErrChanged where the photo
	// that is there is not what over marks.
	SavePhoto(ctx context.Context, householdID int64, p photo.Photo, over Mark) error
	// DeletePhoto drops one; where it stood for the dish, the oldest left does.
	DeletePhoto(ctx context.Context, householdID, recipeID, photoID int64) error
	// PhotoFile gives the JPEG of a household's photo, the large or the small one.
	PhotoFile(ctx context.Context, householdID int64, digest string, small bool) ([]byte, error)
}

// FindPhoto finds one of a recipe's photos, without its files.
func FindPhoto(ctx context.Context, store PhotoStore, householdID, recipeID, id int64) (photo.Photo, error) {
	photos, err := store.ListPhotos(ctx, householdID, recipeID)
	if err != nil {
		return photo.Photo{}, err
	}
	if i := slices.IndexFunc(photos, func(p photo.Photo) bool { return p.ID == id }); i >= 0 {
		return photos[i], nil
	}
	return photo.Photo{}, fmt.Errorf("photo %d: %w", id, ErrNotFound)
}

// AddPhoto keeps the picture of a file that was sent with a recipe. What keeps it from
// being taken is a diagnostic.Fault.
func (k *Kitchen) AddPhoto(ctx context.Context, householdID, recipeID int64, file []byte, caption string) (photo.Photo, error) {
	if utf8.RuneCountInString(caption) > photo.MostCaption {
		return photo.Photo{}, diagnostic.Fault{Field: "caption", Problem: "the words under the photo are too long", Expected: fmt.Sprintf("at most %d characters", photo.MostCaption)}
	}
	picture, err := k.Darkroom.Develop(ctx, file)
	if err != nil {
		return photo.Photo{}, err
	}
	p := photo.Photo{RecipeID: recipeID, Digest: picture.Digest(), Picture: picture, Caption: caption, AddedAt: k.Now().UTC()}
	p, err = k.Store.AddPhoto(ctx, householdID, p)
	switch {
	case errors.Is(err, ErrPhotoThere):
		err = diagnostic.Fault{Problem: ErrPhotoThere.Error(), Expected: "another one"}
	case errors.Is(err, ErrPhotosFull):
		err = diagnostic.Fault{Problem: ErrPhotosFull.Error(), Expected: fmt.Sprintf("at most %d: remove one first", photo.MostPhotos)}
	}
	return p, err
}
