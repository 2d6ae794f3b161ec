package store

import (
	"context"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/daybook"
	"potwright/internal/kitchen"
)

// madeRow is a row of made.
type madeRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	VersionID   int64
	Day         string
	Rating      int
	Remark      string
}

// TableName is the table's name in the schema.
func (madeRow) TableName() string { return "made" }

func newMadeRow(householdID int64, m daybook.Made) madeRow {
	return madeRow{ID: m.ID, HouseholdID: householdID, VersionID: m.VersionID, Day: string(m.Date), Rating: int(m.Rating), Remark: m.Remark}
}

func (r madeRow) made() daybook.Made {
	return daybook.Made{ID: r.ID, VersionID: r.VersionID, Date: daybook.Date(r.Day), Rating: daybook.Rating(r.Rating), Remark: r.Remark}
}

// ofRecipe selects the rows that are about a version of the recipe.
func ofRecipe(tx *gorm.DB, recipeID int64) *gorm.DB {
	return tx.Where("version_id IN (SELECT id FROM versions WHERE recipe_id = ?)", recipeID)
}

func madeOf(query *gorm.DB) ([]daybook.Made, error) {
	var rows []madeRow
	if err := query.Order("day DESC, id DESC").Find(&rows).Error; err != nil {
		return nil, err
	}
	var out []daybook.Made
	for _, row := range rows {
		out = append(out, row.made())
	}
	return out, nil
}

// ListMade gives the times that a recipe's versions were made, the latest first.
func (s *Store) ListMade(ctx context.Context, householdID, recipeID int64) ([]daybook.Made, error) {
	var out []daybook.Made
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		out, err = madeOf(ofRecipe(tx, recipeID).Where("household_id = ?", householdID))
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list when recipe %d was made: %w", recipeID, err)
	}
	return out, nil
}

// SaveMade writes down that a version was made; an id given is ignored.
// kitchen.ErrNotFound where the household has no such version.
func (s *Store) SaveMade(ctx context.Context, householdID int64, m daybook.Made) (daybook.Made, error) {
	m.ID = 0
	err := m.Check()
	if err == nil {
		err = s.write(ctx, func(tx *gorm.DB) error {
			if err := requireVersion(tx, householdID, m.VersionID); err != nil {
				return err
			}
			row := newMadeRow(householdID, m)
			err := tx.Create(&row).Error
			m.ID = row.ID
			return err
		})
	}
	if err != nil {
		return daybook.Made{}, fmt.Errorf("write down that version %d was made: %w", m.VersionID, err)
	}
	return m, nil
}

// DeleteMade drops one row of the household. kitchen.ErrNotFound where there is none.
func (s *Store) DeleteMade(ctx context.Context, householdID, madeID int64) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		gone := tx.Where("id = ? AND household_id = ?", madeID, householdID).Delete(&madeRow{})
		if gone.Error == nil && gone.RowsAffected == 0 {
			return kitchen.ErrNotFound
		}
		return gone.Error
	})
	if err != nil {
		return fmt.Errorf("delete made %d of household %d: %w", madeID, householdID, err)
	}
	return nil
}
