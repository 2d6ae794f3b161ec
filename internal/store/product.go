package store

import (
	"context"
	"fmt"
	"strings"

	"gorm.io/gorm"

	"potwright/internal/kitchen"
	"potwright/internal/product"
)

// productRow is a row of products.
type productRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	Name        string
	NameKey     string
	Label       string
	SavedAt     string
}

// TableName is the table's name in the schema.
func (productRow) TableName() string { return "products" }

func (r productRow) product() (product.Product, error) {
	at := place{"products", r.ID}
	p := product.Product{ID: r.ID}
	if err := at.decode("label", r.Label, &p.Label); err != nil {
		return p, err
	}
	var err error
	p.SavedAt, err = at.time("saved_at", r.SavedAt)
	return p, err
}

// productKey is what makes two product names the same: letter case and blanks do
// not matter, as they do not in the food's name.
func productKey(name string) string { return nameKey(strings.Join(strings.Fields(name), " ")) }

// ListProducts gives the household's products by name.
func (s *Store) ListProducts(ctx context.Context, householdID int64) ([]product.Product, error) {
	var ps []product.Product
	err := s.ask(ctx, func(tx *gorm.DB) (err error) {
		ps, err = listProducts(tx, householdID)
		return err
	})
	return ps, err
}

func listProducts(tx *gorm.DB, householdID int64) ([]product.Product, error) {
	var rows []productRow
	if err := tx.Where("household_id = ?", householdID).Order("name_key").Find(&rows).Error; err != nil {
		return nil, fmt.Errorf("list products of household %d: %w", householdID, err)
	}
	var ps []product.Product
	for _, row := range rows {
		p, err := row.product()
		if err != nil {
			return nil, err
		}
		ps = append(ps, p)
	}
	return ps, nil
}

// FindProduct gives one product of the household.
func (s *Store) FindProduct(ctx context.Context, householdID, id int64) (product.Product, error) {
	var row productRow
	err := s.ask(ctx, func(tx *gorm.DB) error { return ownProduct(tx, householdID, id, &row) })
	if err != nil {
		return product.Product{}, err
	}
	return row.product()
}

func ownProduct(tx *gorm.DB, householdID, id int64, row *productRow) error {
	return findOne(tx.Where("id = ? AND household_id = ?", id, householdID), row, fmt.Sprintf("product %d of household %d", id, householdID))
}

// SaveProduct keeps a label: a new product where p.ID is 0, else in place of the one
// with that id. kitchen.ErrTaken where the household has another of that name,
// letter case aside; kitchen.ErrNotFound where there is no such household or
// product; kitchen.ErrChanged where the one in whose place it comes is not what over
// marks.
func (s *Store) SaveProduct(ctx context.Context, householdID int64, p product.Product, over kitchen.Mark) (product.Product, error) {
	text, err := encode("label", p.Label)
	if err != nil {
		return product.Product{}, fmt.Errorf("save product %q: %w", p.Label.Name, err)
	}
	row := productRow{ID: p.ID, HouseholdID: householdID, Name: p.Label.Name, NameKey: productKey(p.Label.Name), Label: text,
		SavedAt: s.now().UTC().Format(timeLayout)}
	err = s.write(ctx, func(tx *gorm.DB) error {
		if err := requireHousehold(tx, householdID); err != nil {
			return err
		}
		if p.ID == 0 {
			return taken(tx.Create(&row).Error)
		}
		var was productRow
		if err := ownProduct(tx, householdID, p.ID, &was); err != nil {
			return err
		}
		if err := unchanged(over, func() (any, error) { return was.product() }); err != nil {
			return err
		}
		return taken(tx.Save(&row).Error)
	})
	if err != nil {
		return product.Product{}, fmt.Errorf("save product %q: %w", p.Label.Name, err)
	}
	return row.product()
}

// DeleteProduct drops a product of the household. Recipes that were tied to it fall
// back on their words. kitchen.ErrNotFound where there is none.
func (s *Store) DeleteProduct(ctx context.Context, householdID, id int64) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		gone := tx.Where("id = ? AND household_id = ?", id, householdID).Delete(&productRow{})
		if gone.Error == nil && gone.RowsAffected == 0 {
			return kitchen.ErrNotFound
		}
		return gone.Error
	})
	if err != nil {
		return fmt.Errorf("delete product %d of household %d: %w", id, householdID, err)
	}
	return nil
}
