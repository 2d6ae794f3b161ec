package access

import "context"

// Caller is who asks: a role in one household.
type Caller struct {
	HouseholdID int64
	Role        Role
	// Name is the account's or the token's.
	Name string
	// AccountID and SessionID are 0 for a token.
	AccountID, SessionID int64
}

// callerKey is the caller's place in a context.
type callerKey struct{}

// WithCaller puts the caller of a request into its context.
func WithCaller(ctx context.Context, c Caller) context.Context {
	return context.WithValue(ctx, callerKey{}, c)
}

// CallerOf gives the caller of a request; ok is false where no account is set up,
// so that whoever sits at this computer may do everything, and on pages for anyone.
func CallerOf(ctx context.Context) (c Caller, ok bool) {
	c, ok = ctx.Value(callerKey{}).(Caller)
	return c, ok
}

// Sees reports whether the household is the caller's own. One that is not must
// look as if it were not there.
func (c Caller) Sees(householdID int64) bool {
	return householdID > 0 && c.HouseholdID == householdID
}
