package cli

import (
	"potwright/internal/kitchen"
)

// report writes figures line by line; for a household also everyone's plate.
func report(r *run) (int, error) {
	o, err := r.parseRecipes("report", false, nil, kitchen.AccountFormats()...)
	if err != nil {
		return exitDone, err
	}
	status := exitDone
	var accounts []kitchen.Account
	if o.household == "" && !o.place.named() {
		err = r.each(o, func(_ *kitchen.Kitchen, a kitchen.Analysis) error {
			accounts = append(accounts, a.Account())
			return nil
		})
	} else {
		status, err = r.judged(o, func(k *kitchen.Kitchen, a kitchen.Analysis, t table) (bool, error) {
			checked := k.Check(a, t.household)
			accounts = append(accounts, checked.Account(a))
			return checked.Fits, nil
		})
	}
	if err != nil {
		return status, err
	}
	return status, kitchen.WriteAccounts(r.out, o.format, accounts...)
}
