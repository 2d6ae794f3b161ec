package cli

import (
	"flag"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
)

// report writes figures line by line; with a household also everyone's plate.
func report(r *run) (int, error) {
	table, system := "", measure.US
	o, err := r.parse("report", false, func(f *flag.FlagSet) {
		f.StringVar(&table, "household", "", "a household file: adds everyone's plate (may be left out)")
		measuresFlag(f, &system)
	}, kitchen.AccountFormats()...)
	if err != nil {
		return exitDone, err
	}
	o.household, o.measures = table, system
	status := exitDone
	var accounts []kitchen.Account
	if o.household == "" {
		err = r.each(o, func(_ *kitchen.Kitchen, a kitchen.Analysis) error {
			accounts = append(accounts, a.Account())
			return nil
		})
	} else {
		status, err = r.judged(o, func(k *kitchen.Kitchen, a kitchen.Analysis, h household.Household) (bool, error) {
			checked := k.Check(a, h)
			accounts = append(accounts, checked.Account(a))
			return checked.Fits, nil
		})
	}
	if err != nil {
		return status, err
	}
	return status, kitchen.WriteAccounts(r.out, o.format, accounts...)
}
