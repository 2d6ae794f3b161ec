package store

import (
	"context"
	"errors"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/daybook"
)

// containerRow is a row of containers.
type containerRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	VersionID   int64
	Title       string
	Portion     float64
	Grams       string
	Frozen      string
	BestBy      string
	TakenOut    string
}

// TableName is the table's name in the schema.
func (containerRow) TableName() string { return "containers" }

func newContainerRow(householdID int64, c daybook.Container) (containerRow, error) {
	grams, err := encode("grams", c.Grams)
	return containerRow{ID: c.ID, HouseholdID: householdID, VersionID: c.VersionID, Title: c.Title, Portion: c.Portion, Grams: grams,
		Frozen: string(c.Frozen), BestBy: string(c.BestBy), TakenOut: string(c.Out)}, errors.Join(c.Check(), err)
}

func (r containerRow) container() (daybook.Container, error) {
	c := daybook.Container{ID: r.ID, VersionID: r.VersionID, Title: r.Title, Portion: r.Portion,
		Frozen: daybook.Date(r.Frozen), BestBy: daybook.Date(r.BestBy), Out: daybook.Date(r.TakenOut)}
	return c, place{"containers", r.ID}.decode("grams", r.Grams, &c.Grams)
}

func containersOf(query *gorm.DB) ([]daybook.Container, error) {
	var rows []containerRow
	if err := query.Order("id").Find(&rows).Error; err != nil {
		return nil, err
	}
	var out []daybook.Container
	for _, row := range rows {
		c, err := row.container()
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return out, nil
}

// ListContainers gives the containers still in the freezer, the first put in first.
func (s *Store) ListContainers(ctx context.Context, householdID int64) ([]daybook.Container, error) {
	var out []daybook.Container
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		out, err = containersOf(tx.Where("household_id = ? AND taken_out = ''", householdID))
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("list the freezer of household %d: %w", householdID, err)
	}
	return out, nil
}

// FindContainer gives one container of the household, also one that was taken out.
func (s *Store) FindContainer(ctx context.Context, householdID, containerID int64) (daybook.Container, error) {
	var row containerRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return findOne(tx.Where("id = ? AND household_id = ?", containerID, householdID), &row, fmt.Sprintf("container %d", containerID))
	})
	if err != nil {
		return daybook.Container{}, err
	}
	return row.container()
}

// PutIn writes new containers down, all or none; ids given are ignored.
// kitchen.ErrNotFound where the household has no such version.
func (s *Store) PutIn(ctx context.Context, householdID int64, cs []daybook.Container) ([]daybook.Container, error) {
	out := make([]daybook.Container, len(cs))
	err := s.write(ctx, func(tx *gorm.DB) error {
		for i, c := range cs {
			c.ID = 0
			if err := requireVersion(tx, householdID, c.VersionID); err != nil {
				return err
			}
			row, err := newContainerRow(householdID, c)
			if err == nil {
				err = tx.Create(&row).Error
			}
			if err != nil {
				return err
			}
			c.ID = row.ID
			out[i] = c
		}
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("put into the freezer: %w", err)
	}
	return out, nil
}

// TakeOut notes the day a container left the freezer, and writes down who ate it, in
// one go. kitchen.ErrNotFound where it is not there, or no longer.
func (s *Store) TakeOut(ctx context.Context, householdID, containerID int64, day daybook.Date, eaten []daybook.Entry) error {
	if _, err := daybook.ParseDate(string(day)); err != nil {
		return fmt.Errorf("take container %d out: %w", containerID, err)
	}
	err := s.write(ctx, func(tx *gorm.DB) error {
		there := tx.Where("id = ? AND household_id = ? AND taken_out = ''", containerID, householdID)
		if err := findOne(there, &containerRow{}, "container in the freezer"); err != nil {
			return err
		}
		if err := tx.Model(&containerRow{}).Where("id = ?", containerID).Update("taken_out", string(day)).Error; err != nil {
			return err
		}
		_, err := addEntries(tx, householdID, eaten)
		return err
	})
	if err != nil {
		return fmt.Errorf("take container %d out: %w", containerID, err)
	}
	return nil
}
