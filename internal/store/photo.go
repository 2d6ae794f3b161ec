package store

import (
	"context"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

// photoRow is a row of photos.
type photoRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	RecipeID    int64
	Digest      string
	Caption     string
	Main        bool
	OnCard      bool
	AddedAt     string
	Width       int
	Height      int
	SmallWidth  int
	SmallHeight int
	Large       []byte
	Small       []byte
}

// TableName is the table's name in the schema.
func (photoRow) TableName() string { return "photos" }

func newPhotoRow(householdID int64, p photo.Photo) photoRow {
	large, small := p.Picture.Large, p.Picture.Small
	return photoRow{ID: p.ID, HouseholdID: householdID, RecipeID: p.RecipeID, Digest: p.Digest, Caption: p.Caption, Main: p.Main, OnCard: p.OnCard,
		AddedAt: p.AddedAt.UTC().Format(timeLayout), Width: large.Width, Height: large.Height, SmallWidth: small.Width, SmallHeight: small.Height,
		Large: large.JPEG, Small: small.JPEG}
}

func (r photoRow) photo() (photo.Photo, error) {
	added, err := place{"photos", r.ID}.time("added_at", r.AddedAt)
	return photo.Photo{ID: r.ID, RecipeID: r.RecipeID, Digest: r.Digest, Caption: r.Caption, Main: r.Main, OnCard: r.OnCard, AddedAt: added,
		Picture: photo.Picture{
			Large: photo.Image{JPEG: r.Large, Width: r.Width, Height: r.Height},
			Small: photo.Image{JPEG: r.Small, Width: r.SmallWidth, Height: r.SmallHeight},
		}}, err
}

// photosOf reads the rows of a query, the one that stands for the dish first.
func photosOf(query *gorm.DB) ([]photo.Photo, error) {
	var rows []photoRow
	if err := query.Order("main DESC, id").Find(&rows).Error; err != nil {
		return nil, err
	}
	return each(rows, photoRow.photo)
}

// withoutFiles leaves the pictures where they are.
func withoutFiles(tx *gorm.DB) *gorm.DB { return tx.Omit("large", "small") }

// ListPhotos gives a recipe's photos without their files.
func (s *Store) ListPhotos(ctx context.Context, householdID, recipeID int64) ([]photo.Photo, error) {
	var out []photo.Photo
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		// SQLite would look through all photos of a household that is asked for as well.
		own := tx.Model(&recipeRow{}).Select("id").Where("id = ? AND household_id = ?", recipeID, householdID)
		out, err = photosOf(withoutFiles(tx).Where("recipe_id IN (?)", own))
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list photos of recipe %d: %w", recipeID, err)
	}
	return out, nil
}

// MainPhotos gives the photos that stand for dishes, without their files, by recipe.
func (s *Store) MainPhotos(ctx context.Context, householdID int64, recipeIDs []int64) (map[int64]photo.Photo, error) {
	out := map[int64]photo.Photo{}
	if len(recipeIDs) == 0 {
		return out, nil
	}
	err := s.ask(ctx, func(tx *gorm.DB) error {
		list, err := photosOf(withoutFiles(tx).Where("household_id = ? AND recipe_id IN ? AND main", householdID, recipeIDs))
		for _, p := range list {
			out[p.RecipeID] = p
		}
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list photos of dishes: %w", err)
	}
	return out, nil
}

// AddPhoto keeps a new photo with its recipe; an id given is ignored.
func (s *Store) AddPhoto(ctx context.Context, householdID int64, p photo.Photo) (photo.Photo, error) {
	p.ID = 0
	err := p.Check()
	if err == nil {
		err = s.write(ctx, func(tx *gorm.DB) error {
			if err := requireRecipe(tx, householdID, p.RecipeID); err != nil {
				return err
			}
			var had []photoRow
			if err := tx.Select("id", "digest").Where("recipe_id = ?", p.RecipeID).Find(&had).Error; err != nil {
				return err
			}
			for _, row := range had {
				if row.Digest == p.Digest {
					return kitchen.ErrPhotoThere
				}
			}
			if len(had) >= photo.MostPhotos {
				return kitchen.ErrPhotosFull
			}
			p.Main = len(had) == 0
			row := newPhotoRow(householdID, p)
			err := tx.Create(&row).Error
			p.ID = row.ID
			return err
		})
	}
	if err != nil {
		return photo.Photo{}, fmt.Errorf("keep a photo with recipe %d: %w", p.RecipeID, err)
	}
	return p, nil
}

// SavePhoto keeps the caption of a photo, whether it goes on the card, and with Main that
// it stands for the dish. kitchen.ErrChanged where the photo that is there is not what
// over marks.
func (s *Store) SavePhoto(ctx context.Context, householdID int64, p photo.Photo, over kitchen.Mark) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		var row photoRow
		if err := findPhoto(tx, householdID, p.RecipeID, p.ID, &row); err != nil {
			return err
		}
		if err := unchanged(over, func() (any, error) { return row.photo() }); err != nil {
			return err
		}
		changes := map[string]any{"caption": p.Caption, "on_card": p.OnCard}
		if p.Main {
			if err := photosIn(tx, p.RecipeID).Update("main", false).Error; err != nil {
				return err
			}
			changes["main"] = true
		}
		return photosIn(tx, p.RecipeID).Where("id = ?", p.ID).Updates(changes).Error
	})
	if err != nil {
		return fmt.Errorf("save photo %d: %w", p.ID, err)
	}
	return nil
}

func photosIn(tx *gorm.DB, recipeID int64) *gorm.DB {
	return tx.Model(&photoRow{}).Where("recipe_id = ?", recipeID)
}

func findPhoto(tx *gorm.DB, householdID, recipeID, photoID int64, row *photoRow) error {
	return findOne(withoutFiles(tx).Where("id = ? AND household_id = ? AND recipe_id = ?", photoID, householdID, recipeID), row, fmt.Sprintf("photo %d", photoID))
}

// DeletePhoto drops one; where it stood for the dish, the oldest left does.
func (s *Store) DeletePhoto(ctx context.Context, householdID, recipeID, photoID int64) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		var gone photoRow
		if err := findPhoto(tx, householdID, recipeID, photoID, &gone); err != nil {
			return err
		}
		if err := tx.Where("id = ?", photoID).Delete(&photoRow{}).Error; err != nil || !gone.Main {
			return err
		}
		return photosIn(tx, recipeID).Where("id = (SELECT min(id) FROM photos WHERE recipe_id = ?)", recipeID).Update("main", true).Error
	})
	if err != nil {
		return fmt.Errorf("remove photo %d: %w", photoID, err)
	}
	return nil
}

// PhotoFile gives the JPEG of a household's photo, the large or the small one.
func (s *Store) PhotoFile(ctx context.Context, householdID int64, digest string, small bool) ([]byte, error) {
	column := "large"
	if small {
		column = "small"
	}
	var row photoRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return findOne(tx.Select(column).Where("household_id = ? AND digest = ?", householdID, digest), &row, "photo "+digest)
	})
	if small {
		return row.Small, err
	}
	return row.Large, err
}

// album has the files of a household's photos.
type album struct {
	store       *Store
	householdID int64
}

// Picture gives the files of a photo.
func (a album) Picture(ctx context.Context, digest string) (photo.Picture, error) {
	var photos []photo.Photo
	err := a.store.ask(ctx, func(tx *gorm.DB) (err error) {
		photos, err = photosOf(tx.Where("household_id = ? AND digest = ?", a.householdID, digest).Limit(1))
		return err
	})
	if err == nil && len(photos) == 0 {
		err = kitchen.ErrNotFound
	}
	if err != nil {
		return photo.Picture{}, fmt.Errorf("photo %.12s: %w", digest, err)
	}
	return photos[0].Picture, nil
}

// holdPhotos saves a recipe's photos as they stand, under new ids, one after the other.
func holdPhotos(tx *gorm.DB, householdID, recipeID int64, h kitchen.Holdings, photos []photo.Photo) error {
	for _, p := range photos {
		p.ID, p.RecipeID = 0, recipeID
		var err error
		if p.Picture, err = h.Picture(tx.Statement.Context, p); err == nil {
			err = p.Check()
		}
		if err == nil {
			row := newPhotoRow(householdID, p)
			err = tx.Create(&row).Error
		}
		if err != nil {
			return fmt.Errorf("photo %.12s: %w", p.Digest, err)
		}
	}
	return nil
}
