package kitchen

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"

	"potwright/internal/household"
)

// ErrChanged is given where what a save would take the place of is no longer what the
// person who saves looked at: someone else saved in between.
var ErrChanged = errors.New("someone else saved in between; nothing was saved")

// Mark tells a state of what is kept from any other; "" stands for whatever is there.
type Mark string

// MarkOf is the mark of a state as the store gives it.
func MarkOf(kept any) Mark {
	text, err := json.Marshal(kept)
	if err != nil { // a number that is none; the store keeps no such thing
		text = []byte(err.Error())
	}
	sum := sha256.Sum256(text)
	return Mark(hex.EncodeToString(sum[:8]))
}

// Settings are a household without its members.
func Settings(h household.Household) household.Household {
	h.Members = nil
	return h
}

// changeTries is how often a change is made anew because someone else saved in the
// moment between reading and saving: each time one of them is through.
const changeTries = 100

// ChangeHousehold saves a household as change makes it of what is kept, so that two
// who change different members keep both. An error of change is given as it is, and
// nothing is saved.
func (k *Kitchen) ChangeHousehold(ctx context.Context, id int64, change func(household.Household) (household.Household, error)) error {
	for range changeTries {
		now, err := k.Store.FindHousehold(ctx, id)
		if err != nil {
			return err
		}
		was := MarkOf(now)
		next, err := change(now)
		if err != nil {
			return err
		}
		if _, err = k.Store.SaveHousehold(ctx, next, was); !errors.Is(err, ErrChanged) {
			return err
		}
	}
	return fmt.Errorf("save household %d: %w", id, ErrChanged)
}
