package store

import (
	"context"
	"errors"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/daybook"
	"potwright/internal/kitchen"
)

// entryRow is a row of entries.
type entryRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	MemberID    int64
	Day         string
	Meal        string
	State       string
	VersionID   *int64 // NULL for a food
	FoodID      string
	Title       string
	Portion     float64
	Grams       string
	Panel       string
	Counted     string
}

// TableName is the table's name in the schema.
func (entryRow) TableName() string { return "entries" }

func newEntryRow(householdID int64, e daybook.Entry) (entryRow, error) {
	grams, err1 := encode("grams", e.Grams)
	panel, err2 := encode("panel", e.Panel)
	counted, err3 := encode("counted", e.Counted)
	row := entryRow{ID: e.ID, HouseholdID: householdID, MemberID: e.MemberID, Day: string(e.Date), Meal: string(e.Meal), State: string(e.State),
		FoodID: e.FoodID, Title: e.Title, Portion: e.Portion, Grams: grams, Panel: panel, Counted: counted}
	if e.VersionID != 0 {
		row.VersionID = &e.VersionID
	}
	return row, errors.Join(e.Check(), err1, err2, err3)
}

func (r entryRow) entry() (daybook.Entry, error) {
	e := daybook.Entry{ID: r.ID, MemberID: r.MemberID, Date: daybook.Date(r.Day), Meal: daybook.Meal(r.Meal), State: daybook.State(r.State),
		FoodID: r.FoodID, Title: r.Title, Portion: r.Portion}
	if r.VersionID != nil {
		e.VersionID = *r.VersionID
	}
	at := place{"entries", r.ID}
	return e, errors.Join(at.decode("grams", r.Grams, &e.Grams), at.decode("panel", r.Panel, &e.Panel), at.decode("counted", r.Counted, &e.Counted))
}

// entriesOf reads the rows of a query, by day and in the order they were written.
func entriesOf(query *gorm.DB) ([]daybook.Entry, error) {
	var rows []entryRow
	if err := query.Order("day, id").Find(&rows).Error; err != nil {
		return nil, err
	}
	var out []daybook.Entry
	for _, row := range rows {
		e, err := row.entry()
		if err != nil {
			return nil, err
		}
		out = append(out, e)
	}
	return out, nil
}

// ListEntries gives what is written down for the days from one to another, both
// included, by day and in the order it was written.
func (s *Store) ListEntries(ctx context.Context, householdID int64, from, to daybook.Date) ([]daybook.Entry, error) {
	var out []daybook.Entry
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		out, err = entriesOf(tx.Where("household_id = ? AND day BETWEEN ? AND ?", householdID, string(from), string(to)))
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list what household %d ate from %s to %s: %w", householdID, from, to, err)
	}
	return out, nil
}

// FindEntry gives one entry of the household.
func (s *Store) FindEntry(ctx context.Context, householdID, entryID int64) (daybook.Entry, error) {
	var row entryRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return findOne(tx.Where("id = ? AND household_id = ?", entryID, householdID), &row, fmt.Sprintf("entry %d", entryID))
	})
	if err != nil {
		return daybook.Entry{}, err
	}
	return row.entry()
}

// AddEntries writes new entries down, all or none; ids given are ignored.
// kitchen.ErrNotFound where the household has no such member or version.
func (s *Store) AddEntries(ctx context.Context, householdID int64, entries []daybook.Entry) ([]daybook.Entry, error) {
	var out []daybook.Entry
	err := s.write(ctx, func(tx *gorm.DB) (err error) {
		out, err = addEntries(tx, householdID, entries)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("write down what was eaten: %w", err)
	}
	return out, nil
}

func addEntries(tx *gorm.DB, householdID int64, entries []daybook.Entry) ([]daybook.Entry, error) {
	out := make([]daybook.Entry, len(entries))
	for i, e := range entries {
		if err := requireEaten(tx, householdID, e); err != nil {
			return nil, err
		}
		e.ID = 0
		row, err := newEntryRow(householdID, e)
		if err == nil {
			err = tx.Create(&row).Error
		}
		if err != nil {
			return nil, fmt.Errorf("%q: %w", e.Title, err)
		}
		e.ID = row.ID
		out[i] = e
	}
	return out, nil
}

// ChangeEntry puts an entry in place of the one with its id. kitchen.ErrNotFound where the
// household has no such entry, member or version, kitchen.ErrChanged where the entry that
// is there is not what over marks.
func (s *Store) ChangeEntry(ctx context.Context, householdID int64, e daybook.Entry, over kitchen.Mark) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := entryUnchanged(tx, householdID, e.ID, over); err != nil {
			return err
		}
		if err := requireEaten(tx, householdID, e); err != nil {
			return err
		}
		row, err := newEntryRow(householdID, e)
		if err == nil {
			err = tx.Save(&row).Error
		}
		return err
	})
	if err != nil {
		return fmt.Errorf("change entry %d: %w", e.ID, err)
	}
	return nil
}

// entryUnchanged is kitchen.ErrNotFound where the household has no such entry, and
// kitchen.ErrChanged where it is not what over marks.
func entryUnchanged(tx *gorm.DB, householdID, entryID int64, over kitchen.Mark) error {
	var row entryRow
	if err := findOne(tx.Where("id = ? AND household_id = ?", entryID, householdID), &row, fmt.Sprintf("entry %d", entryID)); err != nil {
		return err
	}
	return unchanged(over, func() (any, error) { return row.entry() })
}

// requireEaten is kitchen.ErrNotFound where who eats, or the dish, is not the
// household's.
func requireEaten(tx *gorm.DB, householdID int64, e daybook.Entry) error {
	if err := findOne(tx.Where("id = ? AND household_id = ?", e.MemberID, householdID), &memberRow{}, fmt.Sprintf("member %d", e.MemberID)); err != nil {
		return err
	}
	if e.VersionID == 0 {
		return nil
	}
	return requireVersion(tx, householdID, e.VersionID)
}

func requireVersion(tx *gorm.DB, householdID, versionID int64) error {
	return findOne(versionsOf(tx, householdID).Where("id = ?", versionID), &versionRow{}, fmt.Sprintf("version %d", versionID))
}

// DeleteEntry drops one entry of the household. kitchen.ErrNotFound where there is
// none, kitchen.ErrChanged where it is not what over marks.
func (s *Store) DeleteEntry(ctx context.Context, householdID, entryID int64, over kitchen.Mark) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := entryUnchanged(tx, householdID, entryID, over); err != nil {
			return err
		}
		return tx.Where("id = ?", entryID).Delete(&entryRow{}).Error
	})
	if err != nil {
		return fmt.Errorf("delete entry %d: %w", entryID, err)
	}
	return nil
}
