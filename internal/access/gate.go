package access

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"time"
)

// How long a sign-in holds: 30 days at most (NIST SP 800-63B-4, AAL1, from
// memory), and a week unused (common practice, no source).
const (
	SessionLife = 30 * 24 * time.Hour
	sessionIdle = 7 * 24 * time.Hour
	// noteUse is how exactly the last use is kept, so that reading a page is not a
	// write each time.
	noteUse = 5 * time.Minute
	// hashedAtOnce bounds the memory that a flood of logins takes.
	hashedAtOnce = 2
)

// Gate lets people in and keeps what they are known by. It is safe for concurrent
// use.
type Gate struct {
	Store  Store
	hasher *Hasher
	tries  *Throttle
	now    func() time.Time
}

// NewGate makes one over a store, with the clock given.
func NewGate(store Store, now func() time.Time) *Gate {
	return &Gate{Store: store, hasher: NewHasher(hashedAtOnce), tries: NewThrottle(now), now: now}
}

// ThrottledError is given where too many passphrases were tried.
type ThrottledError struct{ Wait time.Duration }

// Error says how long to wait.
func (e ThrottledError) Error() string {
	return fmt.Sprintf("too many tries: wait %s and try again", e.Wait.Round(time.Second))
}

// SignIn starts a session and gives the secret it is known by. An unknown name and
// a wrong passphrase are the same ErrWrong after the same work; too many tries are a
// ThrottledError. The secret of an earlier session of this browser, if any, opens
// nothing afterwards.
func (g *Gate) SignIn(ctx context.Context, t Attempt, earlier string) (secret string, err error) {
	// A digest, so that a key is short and says nobody's name.
	if wait, ok := g.tries.Try(Digest(foldName(t.Name)), t.Address); !ok {
		return "", ThrottledError{wait}
	}
	a, err := g.prove(ctx, t)
	if err != nil {
		return "", err
	}
	if err := g.SignOut(ctx, earlier); err != nil {
		return "", err
	}
	return g.start(ctx, a.ID, t.Device)
}

// Attempt is one try to get in: what was typed, the network address it came from
// and the browser in words.
type Attempt struct{ Name, Passphrase, Address, Device string }

// prove finds the account of a name and passphrase.
func (g *Gate) prove(ctx context.Context, t Attempt) (Account, error) {
	a, hash, err := g.Store.FindAccount(ctx, t.Name)
	if err != nil && !errors.Is(err, ErrUnknown) {
		return Account{}, err
	}
	right, err := g.hasher.Verify(hash, t.Passphrase)
	if err != nil {
		return Account{}, err
	}
	if !right {
		return Account{}, ErrWrong
	}
	return a, nil
}

func (g *Gate) start(ctx context.Context, accountID int64, device string) (secret string, err error) {
	secret = NewSecret()
	now := g.now()
	s := Session{AccountID: accountID, Device: device, StartedAt: now, SeenAt: now}
	return secret, g.Store.StartSession(ctx, s, Digest(secret), now.Add(-SessionLife), now.Add(-sessionIdle))
}

// SignOut ends the session of a secret; one that opens nothing is no error.
func (g *Gate) SignOut(ctx context.Context, secret string) error {
	if secret == "" {
		return nil
	}
	s, _, err := g.Store.FindSession(ctx, Digest(secret))
	if err == nil {
		err = g.Store.EndSession(ctx, s.AccountID, s.ID)
	}
	if errors.Is(err, ErrUnknown) {
		return nil
	}
	return err
}

// BySession is the caller whom a session's secret stands for; ErrUnknown where it
// does not hold (any more).
func (g *Gate) BySession(ctx context.Context, secret string) (Caller, error) {
	s, a, err := g.Store.FindSession(ctx, Digest(secret))
	if err != nil {
		return Caller{}, err
	}
	now := g.now()
	if now.Sub(s.StartedAt) > SessionLife || now.Sub(s.SeenAt) > sessionIdle {
		return Caller{}, ErrUnknown
	}
	if now.Sub(s.SeenAt).Abs() > noteUse {
		if err := g.Store.TouchSession(ctx, s.ID, now); err != nil {
			return Caller{}, err
		}
	}
	return Caller{HouseholdID: a.HouseholdID, Role: a.Role, AccountID: a.ID, Name: a.Name, SessionID: s.ID}, nil
}

// ByToken is the caller whom a token stands for; ErrUnknown where it was revoked.
func (g *Gate) ByToken(ctx context.Context, secret string) (Caller, error) {
	t, err := g.Store.FindToken(ctx, Digest(secret))
	if err != nil {
		return Caller{}, err
	}
	if now := g.now(); now.Sub(t.UsedAt).Abs() > noteUse {
		if err := g.Store.TouchToken(ctx, t.ID, now); err != nil {
			return Caller{}, err
		}
	}
	return Caller{HouseholdID: t.HouseholdID, Role: t.Role, Name: t.Name}, nil
}

// Open adds an account to a household.
func (g *Gate) Open(ctx context.Context, a Account, passphrase string) (Account, error) {
	if err := CheckName(a.Name); err != nil {
		return Account{}, err
	}
	hash, err := g.hasher.Hash(passphrase)
	if err != nil {
		return Account{}, err
	}
	a.CreatedAt = g.now()
	return g.Store.CreateAccount(ctx, a, hash)
}

// Reset gives an account another passphrase and ends its sessions.
func (g *Gate) Reset(ctx context.Context, householdID, accountID int64, passphrase string) error {
	hash, err := g.hasher.Hash(passphrase)
	if err != nil {
		return err
	}
	return g.Store.SetHash(ctx, householdID, accountID, hash)
}

// Change is Reset by the caller, who proves the passphrase so far and stays signed
// in under a new secret.
func (g *Gate) Change(ctx context.Context, c Caller, old Attempt, passphrase string) (secret string, err error) {
	if err := CheckPassphrase(passphrase); err != nil {
		return "", err
	}
	if wait, ok := g.tries.TrySignedIn(strconv.FormatInt(c.SessionID, 10)); !ok {
		return "", ThrottledError{wait}
	}
	if _, err := g.prove(ctx, old); err != nil {
		return "", err
	}
	if err := g.Reset(ctx, c.HouseholdID, c.AccountID, passphrase); err != nil {
		return "", err
	}
	return g.start(ctx, c.AccountID, old.Device)
}

// MakeToken makes a token and gives its secret, which is not kept.
func (g *Gate) MakeToken(ctx context.Context, householdID int64, name string, role Role) (secret string, err error) {
	if err := CheckName(name); err != nil {
		return "", err
	}
	secret = NewSecret()
	_, err = g.Store.CreateToken(ctx, Token{HouseholdID: householdID, Name: name, Role: role, CreatedAt: g.now()}, Digest(secret))
	return secret, err
}

// Share makes a link to a version and gives its secret, which is not kept.
func (g *Gate) Share(ctx context.Context, l Link) (secret string, err error) {
	secret, l.CreatedAt = NewSecret(), g.now()
	_, err = g.Store.CreateLink(ctx, l, Digest(secret))
	return secret, err
}

// Shared is the link of a secret; ErrUnknown where it was revoked.
func (g *Gate) Shared(ctx context.Context, secret string) (Link, error) {
	return g.Store.FindLink(ctx, Digest(secret))
}
