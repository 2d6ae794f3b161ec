package access

import (
	"context"
	"errors"
	"fmt"
	"time"
	"unicode/utf8"
)

// Account is one person's way in. It belongs to one household.
type Account struct {
	ID          int64
	HouseholdID int64
	Name        string // what is typed at the login; no two are alike, letter case aside
	Role        Role
	CreatedAt   time.Time
}

// Session is one sign-in that holds.
type Session struct {
	ID        int64
	AccountID int64
	// Device is the browser in words, to know it by.
	Device    string
	StartedAt time.Time
	SeenAt    time.Time
}

// Token lets one client through the JSON door.
type Token struct {
	ID          int64
	HouseholdID int64
	Name        string // of the client
	Role        Role
	CreatedAt   time.Time
	UsedAt      time.Time // zero where it was never used
}

// Link shows one version of a recipe to whoever has its address.
type Link struct {
	ID          int64
	HouseholdID int64
	RecipeID    int64
	VersionID   int64
	CreatedAt   time.Time
}

// Errors of a Store and of the Gate over it.
var (
	// ErrUnknown is given for an account, session, token or link that is not there.
	ErrUnknown = errors.New("not there")
	// ErrTaken is given where another account has the name.
	ErrTaken = errors.New("there is an account of that name already: choose another name")
	// ErrLastKeeper is given where a household would be left without a keeper.
	ErrLastKeeper = errors.New("the household would have no keeper: make another account keeper first")
	// ErrWrong is given for a name and passphrase that do not open anything.
	ErrWrong = errors.New("the name or the passphrase is not right")
)

// Store keeps accounts and what they are known by. Digests are those of secrets,
// see Digest; every find gives ErrUnknown where there is nothing.
type Store interface {
	// HasAccounts reports whether there is any account at all.
	HasAccounts(ctx context.Context) (bool, error)
	// CreateAccount saves a new account with its hash; ErrTaken where the name is.
	CreateAccount(ctx context.Context, a Account, hash string) (Account, error)
	FindAccount(ctx context.Context, name string) (a Account, hash string, err error)
	ListAccounts(ctx context.Context, householdID int64) ([]Account, error)
	// SetRole and DeleteAccount give ErrLastKeeper rather than leave no keeper.
	SetRole(ctx context.Context, householdID, accountID int64, role Role) error
	DeleteAccount(ctx context.Context, householdID, accountID int64) error
	// SetHash replaces the passphrase's hash and ends every session of the account.
	SetHash(ctx context.Context, householdID, accountID int64, hash string) error

	// StartSession saves a session under its digest and drops those that were
	// started or seen before the times given.
	StartSession(ctx context.Context, s Session, digest string, startedAfter, seenAfter time.Time) error
	FindSession(ctx context.Context, digest string) (Session, Account, error)
	TouchSession(ctx context.Context, id int64, at time.Time) error
	ListSessions(ctx context.Context, accountID int64) ([]Session, error)
	// EndSession ends one of an account's sessions, all where id is 0.
	EndSession(ctx context.Context, accountID, id int64) error

	CreateToken(ctx context.Context, t Token, digest string) (Token, error)
	FindToken(ctx context.Context, digest string) (Token, error)
	TouchToken(ctx context.Context, id int64, at time.Time) error
	ListTokens(ctx context.Context, householdID int64) ([]Token, error)
	DeleteToken(ctx context.Context, householdID, id int64) error

	// CreateLink saves a link to a version of the household's recipe.
	CreateLink(ctx context.Context, l Link, digest string) (Link, error)
	FindLink(ctx context.Context, digest string) (Link, error)
	// ListLinks gives the links to any version of a recipe.
	ListLinks(ctx context.Context, householdID, recipeID int64) ([]Link, error)
	DeleteLink(ctx context.Context, householdID, recipeID, id int64) error
}

// MostName is the most characters of a name: of an account, a token, and all else that is
// named. A design choice.
const MostName = 80

// CheckName says what is wrong with the name of an account or a token.
func CheckName(name string) error {
	switch n := utf8.RuneCountInString(name); {
	case n == 0:
		return errors.New("the name is empty: give one, such as ana")
	case n > MostName:
		return fmt.Errorf("the name has %d characters: use at most %d", n, MostName)
	case !utf8.ValidString(name):
		return errors.New("the name is not UTF-8 text: type it anew")
	}
	return nil
}
