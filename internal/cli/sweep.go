package cli

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"iter"
	"os"
	"os/signal"
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

// sweepFlags are what a sweep goes over: a place and a household of it, or files for
// a household file.
type sweepFlags struct {
	place
	household string
}

func sweep(r *run) (int, error) {
	var s sweepFlags
	var look kitchen.SweepOptions
	o, err := r.parse("sweep", func(f *flag.FlagSet) {
		s.flags(f)
		f.StringVar(&s.household, "household", "", "with --data or --server a household's name; else a household file, YAML or JSON")
		f.BoolVar(&look.Adapt, "swaps", false, "look for swaps where a dish does not suit as it is (takes longer)")
		f.IntVar(&look.Workers, "workers", 0, "recipes looked at at once (0: one a processor)")
	})
	if err != nil {
		return exitDone, err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := s.settle(len(o.files) == 0); err != nil {
		return exitDone, err
	}
	defer sweepInMemory()()
	if s.named() {
		return r.sweepKept(ctx, s, o, look)
	}
	return r.sweepFiles(ctx, s, o, look)
}

// sweepFiles goes over recipe files for a household file.
func (r *run) sweepFiles(ctx context.Context, s sweepFlags, o options, look kitchen.SweepOptions) (int, error) {
	if s.household == "" {
		return exitDone, badInput("nothing to sweep; expected --data FILE, --server URL, or --household FILE and recipe files")
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

// sweepKept goes over the saved recipes of a household.
func (r *run) sweepKept(ctx context.Context, s sweepFlags, o options, look kitchen.SweepOptions) (status int, err error) {
	if len(o.files) > 0 {
		return exitDone, badInput("sweep takes no recipe file %q beside saved recipes", o.files[0])
	}
	k, h, done, err := r.openHousehold(ctx, s.place, s.household)
	if err != nil {
		return exitDone, err
	}
	defer func() { err = errors.Join(err, done()) }()
	return r.writeSweep(o, k.Sweep(ctx, h.ID, look))
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
