package store

import (
	"context"
	"fmt"
	"time"

	"gorm.io/gorm"

	"potwright/internal/access"
)

// sessionRow is a row of sessions.
type sessionRow struct {
	ID        int64 `gorm:"primaryKey"`
	AccountID int64
	Digest    string
	Device    string
	StartedAt string
	SeenAt    string
}

// TableName is the table's name in the schema.
func (sessionRow) TableName() string { return "sessions" }

func (r sessionRow) session() (access.Session, error) {
	s := access.Session{ID: r.ID, AccountID: r.AccountID, Device: r.Device}
	at := place{"sessions", r.ID}
	var err error
	if s.StartedAt, err = at.time("started_at", r.StartedAt); err != nil {
		return s, err
	}
	s.SeenAt, err = at.time("seen_at", r.SeenAt)
	return s, err
}

// StartSession saves a session and drops those that were started or seen before the
// times given.
func (s *Store) StartSession(ctx context.Context, one access.Session, digest string, startedAfter, seenAfter time.Time) error {
	row := sessionRow{AccountID: one.AccountID, Digest: digest, Device: one.Device,
		StartedAt: one.StartedAt.UTC().Format(timeLayout), SeenAt: one.SeenAt.UTC().Format(timeLayout)}
	err := s.write(ctx, func(tx *gorm.DB) error {
		err := tx.Where("started_at < ? OR seen_at < ?", startedAfter.UTC().Format(timeLayout), seenAfter.UTC().Format(timeLayout)).
			Delete(&sessionRow{}).Error
		if err != nil {
			return err
		}
		return tx.Create(&row).Error
	})
	if err != nil {
		return fmt.Errorf("start session: %w", err)
	}
	return nil
}

// FindSession finds the session of a digest and its account.
func (s *Store) FindSession(ctx context.Context, digest string) (access.Session, access.Account, error) {
	var row sessionRow
	var of accountRow
	err := s.read(ctx, func(tx *gorm.DB) error {
		if err := known(tx.Where("digest = ?", digest).Take(&row).Error); err != nil {
			return err
		}
		return known(tx.Where("id = ?", row.AccountID).Take(&of).Error)
	})
	if err != nil {
		return access.Session{}, access.Account{}, fmt.Errorf("find session: %w", err)
	}
	one, err := row.session()
	if err != nil {
		return access.Session{}, access.Account{}, err
	}
	a, err := of.account()
	return one, a, err
}

// TouchSession notes when a session was seen; one that ended meanwhile is no error.
func (s *Store) TouchSession(ctx context.Context, id int64, at time.Time) error {
	return s.touch(ctx, &sessionRow{ID: id}, "seen_at", at)
}

func (s *Store) touch(ctx context.Context, row any, column string, at time.Time) error {
	err := s.write(ctx, func(tx *gorm.DB) error { return tx.Model(row).Update(column, at.UTC().Format(timeLayout)).Error })
	if err != nil {
		return fmt.Errorf("note %s: %w", column, err)
	}
	return nil
}

// ListSessions gives an account's sessions, the one seen last first.
func (s *Store) ListSessions(ctx context.Context, accountID int64) ([]access.Session, error) {
	var rows []sessionRow
	err := s.ask(ctx, func(tx *gorm.DB) error {
		return tx.Where("account_id = ?", accountID).Order("seen_at DESC, id DESC").Find(&rows).Error
	})
	if err != nil {
		return nil, fmt.Errorf("list sessions: %w", err)
	}
	return each(rows, sessionRow.session)
}

// EndSession ends one of an account's sessions, all where id is 0.
func (s *Store) EndSession(ctx context.Context, accountID, id int64) error {
	return s.drop(ctx, "end session", func(tx *gorm.DB) *gorm.DB {
		of := tx.Where("account_id = ?", accountID)
		if id != 0 {
			of = of.Where("id = ?", id)
		}
		return of.Delete(&sessionRow{})
	})
}

// drop deletes rows; access.ErrUnknown where there was none.
func (s *Store) drop(ctx context.Context, what string, rows func(tx *gorm.DB) *gorm.DB) error {
	err := s.write(ctx, func(tx *gorm.DB) error {
		done := rows(tx)
		if done.Error == nil && done.RowsAffected == 0 {
			return access.ErrUnknown
		}
		return done.Error
	})
	if err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	return nil
}
