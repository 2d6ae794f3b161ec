package store

import (
	"context"
	"errors"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
)

// householdRow is a row of households.
type householdRow struct {
	ID          int64 `gorm:"primaryKey"`
	Name        string
	NameKey     string
	CookSpare   string
	LiftLimitKg float64
	MealShare   float64
	Measures    string
	Equipment   string
}

// TableName is the table's name in the schema.
func (householdRow) TableName() string { return "households" }

func newHouseholdRow(h household.Household) (householdRow, error) {
	spare, err1 := encode("cook_spare", h.Cook.Spare)
	equipment, err2 := encode("equipment", h.Equipment)
	return householdRow{
		ID: h.ID, Name: h.Name, NameKey: nameKey(h.Name), CookSpare: spare,
		LiftLimitKg: h.Cook.LiftLimitKg, MealShare: h.MealShare, Measures: h.Measures.Key(), Equipment: equipment,
	}, errors.Join(err1, err2)
}

func (r householdRow) household() (household.Household, error) {
	h := household.Household{ID: r.ID, Name: r.Name, MealShare: r.MealShare}
	h.Cook.LiftLimitKg = r.LiftLimitKg
	h.Measures, _ = measure.ParseSystem(r.Measures) // the schema allows no other word
	at := place{"households", r.ID}
	err := errors.Join(at.decode("cook_spare", r.CookSpare, &h.Cook.Spare), at.decode("equipment", r.Equipment, &h.Equipment))
	return h, err
}

// CreateHousehold saves a new household with its members and returns it with
// ids; ids given are ignored. kitchen.ErrTaken where the name is used or two
// members share one, letter case aside.
func (s *Store) CreateHousehold(ctx context.Context, h household.Household) (household.Household, error) {
	h.ID = 0
	row, err := newHouseholdRow(h)
	if err != nil {
		return household.Household{}, fmt.Errorf("save household %q: %w", h.Name, err)
	}
	members := append([]household.Member(nil), h.Members...)
	for i := range members {
		members[i].ID = 0
	}
	err = s.write(ctx, func(tx *gorm.DB) error {
		if err := taken(tx.Create(&row).Error); err != nil {
			return err
		}
		return insertMembers(tx, row.ID, members)
	})
	if err != nil {
		return household.Household{}, fmt.Errorf("save household %q: %w", h.Name, err)
	}
	h.ID, h.Members = row.ID, members
	return h, nil
}

// FindHousehold gives a household with its members in their order.
func (s *Store) FindHousehold(ctx context.Context, id int64) (household.Household, error) {
	var h household.Household
	err := s.read(ctx, func(tx *gorm.DB) (err error) {
		var row householdRow
		if err := findOne(tx.Where("id = ?", id), &row, fmt.Sprintf("household %d", id)); err != nil {
			return err
		}
		h, err = withMembers(tx, row)
		return err
	})
	return h, err
}

// ListHouseholds gives every household with its members, by name.
func (s *Store) ListHouseholds(ctx context.Context) ([]household.Household, error) {
	var hs []household.Household
	err := s.read(ctx, func(tx *gorm.DB) error {
		var rows []householdRow
		if err := tx.Order("name_key").Find(&rows).Error; err != nil {
			return fmt.Errorf("list households: %w", err)
		}
		for _, row := range rows {
			h, err := withMembers(tx, row)
			if err != nil {
				return err
			}
			hs = append(hs, h)
		}
		return nil
	})
	return hs, err
}

// SaveHousehold replaces the household's settings and members. A member with an
// id keeps it, one with id 0 is new, one that is not given is removed.
// kitchen.ErrTaken where the name is another household's or two members share
// one; kitchen.ErrNotFound where the household, or a member with that id in it,
// is not there; kitchen.ErrChanged where what is kept is not what over marks.
func (s *Store) SaveHousehold(ctx context.Context, h household.Household, over kitchen.Mark) (household.Household, error) {
	row, err := newHouseholdRow(h)
	if err != nil {
		return household.Household{}, fmt.Errorf("save household %d: %w", h.ID, err)
	}
	members := append([]household.Member(nil), h.Members...)
	err = s.write(ctx, func(tx *gorm.DB) error {
		var was householdRow
		if err := findOne(tx.Where("id = ?", h.ID), &was, fmt.Sprintf("household %d", h.ID)); err != nil {
			return err
		}
		if err := unchanged(over, func() (any, error) { return withMembers(tx, was) }); err != nil {
			return err
		}
		if err := taken(tx.Save(&row).Error); err != nil {
			return err
		}
		return replaceMembers(tx, h.ID, members)
	})
	if err != nil {
		return household.Household{}, fmt.Errorf("save household %d: %w", h.ID, err)
	}
	h.Members = members
	return h, nil
}

// requireHousehold is kitchen.ErrNotFound where there is no such household.
func requireHousehold(tx *gorm.DB, id int64) error {
	return findOne(tx.Where("id = ?", id), &householdRow{}, fmt.Sprintf("household %d", id))
}

func withMembers(tx *gorm.DB, row householdRow) (household.Household, error) {
	h, err := row.household()
	if err != nil {
		return h, err
	}
	h.Members, err = listMembers(tx, row.ID)
	return h, err
}

// unchanged is kitchen.ErrChanged where what is kept is not what over marks.
func unchanged(over kitchen.Mark, kept func() (any, error)) error {
	if over == "" {
		return nil
	}
	now, err := kept()
	if err == nil && kitchen.MarkOf(now) != over {
		err = kitchen.ErrChanged
	}
	return err
}

// taken says kitchen.ErrTaken for a name that is used already.
func taken(err error) error {
	if errors.Is(err, gorm.ErrDuplicatedKey) {
		return kitchen.ErrTaken
	}
	return err
}
