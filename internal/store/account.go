package store

import (
	"context"
	"errors"
	"fmt"

	"gorm.io/gorm"

	"potwright/internal/access"
)

var _ access.Store = (*Store)(nil)

// accountRow is a row of accounts.
type accountRow struct {
	ID          int64 `gorm:"primaryKey"`
	HouseholdID int64
	Name        string
	NameKey     string
	Role        string
	Hash        string
	CreatedAt   string `gorm:"autoCreateTime:false"`
}

// TableName is the table's name in the schema.
func (accountRow) TableName() string { return "accounts" }

func (r accountRow) account() (access.Account, error) {
	at, err := place{"accounts", r.ID}.time("created_at", r.CreatedAt)
	return access.Account{ID: r.ID, HouseholdID: r.HouseholdID, Name: r.Name, Role: access.Role(r.Role), CreatedAt: at}, err
}

// known is access.ErrUnknown where the one row asked for is not there.
func known(err error) error {
	if errors.Is(err, gorm.ErrRecordNotFound) {
		return access.ErrUnknown
	}
	return err
}

// HasAccounts reports whether there is any account at all.
func (s *Store) HasAccounts(ctx context.Context) (bool, error) {
	at, err := s.revision(ctx)
	if err != nil {
		return false, fmt.Errorf("look for accounts: %w", err)
	}
	if has, known := s.accounts.Find(at.any); known { // an account belongs to no recipe
		return has, nil
	}
	var n int64
	err = s.ask(ctx, func(tx *gorm.DB) error { return tx.Model(&accountRow{}).Limit(1).Count(&n).Error })
	if err != nil {
		return false, fmt.Errorf("look for accounts: %w", err)
	}
	s.accounts.Put(at.any, n > 0)
	return n > 0, nil
}

// CreateAccount saves a new account; access.ErrTaken where its name is used.
func (s *Store) CreateAccount(ctx context.Context, a access.Account, hash string) (access.Account, error) {
	row := accountRow{HouseholdID: a.HouseholdID, Name: a.Name, NameKey: nameKey(a.Name), Role: string(a.Role), Hash: hash, CreatedAt: a.CreatedAt.UTC().Format(timeLayout)}
	err := s.write(ctx, func(tx *gorm.DB) error {
		err := tx.Create(&row).Error
		if errors.Is(err, gorm.ErrDuplicatedKey) {
			return access.ErrTaken
		}
		return err
	})
	if err != nil {
		return access.Account{}, fmt.Errorf("save account: %w", err)
	}
	a.ID = row.ID
	return a, nil
}

// FindAccount finds the account of a name, letter case aside, and its hash.
func (s *Store) FindAccount(ctx context.Context, name string) (access.Account, string, error) {
	var row accountRow
	err := s.ask(ctx, func(tx *gorm.DB) error { return known(tx.Where("name_key = ?", nameKey(name)).Take(&row).Error) })
	if err != nil {
		return access.Account{}, "", fmt.Errorf("find account: %w", err)
	}
	a, err := row.account()
	return a, row.Hash, err
}

// ListAccounts gives a household's accounts in the order of their names.
func (s *Store) ListAccounts(ctx context.Context, householdID int64) ([]access.Account, error) {
	var rows []accountRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return tx.Where("household_id = ?", householdID).Order("name_key").Find(&rows).Error
	})
	if err != nil {
		return nil, fmt.Errorf("list accounts: %w", err)
	}
	return each(rows, accountRow.account)
}

// each turns rows into what they stand for.
func each[R, T any](rows []R, turn func(R) (T, error)) ([]T, error) {
	var out []T
	for _, row := range rows {
		one, err := turn(row)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// SetRole gives an account another role; access.ErrLastKeeper where no keeper would
// be left.
func (s *Store) SetRole(ctx context.Context, householdID, accountID int64, role access.Role) error {
	return s.changeAccount(ctx, "set role", householdID, accountID, func(tx *gorm.DB) error {
		return tx.Model(&accountRow{ID: accountID}).Update("role", string(role)).Error
	})
}

// SetHash replaces the passphrase's hash and ends every session of the account.
func (s *Store) SetHash(ctx context.Context, householdID, accountID int64, hash string) error {
	return s.changeAccount(ctx, "set passphrase", householdID, accountID, func(tx *gorm.DB) error {
		if err := tx.Where("account_id = ?", accountID).Delete(&sessionRow{}).Error; err != nil {
			return err
		}
		return tx.Model(&accountRow{ID: accountID}).Update("hash", hash).Error
	})
}

// DeleteAccount drops an account with its sessions; access.ErrLastKeeper where no
// keeper would be left.
func (s *Store) DeleteAccount(ctx context.Context, householdID, accountID int64) error {
	return s.changeAccount(ctx, "remove account", householdID, accountID, func(tx *gorm.DB) error {
		if err := tx.Where("account_id = ?", accountID).Delete(&sessionRow{}).Error; err != nil {
			return err
		}
		return tx.Delete(&accountRow{ID: accountID}).Error
	})
}

// changeAccount changes one of the household's accounts, unless that leaves no
// keeper.
func (s *Store) changeAccount(ctx context.Context, what string, householdID, accountID int64, change func(tx *gorm.DB) error) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		if err := known(tx.Where("id = ? AND household_id = ?", accountID, householdID).Take(&accountRow{}).Error); err != nil {
			return err
		}
		if err := change(tx); err != nil {
			return err
		}
		var keepers int64
		err := tx.Model(&accountRow{}).Where("household_id = ? AND role = ?", householdID, string(access.Keeper)).Count(&keepers).Error
		if err == nil && keepers == 0 {
			err = access.ErrLastKeeper
		}
		return err
	})
	if err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	return nil
}
