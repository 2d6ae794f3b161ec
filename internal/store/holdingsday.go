package store

import (
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/daybook"
	"potwright/internal/kitchen"
)

// heldDaybook is what is written down of a recipe's versions.
func heldDaybook(tx *gorm.DB, recipeID int64) (d kitchen.Daybook, err error) {
	if d.Eaten, err = entriesOf(ofRecipe(tx, recipeID)); err != nil {
		return d, err
	}
	if d.Freezer, err = containersOf(ofRecipe(tx, recipeID)); err != nil {
		return d, err
	}
	d.Made, err = madeOf(ofRecipe(tx, recipeID))
	return d, err
}

// holdDaybook saves what is written down of versions that have their new ids. people
// are the new ids of members by their old ones.
func holdDaybook(tx *gorm.DB, householdID int64, d kitchen.Daybook, people map[int64]int64, own ownFoods) error {
	if err := holdEntries(tx, householdID, d.Eaten, people, own); err != nil {
		return err
	}
	for _, c := range d.Freezer {
		c.ID = 0
		row, err := newContainerRow(householdID, c)
		if err == nil {
			err = tx.Create(&row).Error
		}
		if err != nil {
			return fmt.Errorf("container %q: %w", c.Title, err)
		}
	}
	for _, m := range d.Made {
		m.ID = 0
		row := newMadeRow(householdID, m)
		if err := m.Check(); err != nil {
			return err
		}
		if err := tx.Create(&row).Error; err != nil {
			return fmt.Errorf("made on %s: %w", m.Date, err)
		}
	}
	return nil
}

func holdEntries(tx *gorm.DB, householdID int64, entries []daybook.Entry, people map[int64]int64, own ownFoods) error {
	for _, e := range entries {
		e.ID, e.MemberID = 0, people[e.MemberID]
		if id, ok := own[e.FoodID]; ok {
			e.FoodID = id
		}
		row, err := newEntryRow(householdID, e)
		if err == nil {
			err = tx.Create(&row).Error
		}
		if err != nil {
			return fmt.Errorf("%q on %s: %w", e.Title, e.Date, err)
		}
	}
	return nil
}
