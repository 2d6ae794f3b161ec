package store

import (
	"context"
	"errors"
	"fmt"

	"gorm.io/gorm"
	"gorm.io/gorm/clause"

	"potwright/internal/adaptation"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// choiceRow is a row of choices: a correction remembered for a food phrase.
type choiceRow struct {
	HouseholdID int64  `gorm:"primaryKey;autoIncrement:false"`
	Phrase      string `gorm:"primaryKey"`
	Correction  string
}

// TableName is the table's name in the schema.
func (choiceRow) TableName() string { return "choices" }

// wishesRow is a row of wishes: what was asked of a recipe's adaptation.
type wishesRow struct {
	RecipeID int64 `gorm:"primaryKey;autoIncrement:false"`
	Wishes   string
}

// TableName is the table's name in the schema.
func (wishesRow) TableName() string { return "wishes" }

// Choices are the household's remembered corrections by food phrase.
func (s *Store) Choices(ctx context.Context, householdID int64) (map[string]recipe.Correction, error) {
	var choices map[string]recipe.Correction
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		choices, err = listChoices(tx, householdID)
		return err
	})
	return choices, err
}

func listChoices(tx *gorm.DB, householdID int64) (map[string]recipe.Correction, error) {
	var rows []choiceRow
	if err := tx.Where("household_id = ?", householdID).Find(&rows).Error; err != nil {
		return nil, fmt.Errorf("list choices of household %d: %w", householdID, err)
	}
	choices := make(map[string]recipe.Correction, len(rows))
	for _, row := range rows {
		var err error
		if choices[row.Phrase], err = row.choice(); err != nil {
			return nil, err
		}
	}
	return choices, nil
}

func (r choiceRow) choice() (c recipe.Correction, err error) {
	return c, place{"choices", r.HouseholdID}.decode(fmt.Sprintf("correction of %q", r.Phrase), r.Correction, &c)
}

// choiceOf is what is remembered of a phrase, empty where nothing is.
func choiceOf(tx *gorm.DB, householdID int64, phrase string) (recipe.Correction, error) {
	var row choiceRow
	found := tx.Where("household_id = ? AND phrase = ?", householdID, phrase).Limit(1).Find(&row)
	if found.Error != nil || found.RowsAffected == 0 {
		return recipe.Correction{}, found.Error
	}
	return row.choice()
}

// RememberChoice keeps a correction for a food phrase, in place of an earlier
// one. kitchen.ErrNotFound where there is no such household, kitchen.ErrChanged where
// the earlier one is not what over marks.
func (s *Store) RememberChoice(ctx context.Context, householdID int64, phrase string, c recipe.Correction, over kitchen.Mark) error {
	if phrase == "" {
		return errors.New("remember choice: no food phrase given")
	}
	text, err := encode("correction", c)
	if err != nil {
		return fmt.Errorf("remember choice for %q: %w", phrase, err)
	}
	err = s.write(ctx, func(tx *gorm.DB) error {
		if err := requireHousehold(tx, householdID); err != nil {
			return err
		}
		if err := unchanged(over, func() (any, error) { return choiceOf(tx, householdID, phrase) }); err != nil {
			return err
		}
		row := choiceRow{HouseholdID: householdID, Phrase: phrase, Correction: text}
		return tx.Clauses(clause.OnConflict{UpdateAll: true}).Create(&row).Error
	})
	if err != nil {
		return fmt.Errorf("remember choice for %q: %w", phrase, err)
	}
	return nil
}

// ForgetChoice drops the correction kept for a food phrase; one that is not kept
// is forgotten already. kitchen.ErrChanged where it is not what over marks.
func (s *Store) ForgetChoice(ctx context.Context, householdID int64, phrase string, over kitchen.Mark) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := unchanged(over, func() (any, error) { return choiceOf(tx, householdID, phrase) }); err != nil {
			return err
		}
		return tx.Where("household_id = ? AND phrase = ?", householdID, phrase).Delete(&choiceRow{}).Error
	})
	if err != nil {
		return fmt.Errorf("forget choice for %q: %w", phrase, err)
	}
	return nil
}

// Wishes are the locks, refusals and caps kept with a recipe, empty where none
// were saved. kitchen.ErrNotFound where the household has no such recipe.
func (s *Store) Wishes(ctx context.Context, householdID, recipeID int64) (adaptation.Wishes, error) {
	var w adaptation.Wishes
	err := s.ask(ctx, func(tx *gorm.DB) error {
		if err := requireRecipe(tx, householdID, recipeID); err != nil {
			return err
		}
		var err error
		w, err = wishesOrNone(tx, recipeID)
		return err
	})
	if err != nil {
		return adaptation.Wishes{}, fmt.Errorf("find wishes of recipe %d: %w", recipeID, err)
	}
	return w, nil
}

// keptWishes are a recipe's wishes, nil where none were saved.
func keptWishes(tx *gorm.DB, recipeID int64) (*adaptation.Wishes, error) {
	var row wishesRow
	found := tx.Where("recipe_id = ?", recipeID).Limit(1).Find(&row)
	if found.Error != nil || found.RowsAffected == 0 {
		return nil, found.Error
	}
	var w adaptation.Wishes
	return &w, place{"wishes", recipeID}.decode("wishes", row.Wishes, &w)
}

// wishesOrNone are a recipe's wishes, empty where none were saved.
func wishesOrNone(tx *gorm.DB, recipeID int64) (adaptation.Wishes, error) {
	kept, err := keptWishes(tx, recipeID)
	if err != nil || kept == nil {
		return adaptation.Wishes{}, err
	}
	return *kept, nil
}

// SaveWishes keeps wishes with a recipe, in place of earlier ones.
// kitchen.ErrNotFound where the household has no such recipe, kitchen.ErrChanged
// where the earlier ones are not what over marks.
func (s *Store) SaveWishes(ctx context.Context, householdID, recipeID int64, w adaptation.Wishes, over kitchen.Mark) error {
	text, err := encode("wishes", w)
	if err != nil {
		return fmt.Errorf("save wishes of recipe %d: %w", recipeID, err)
	}
	err = s.write(ctx, func(tx *gorm.DB) error {
		if err := requireRecipe(tx, householdID, recipeID); err != nil {
			return err
		}
		if err := unchanged(over, func() (any, error) { return wishesOrNone(tx, recipeID) }); err != nil {
			return err
		}
		row := wishesRow{RecipeID: recipeID, Wishes: text}
		return tx.Clauses(clause.OnConflict{UpdateAll: true}).Create(&row).Error
	})
	if err != nil {
		return fmt.Errorf("save wishes of recipe %d: %w", recipeID, err)
	}
	return nil
}
