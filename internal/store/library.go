package store

import (
	"context"
	"fmt"
	"slices"

	"gorm.io/gorm"
	"gorm.io/gorm/clause"

	"potwright/internal/kitchen"
)

// tagRow is a row of tags.
type tagRow struct {
	RecipeID int64  `gorm:"primaryKey;autoIncrement:false"`
	Tag      string `gorm:"primaryKey"`
}

// TableName is the table's name in the schema.
func (tagRow) TableName() string { return "tags" }

// refusalRow is a row of refusals.
type refusalRow struct {
	HouseholdID int64  `gorm:"primaryKey;autoIncrement:false"`
	Rule        string `gorm:"primaryKey"`
}

// TableName is the table's name in the schema.
func (refusalRow) TableName() string { return "refusals" }

// ListTags gives the household's tags, each once, in order.
func (s *Store) ListTags(ctx context.Context, householdID int64) ([]string, error) {
	c, err := s.catalogueOf(ctx, householdID)
	if err != nil {
		return nil, fmt.Errorf("list tags of household %d: %w", householdID, err)
	}
	var tags []string
	for _, e := range c.entries {
		tags = append(tags, e.tags...)
	}
	slices.Sort(tags)
	return slices.Compact(tags), nil
}

// TagsOf gives a recipe's tags in order.
func (s *Store) TagsOf(ctx context.Context, householdID, recipeID int64) ([]string, error) {
	var tags []string
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		if err := requireRecipe(tx, householdID, recipeID); err != nil {
			return err
		}
		tags, err = tagsOf(tx, recipeID)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list tags of recipe %d: %w", recipeID, err)
	}
	return tags, nil
}

func tagsOf(tx *gorm.DB, recipeID int64) (tags []string, err error) {
	err = tx.Model(&tagRow{}).Where("recipe_id = ?", recipeID).Order("tag").Pluck("tag", &tags).Error
	return tags, err
}

// SetTags puts tags in place of a recipe's earlier ones. kitchen.ErrNotFound where
// the household has no such recipe, kitchen.ErrChanged where the earlier ones are not
// what over marks.
func (s *Store) SetTags(ctx context.Context, householdID, recipeID int64, tags []string, over kitchen.Mark) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := requireRecipe(tx, householdID, recipeID); err != nil {
			return err
		}
		if err := unchanged(over, func() (any, error) { return tagsOf(tx, recipeID) }); err != nil {
			return err
		}
		if err := tx.Where("recipe_id = ?", recipeID).Delete(&tagRow{}).Error; err != nil {
			return err
		}
		return insertTags(tx, recipeID, tags)
	})
	if err != nil {
		return fmt.Errorf("set tags of recipe %d: %w", recipeID, err)
	}
	return nil
}

func insertTags(tx *gorm.DB, recipeID int64, tags []string) error {
	for _, tag := range tags {
		if err := tx.Clauses(clause.OnConflict{DoNothing: true}).Create(&tagRow{recipeID, tag}).Error; err != nil {
			return fmt.Errorf("tag %q: %w", tag, err)
		}
	}
	return nil
}

// Refusals gives the ids of the swap rules never to be suggested, in order.
func (s *Store) Refusals(ctx context.Context, householdID int64) ([]string, error) {
	var rules []string
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		rules, err = refusalsOf(tx, householdID)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list refusals of household %d: %w", householdID, err)
	}
	return rules, nil
}

func refusalsOf(tx *gorm.DB, householdID int64) (rules []string, err error) {
	err = tx.Model(&refusalRow{}).Where("household_id = ?", householdID).Order("rule").Pluck("rule", &rules).Error
	return rules, err
}

func insertRefusals(tx *gorm.DB, householdID int64, rules []string) error {
	for _, rule := range rules {
		if err := tx.Clauses(clause.OnConflict{DoNothing: true}).Create(&refusalRow{householdID, rule}).Error; err != nil {
			return fmt.Errorf("refusal of %q: %w", rule, err)
		}
	}
	return nil
}

// Refuse keeps a rule from being suggested, or with on false allows it again.
// kitchen.ErrNotFound where there is no such household.
func (s *Store) Refuse(ctx context.Context, householdID int64, rule string, on bool) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := requireHousehold(tx, householdID); err != nil {
			return err
		}
		if !on {
			return tx.Where("household_id = ? AND rule = ?", householdID, rule).Delete(&refusalRow{}).Error
		}
		return insertRefusals(tx, householdID, []string{rule})
	})
	if err != nil {
		return fmt.Errorf("refuse swap %q: %w", rule, err)
	}
	return nil
}
