package store

import (
	"context"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// recipeRow is a row of recipes.
type recipeRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	Title       string
	CreatedAt   string `gorm:"autoCreateTime:false"`
}

// TableName is the table's name in the schema.
func (recipeRow) TableName() string { return "recipes" }

// summaryRow is a recipe with what its versions add up to.
type summaryRow struct {
	ID        int64
	Title     string
	CreatedAt string
	Versions  int
	LatestID  int64
	SavedAt   string
}

func (r summaryRow) summary() (kitchen.RecipeSummary, error) {
	sum := kitchen.RecipeSummary{ID: r.ID, Title: r.Title, Versions: r.Versions, LatestID: r.LatestID}
	var err error
	if sum.CreatedAt, err = (place{"recipes", r.ID}).time("created_at", r.CreatedAt); err != nil {
		return sum, err
	}
	sum.SavedAt, err = place{"versions", r.LatestID}.time("saved_at", r.SavedAt)
	return sum, err
}

// summaries selects the household's recipes, the one saved last first. A recipe
// is never without a version, and the newest one has the highest number.
func summaries(tx *gorm.DB, householdID int64) *gorm.DB {
	return tx.Table("recipes AS r").
		Select("r.id, r.title, r.created_at, v.number AS versions, v.id AS latest_id, v.saved_at").
		Joins("JOIN versions AS v ON v.recipe_id = r.id AND v.number = "+
			"(SELECT max(number) FROM versions WHERE recipe_id = r.id)").
		Where("r.household_id = ?", householdID).
		Order("v.id DESC")
}

// ListRecipes gives the household's recipes, the one saved last first.
func (s *Store) ListRecipes(ctx context.Context, householdID int64) ([]kitchen.RecipeSummary, error) {
	list, _, err := s.FindRecipes(ctx, householdID, kitchen.RecipeQuery{})
	return list, err
}

// FindRecipe gives one of the household's recipes.
func (s *Store) FindRecipe(ctx context.Context, householdID, recipeID int64) (kitchen.RecipeSummary, error) {
	var row summaryRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return findOne(summaries(tx, householdID).Where("r.id = ?", recipeID), &row, fmt.Sprintf("recipe %d", recipeID))
	})
	if err != nil {
		return kitchen.RecipeSummary{}, err
	}
	return row.summary()
}

// CreateRecipe saves a recipe with its first version and returns that version
// with ids, number and time; a parent given is ignored. kitchen.ErrNotFound
// where there is no such household.
func (s *Store) CreateRecipe(ctx context.Context, householdID int64, title string, v recipe.Version) (recipe.Version, error) {
	v.SavedAt, v.ParentID, v.Number = s.stamp(), 0, 1
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := requireHousehold(tx, householdID); err != nil {
			return err
		}
		row := recipeRow{HouseholdID: householdID, Title: title, CreatedAt: v.SavedAt.Format(timeLayout)}
		if err := tx.Create(&row).Error; err != nil {
			return err
		}
		v.RecipeID = row.ID
		return insertVersion(tx, &v)
	})
	if err != nil {
		return recipe.Version{}, fmt.Errorf("save recipe: %w", err)
	}
	return v, nil
}

// requireRecipe is kitchen.ErrNotFound where the household has no such recipe.
func requireRecipe(tx *gorm.DB, householdID, recipeID int64) error {
	query := tx.Where("id = ? AND household_id = ?", recipeID, householdID)
	return findOne(query, &recipeRow{}, fmt.Sprintf("recipe %d", recipeID))
}
