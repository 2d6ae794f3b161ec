package store

import (
	"errors"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// memberRow is a row of members.
type memberRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	Position    int
	Name        string
	NameKey     string
	Age         int
	Portion     float64
	PortionMin  float64
	PortionMax  float64
	Limits      string
	Plan        string
	Avoid       string
	Texture     string
	Cautions    string
	Dislikes    string
}

// TableName is the table's name in the schema.
func (memberRow) TableName() string { return "members" }

func newMemberRow(householdID int64, position int, m household.Member) (memberRow, error) {
	limits, err1 := encode("limits", m.Limits)
	plan, err2 := encode("plan", m.Plan)
	avoid, err3 := encode("avoid", m.Avoid)
	texture, err4 := encode("texture", m.Texture)
	cautions, err5 := encode("cautions", m.Cautions)
	dislikes, err6 := encode("dislikes", m.Dislikes)
	return memberRow{
		ID: m.ID, HouseholdID: householdID, Position: position,
		Name: m.Name, NameKey: nameKey(m.Name), Age: m.Age,
		Portion: m.Portion, PortionMin: m.PortionMin, PortionMax: m.PortionMax,
		Limits: limits, Plan: plan, Avoid: avoid, Texture: texture, Cautions: cautions, Dislikes: dislikes,
	}, errors.Join(err1, err2, err3, err4, err5, err6)
}

func (r memberRow) member() (household.Member, error) {
	m := household.Member{
		ID: r.ID, Name: r.Name, Age: r.Age,
		Portion: r.Portion, PortionMin: r.PortionMin, PortionMax: r.PortionMax,
	}
	at := place{"members", r.ID}
	err := errors.Join(
		at.decode("limits", r.Limits, &m.Limits),
		at.decode("plan", r.Plan, &m.Plan),
		at.decode("avoid", r.Avoid, &m.Avoid),
		at.decode("texture", r.Texture, &m.Texture),
		at.decode("cautions", r.Cautions, &m.Cautions),
		at.decode("dislikes", r.Dislikes, &m.Dislikes),
	)
	return m, err
}

func listMembers(tx *gorm.DB, householdID int64) ([]household.Member, error) {
	var rows []memberRow
	if err := tx.Where("household_id = ?", householdID).Order("position").Find(&rows).Error; err != nil {
		return nil, fmt.Errorf("list members of household %d: %w", householdID, err)
	}
	var ms []household.Member
	for _, row := range rows {
		m, err := row.member()
		if err != nil {
			return nil, err
		}
		ms = append(ms, m)
	}
	return ms, nil
}

// insertMembers saves the members in their order and sets their ids.
func insertMembers(tx *gorm.DB, householdID int64, members []household.Member) error {
	for i := range members {
		row, err := newMemberRow(householdID, i, members[i])
		if err == nil {
			err = taken(tx.Create(&row).Error)
		}
		if err != nil {
			return fmt.Errorf("member %q: %w", members[i].Name, err)
		}
		members[i].ID = row.ID
	}
	return nil
}

// replaceMembers takes the old rows out and puts the new ones in under their old
// ids: so two members may trade names, which updates in turn would not allow. What
// was written down of a member who leaves goes too.
func replaceMembers(tx *gorm.DB, householdID int64, members []household.Member) error {
	var ids []int64
	if err := tx.Model(&memberRow{}).Where("household_id = ?", householdID).Pluck("id", &ids).Error; err != nil {
		return fmt.Errorf("list members: %w", err)
	}
	known := make(map[int64]bool, len(ids))
	for _, id := range ids {
		known[id] = true
	}
	for _, m := range members {
		if m.ID != 0 && !known[m.ID] {
			return fmt.Errorf("member %d (%q): %w", m.ID, m.Name, kitchen.ErrNotFound)
		}
		delete(known, m.ID) // a second one with this id is not found
	}
	for gone := range known {
		if err := tx.Where("member_id = ?", gone).Delete(&entryRow{}).Error; err != nil {
			return fmt.Errorf("replace members: %w", err)
		}
	}
	if err := tx.Where("household_id = ?", householdID).Delete(&memberRow{}).Error; err != nil {
		return fmt.Errorf("replace members: %w", err)
	}
	return insertMembers(tx, householdID, members)
}
