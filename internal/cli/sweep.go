package cli

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"iter"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// sweptDocument is one line of a sweep in JSON.
type sweptDocument struct {
	Recipe   int64            `json:"recipe,omitempty"`
	Title    string           `json:"title"`
	Standing kitchen.Standing `json:"standing"`
	Fit      household.Fit    `json:"fit,omitempty"`
	For      []string         `json:"for,omitempty"`
	Swaps    []string         `json:"swaps,omitempty"`
	Why      []string         `json:"why,omitempty"`
}

// sweepFlags are what a sweep goes over: a data file and a household of it, or
// files for a household file.
type sweepFlags struct{ data, household string }

func sweep(r *run) (int, error) {
	var s sweepFlags
	var look kitchen.SweepOptions
	o, err := r.parse("sweep", false, func(f *flag.FlagSet) {
		f.StringVar(&s.data, "data", "", "the file that keeps households and recipes")
		f.StringVar(&s.household, "household", "", "with --data a household's name; else a household file, YAML or JSON")
		f.BoolVar(&look.Adapt, "swaps", false, "look for swaps where a dish does not suit as it is (takes longer)")
		f.IntVar(&look.Workers, "workers", 0, "recipes looked at at once (0: one a processor)")
	})
	if err != nil {
		return exitDone, err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if s.data != "" {
		return r.sweepData(ctx, s, o, look)
	}
	return r.sweepFiles(ctx, s, o, look)
}

// sweepFiles goes over recipe files for a household file.
func (r *run) sweepFiles(ctx context.Context, s sweepFlags, o options, look kitchen.SweepOptions) (int, error) {
	if s.household == "" {
		return exitDone, badInput("nothing to sweep; expected --data FILE, or --household FILE and recipe files")
	}
	texts, err := r.texts(o.files)
	if err != nil {
		return exitDone, err
	}
	k, err := r.open()
	if err != nil {
		return exitDone, err
	}
	h, err := readHousehold(s.household, k.Needs)
	if err != nil {
		return exitDone, err
	}
	var list []kitchen.Sweepable
	for _, t := range texts {
		list = append(list, kitchen.Sweepable{Title: t.name, Text: t.body})
	}
	return r.writeSweep(o, k.SweepTexts(ctx, h, list, look))
}

// sweepData goes over the saved recipes of a household.
func (r *run) sweepData(ctx context.Context, s sweepFlags, o options, look kitchen.SweepOptions) (status int, err error) {
	if len(o.files) > 0 {
		return exitDone, badInput("sweep --data takes no recipe file %q", o.files[0])
	}
	k, _, err := r.openWith(rulesBeside(s.data), foodsBeside(s.data))
	if err != nil {
		return exitDone, err
	}
	store, err := openData(s.data)
	if err != nil {
		return exitDone, err
	}
	defer func() { err = errors.Join(err, store.Close()) }()
	k.Store = store
	id, err := householdNamed(ctx, store, s.household)
	if err != nil {
		return exitDone, err
	}
	return r.writeSweep(o, k.Sweep(ctx, id, look))
}

// householdNamed finds a household by name, the only one where none is given.
func householdNamed(ctx context.Context, store kitchen.Shelf, name string) (int64, error) {
	list, err := store.ListHouseholds(ctx)
	if err != nil {
		return 0, err
	}
	var names []string
	for _, h := range list {
		if h.Name == name || name == "" && len(list) == 1 {
			return h.ID, nil
		}
		names = append(names, fmt.Sprintf("%q", h.Name))
	}
	if len(names) == 0 {
		return 0, badInput("the data file holds no household")
	}
	return 0, badInput("--household %q is not one of the households; expected one of %s", name, strings.Join(names, ", "))
}

func (r *run) writeSweep(o options, results iter.Seq2[kitchen.Swept, error]) (int, error) {
	status := exitDone
	for s, err := range results {
		if err != nil {
			return status, err
		}
		if s.Standing != kitchen.Suits && s.Standing != kitchen.SuitsAfter {
			status = exitOutside
		}
		if err := r.writeSwept(o, s); err != nil {
			return status, err
		}
	}
	if o.format == "text" {
		fmt.Fprintln(r.out, kitchen.Caution)
	}
	return status, nil
}

func (r *run) writeSwept(o options, s kitchen.Swept) error {
	if o.format == "json" {
		return r.json(sweptDocument{s.Recipe.ID, s.Recipe.Title, s.Standing, s.Fit, s.For, s.Swaps, s.Why})
	}
	if _, err := fmt.Fprintf(r.out, "%s: %s\n", s.Recipe.Title, s.Standing); err != nil {
		return err
	}
	for _, swap := range s.Swaps {
		fmt.Fprintln(r.out, "  swap: "+swap)
	}
	for _, why := range s.Why {
		fmt.Fprintln(r.out, "  "+why)
	}
	return nil
}
