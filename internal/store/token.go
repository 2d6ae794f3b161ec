package store

import (
	"context"
	"fmt"
	"time"

	"gorm.io/gorm"

	"potwright/internal/access"
)

// tokenRow is a row of tokens.
type tokenRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	Name        string
	Role        string
	Digest      string
	CreatedAt   string `gorm:"autoCreateTime:false"`
	UsedAt      string
}

// TableName is the table's name in the schema.
func (tokenRow) TableName() string { return "tokens" }

func (r tokenRow) token() (access.Token, error) {
	t := access.Token{ID: r.ID, HouseholdID: r.HouseholdID, Name: r.Name, Role: access.Role(r.Role)}
	at := place{"tokens", r.ID}
	var err error
	if t.CreatedAt, err = at.time("created_at", r.CreatedAt); err != nil || r.UsedAt == "" {
		return t, err
	}
	t.UsedAt, err = at.time("used_at", r.UsedAt)
	return t, err
}

// CreateToken saves a token under its digest.
func (s *Store) CreateToken(ctx context.Context, t access.Token, digest string) (access.Token, error) {
	row := tokenRow{HouseholdID: t.HouseholdID, Name: t.Name, Role: string(t.Role), Digest: digest, CreatedAt: t.CreatedAt.UTC().Format(timeLayout)}
	err := s.write(ctx, func(tx *gorm.DB) error { return tx.Create(&row).Error })
	if err != nil {
		return access.Token{}, fmt.Errorf("save token: %w", err)
	}
	t.ID = row.ID
	return t, nil
}

// FindToken finds the token of a digest.
func (s *Store) FindToken(ctx context.Context, digest string) (access.Token, error) {
	var row tokenRow
	err := s.ask(ctx, func(tx *gorm.DB) error { return known(tx.Where("digest = ?", digest).Take(&row).Error) })
	if err != nil {
		return access.Token{}, fmt.Errorf("find token: %w", err)
	}
	return row.token()
}

// TouchToken notes when a token was used; one that was revoked meanwhile is no error.
func (s *Store) TouchToken(ctx context.Context, id int64, at time.Time) error {
	return s.touch(ctx, &tokenRow{ID: id}, "used_at", at)
}

// ListTokens gives a household's tokens, the newest first.
func (s *Store) ListTokens(ctx context.Context, householdID int64) ([]access.Token, error) {
	var rows []tokenRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return tx.Where("household_id = ?", householdID).Order("id DESC").Find(&rows).Error
	})
	if err != nil {
		return nil, fmt.Errorf("list tokens: %w", err)
	}
	return each(rows, tokenRow.token)
}

// DeleteToken revokes one of the household's tokens.
func (s *Store) DeleteToken(ctx context.Context, householdID, id int64) error {
	return s.drop(ctx, "revoke token", func(tx *gorm.DB) *gorm.DB {
		return tx.Where("id = ? AND household_id = ?", id, householdID).Delete(&tokenRow{})
	})
}
