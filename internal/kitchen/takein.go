package kitchen

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"potwright/internal/diagnostic"
	"potwright/internal/household"
)

// TakeIn saves whole households as new ones, all or none. One whose name is used
// here gets a number behind it. notes say so, and what of a household this program
// does not know; it is kept all the same.
func (k *Kitchen) TakeIn(ctx context.Context, all []Holdings) (saved []household.Household, notes []string, err error) {
	here, err := k.Store.ListHouseholds(ctx)
	if err != nil {
		return nil, nil, err
	}
	var used []string
	for _, h := range here {
		used = append(used, h.Name)
	}
	all = slices.Clone(all)
	for i := range all {
		h := &all[i].Household
		notes = append(notes, k.doubts(*h)...)
		if name := freeName(h.Name, used); name != h.Name {
			notes = append(notes, fmt.Sprintf("there is a household %q already; this one is now called %q", h.Name, name))
			h.Name = name
		}
		used = append(used, h.Name)
	}
	saved, err = k.Store.TakeHoldings(ctx, all)
	return saved, notes, err
}

// doubts are what of a household is not in the books of this program.
func (k *Kitchen) doubts(h household.Household) (notes []string) {
	var faults diagnostic.Faults
	if errors.As(h.Validate(k.Needs), &faults) {
		for _, f := range faults {
			notes = append(notes, fmt.Sprintf("household %q: %s; it is kept as it was", h.Name, f.Error()))
		}
	}
	return notes
}

// freeName is the name, or the name with the least number, that is not used; letter
// case aside.
func freeName(name string, used []string) string {
	try := name
	for n := 2; slices.ContainsFunc(used, func(u string) bool { return strings.EqualFold(u, try) }); n++ {
		try = fmt.Sprintf("%s (%d)", name, n)
	}
	return try
}
