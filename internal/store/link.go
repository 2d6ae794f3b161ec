package store

import (
	"context"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/access"
)

// linkRow is a row of links.
type linkRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	RecipeID    int64
	VersionID   int64
	Digest      string
	CreatedAt   string `gorm:"autoCreateTime:false"`
}

// TableName is the table's name in the schema.
func (linkRow) TableName() string { return "links" }

func (r linkRow) link() (access.Link, error) {
	at, err := place{"links", r.ID}.time("created_at", r.CreatedAt)
	return access.Link{ID: r.ID, HouseholdID: r.HouseholdID, RecipeID: r.RecipeID, VersionID: r.VersionID, CreatedAt: at}, err
}

// CreateLink saves a link under its digest. kitchen.ErrNotFound where the household
// has no such recipe.
func (s *Store) CreateLink(ctx context.Context, l access.Link, digest string) (access.Link, error) {
	row := linkRow{HouseholdID: l.HouseholdID, RecipeID: l.RecipeID, VersionID: l.VersionID, Digest: digest, CreatedAt: l.CreatedAt.UTC().Format(timeLayout)}
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := requireRecipe(tx, l.HouseholdID, l.RecipeID); err != nil {
			return err
		}
		return tx.Create(&row).Error
	})
	if err != nil {
		return access.Link{}, fmt.Errorf("save link: %w", err)
	}
	l.ID = row.ID
	return l, nil
}

// FindLink finds the link of a digest.
func (s *Store) FindLink(ctx context.Context, digest string) (access.Link, error) {
	var row linkRow
	err := s.ask(ctx, func(tx *gorm.DB) error { return known(tx.Where("digest = ?", digest).Take(&row).Error) })
	if err != nil {
		return access.Link{}, fmt.Errorf("find link: %w", err)
	}
	return row.link()
}

// ListLinks gives the links to any version of a recipe, the newest first.
func (s *Store) ListLinks(ctx context.Context, householdID, recipeID int64) ([]access.Link, error) {
	var rows []linkRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return tx.Where("household_id = ? AND recipe_id = ?", householdID, recipeID).Order("id DESC").Find(&rows).Error
	})
	if err != nil {
		return nil, fmt.Errorf("list links: %w", err)
	}
	return each(rows, linkRow.link)
}

// DeleteLink revokes one of the links to a recipe.
func (s *Store) DeleteLink(ctx context.Context, householdID, recipeID, id int64) error {
	return s.drop(ctx, "revoke link", func(tx *gorm.DB) *gorm.DB {
		return tx.Where("id = ? AND household_id = ? AND recipe_id = ?", id, householdID, recipeID).Delete(&linkRow{})
	})
}
