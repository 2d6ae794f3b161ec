package store

import (
	"context"
	"errors"
	"fmt"
	"time"

	"gorm.io/gorm"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// versionRow is a row of versions.
type versionRow struct {
	ID       int64 `gorm:"primaryKey"`
	RecipeID int64
	ParentID *int64 // NULL for the first
	Number   int
	SavedAt  string
	Note     string
	Body     string
	// Fixes are corrections by the number of their line, as they were kept before there
	// were Corrections, which are "" where a program of then saved the version.
	Fixes       string
	Corrections string
	Changes     string
	Panel       string
	Plates      string
}

// TableName is the table's name in the schema.
func (versionRow) TableName() string { return "versions" }

func newVersionRow(v recipe.Version) (versionRow, error) {
	corrections, err1 := encode("corrections", v.Corrections)
	changes, err2 := encode("changes", v.Changes)
	row := versionRow{
		RecipeID: v.RecipeID, Number: v.Number, SavedAt: v.SavedAt.Format(timeLayout), Note: v.Note,
		Body: v.Text, Fixes: noFixes, Corrections: corrections, Changes: changes, Panel: v.PanelJSON, Plates: v.PlatesJSON,
	}
	if v.ParentID != 0 {
		row.ParentID = &v.ParentID
	}
	return row, errors.Join(err1, err2)
}

func (r versionRow) version() (recipe.Version, error) {
	v := recipe.Version{
		ID: r.ID, RecipeID: r.RecipeID, Number: r.Number, Note: r.Note,
		Text: r.Body, PanelJSON: r.Panel, PlatesJSON: r.Plates,
	}
	if r.ParentID != nil {
		v.ParentID = *r.ParentID
	}
	at := place{"versions", r.ID}
	saved, err := at.time("saved_at", r.SavedAt)
	v.SavedAt = saved
	if err := errors.Join(err, at.decode("changes", r.Changes, &v.Changes)); err != nil {
		return v, err
	}
	v.Corrections, err = r.corrections()
	return v, err
}

// noFixes is what the column fixes holds where corrections are kept in the other.
const noFixes = "{}"

// corrections are those of the row's version.
func (r versionRow) corrections() (all []recipe.LineCorrection, err error) {
	at := place{"versions", r.ID}
	if r.Corrections != "" {
		err = at.decode("corrections", r.Corrections, &all)
		return all, err
	}
	var fixes map[int]recipe.Correction
	if err := at.decode("fixes", r.Fixes, &fixes); err != nil {
		return nil, err
	}
	vs := []recipe.Version{{ID: r.ID, Text: r.Body}}
	recipe.TieNumbered(vs, map[int64]map[int]recipe.Correction{r.ID: fixes})
	return vs[0].Corrections, nil
}

// stamp is the time of saving, in UTC and without a monotonic reading, as it
// will be read back.
func (s *Store) stamp() time.Time { return s.now().UTC().Round(0) }

func insertVersion(tx *gorm.DB, v *recipe.Version) error {
	row, err := newVersionRow(*v)
	if err != nil {
		return err
	}
	if err := tx.Create(&row).Error; err != nil {
		return fmt.Errorf("version %d: %w", v.Number, err)
	}
	v.ID = row.ID
	return nil
}

// AddVersion saves a further version of v.RecipeID, names the recipe by title
// unless that is empty, and returns the version with id, number and time. kitchen.ErrNotFound where the household has no such recipe,
// or v.ParentID is not a version of it.
func (s *Store) AddVersion(ctx context.Context, householdID int64, title string, v recipe.Version) (recipe.Version, error) {
	v.SavedAt = s.stamp()
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := requireRecipe(tx, householdID, v.RecipeID); err != nil {
			return err
		}
		parent := tx.Where("id = ? AND recipe_id = ?", v.ParentID, v.RecipeID)
		if err := findOne(parent, &versionRow{}, fmt.Sprintf("parent version %d", v.ParentID)); err != nil {
			return err
		}
		last := tx.Model(&versionRow{}).Where("recipe_id = ?", v.RecipeID).Select("max(number)")
		if err := last.Scan(&v.Number).Error; err != nil {
			return fmt.Errorf("number version: %w", err)
		}
		v.Number++
		if title != "" {
			if err := tx.Model(&recipeRow{}).Where("id = ?", v.RecipeID).Update("title", title).Error; err != nil {
				return fmt.Errorf("title: %w", err)
			}
		}
		return insertVersion(tx, &v)
	})
	if err != nil {
		return recipe.Version{}, fmt.Errorf("save version of recipe %d: %w", v.RecipeID, err)
	}
	return v, nil
}

// versionsOf selects the versions of the household's recipes: each is held against its
// recipe, since a list of all recipes would be made anew for every question.
func versionsOf(tx *gorm.DB, householdID int64) *gorm.DB {
	return tx.Where("EXISTS (SELECT 1 FROM recipes AS r WHERE r.id = versions.recipe_id AND r.household_id = ?)", householdID)
}

// FindVersion gives one version of one of the household's recipes.
func (s *Store) FindVersion(ctx context.Context, householdID, versionID int64) (recipe.Version, error) {
	var row versionRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		query := versionsOf(tx, householdID).Where("id = ?", versionID)
		return findOne(query, &row, fmt.Sprintf("version %d", versionID))
	})
	if err != nil {
		return recipe.Version{}, err
	}
	return row.version()
}

// FindWritten gives by id what versions of the household's recipes are read from, all
// in one question. kitchen.ErrNotFound where one is not there.
func (s *Store) FindWritten(ctx context.Context, householdID int64, versionIDs []int64) (map[int64]recipe.Written, error) {
	var rows []versionRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return versionsOf(tx, householdID).Select("id", "body", "fixes", "corrections").Where("id IN ?", versionIDs).Find(&rows).Error
	})
	if err != nil {
		return nil, fmt.Errorf("find what versions are read from: %w", err)
	}
	out := make(map[int64]recipe.Written, len(rows))
	for _, r := range rows {
		corrections, err := r.corrections()
		if err != nil {
			return nil, err
		}
		out[r.ID] = recipe.Written{Text: r.Body, Corrections: corrections}
	}
	for _, id := range versionIDs {
		if _, ok := out[id]; !ok {
			return nil, fmt.Errorf("version %d: %w", id, kitchen.ErrNotFound)
		}
	}
	return out, nil
}

// ListVersions gives a recipe's versions, oldest first.
func (s *Store) ListVersions(ctx context.Context, householdID, recipeID int64) ([]recipe.Version, error) {
	var vs []recipe.Version
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		vs, err = listVersions(versionsOf(tx, householdID), recipeID)
		return err
	})
	return vs, err
}

func listVersions(tx *gorm.DB, recipeID int64) ([]recipe.Version, error) {
	var rows []versionRow
	if err := tx.Where("recipe_id = ?", recipeID).Order("number").Find(&rows).Error; err != nil {
		return nil, fmt.Errorf("list versions of recipe %d: %w", recipeID, err)
	}
	var vs []recipe.Version
	for _, row := range rows {
		v, err := row.version()
		if err != nil {
			return nil, err
		}
		vs = append(vs, v)
	}
	return vs, nil
}
