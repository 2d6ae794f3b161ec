package access

import (
	"fmt"
	"slices"
)

// Role is what an account is in its household. The zero value is no role and
// may do nothing.
type Role string

// The roles. Each may do all that the one below it may.
const (
	Keeper Role = "keeper" // everything, accounts and settings too
	Cook   Role = "cook"   // recipes, adapting and saving; people are read
	Eater  Role = "eater"  // reads, and logs what they ate
)

// ParseRole reads a role's word; the error says which there are.
func ParseRole(word string) (Role, error) {
	r := Role(word)
	if !slices.Contains([]Role{Keeper, Cook, Eater}, r) {
		return "", fmt.Errorf("role %q: write keeper, cook or eater", word)
	}
	return r, nil
}

// Action is a sort of thing that is done in a household.
type Action int

// The actions, from what all may do to what the keeper alone may.
const (
	Read           Action = iota + 1 // look at anything of the household
	LogEaten                         // write down what was eaten
	ChangeRecipes                    // write, correct, adapt and save recipes
	ChangePeople                     // members, their limits, the kitchen's ways
	ManageAccounts                   // accounts, tokens, share links
	StartHousehold                   // a further household: whoever has the data file alone
)

// doing is an action in words, as in "only a cook may …".
func (a Action) doing() string {
	switch a {
	case Read:
		return "read this household's pages"
	case LogEaten:
		return "write down what was eaten"
	case ChangeRecipes:
		return "change recipes"
	case ChangePeople:
		return "change people and their limits"
	case ManageAccounts:
		return "manage accounts and links"
	case StartHousehold:
		return "start a further household, with potwright passphrase set"
	}
	return "do that"
}

// allowed are the roles that may do an action; none for an action not known.
func (a Action) allowed() []Role {
	switch a {
	case Read, LogEaten:
		return []Role{Keeper, Cook, Eater}
	case ChangeRecipes:
		return []Role{Keeper, Cook}
	case ChangePeople, ManageAccounts:
		return []Role{Keeper}
	}
	return nil
}

// RefusedError says in words who may do what was refused.
type RefusedError struct{ Action Action }

// Error names the roles that may.
func (e RefusedError) Error() string {
	switch len(e.Action.allowed()) {
	case 0:
		return "only whoever keeps the data file may " + e.Action.doing()
	case 1:
		return "only a keeper of the household may " + e.Action.doing()
	case 2:
		return "only a keeper or a cook of the household may " + e.Action.doing()
	}
	return "only someone with an account in the household may " + e.Action.doing()
}

// May is nil where the caller's role allows the action, else a RefusedError.
func (c Caller) May(a Action) error {
	if slices.Contains(a.allowed(), c.Role) {
		return nil
	}
	return RefusedError{a}
}
