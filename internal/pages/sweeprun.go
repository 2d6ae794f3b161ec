package pages

import (
	"context"
	"errors"
	"sync"
	"time"

	"potwright/internal/household"
	"potwright/internal/kitchen"
)

// sweeps are the searches for swaps over all recipes, the last one of every household.
type sweeps struct {
	lock sync.Mutex
	of   map[int64]*sweepRun
}

// sweepRun is one such search, going on while its page is looked at.
type sweepRun struct {
	// mark is that of the people and the versions it is about.
	mark kitchen.Mark
	all  int
	stop context.CancelFunc
	// idle stops it when nobody has asked after it for a while.
	idle  *time.Timer
	ended chan struct{}

	lock  sync.Mutex
	found []kitchen.Swept
	err   error
}

const (
	// abandoned is how long a search goes on without anyone looking.
	abandoned = 30 * time.Second
	// patience is how long a page waits for it before it tells how far it is.
	patience = 800 * time.Millisecond
)

// progress is what a search has found by now.
type progress struct {
	found []kitchen.Swept
	all   int
	// going is set while more is looked for; stopped where it ended before the end.
	going, stopped bool
}

// sweepFor is the household's search for swaps: the one that goes on or has ended for
// the same people and versions, else a new one. on asks one that was stopped to go on
// from where it was.
func (s *Site) sweepFor(h household.Household, list []kitchen.RecipeSummary, on bool) *sweepRun {
	mark := kitchen.MarkOf(struct {
		Household household.Household
		Recipes   []kitchen.RecipeSummary
	}{h, list})
	s.sweeps.lock.Lock()
	defer s.sweeps.lock.Unlock()
	old := s.sweeps.of[h.ID]
	var found []kitchen.Swept
	if old != nil {
		if p, _ := old.progress(); old.mark == mark && (p.going || !p.stopped || !on) {
			old.idle.Reset(abandoned)
			return old
		} else if old.mark == mark {
			found = p.found
		}
		old.stop()
	}
	run := s.startSweep(h.ID, list, found)
	run.mark = mark
	s.sweeps.of[h.ID] = run
	return run
}

// startSweep looks at the recipes behind those already found. One worker leaves the
// rest of the machine to the other pages.
func (s *Site) startSweep(householdID int64, list []kitchen.RecipeSummary, found []kitchen.Swept) *sweepRun {
	ctx, stop := context.WithCancel(context.Background())
	run := &sweepRun{all: len(list), stop: stop, found: found, ended: make(chan struct{}), idle: time.AfterFunc(abandoned, stop)}
	go func() {
		defer close(run.ended)
		defer stop()
		for swept, err := range s.kitchen.SweepOf(ctx, householdID, list[len(found):], kitchen.SweepOptions{Workers: 1, Adapt: true}) {
			run.add(swept, err)
		}
		run.idle.Stop()
	}()
	return run
}

func (r *sweepRun) add(swept kitchen.Swept, err error) {
	r.lock.Lock()
	defer r.lock.Unlock()
	if err != nil {
		r.err = err
		return
	}
	r.found = append(r.found, swept)
}

// progress is what was found by now; the error is one that is no stop.
func (r *sweepRun) progress() (progress, error) {
	going := true
	select {
	case <-r.ended:
		going = false
	default:
	}
	r.lock.Lock()
	defer r.lock.Unlock()
	p := progress{found: r.found[:len(r.found):len(r.found)], all: r.all, going: going, stopped: !going && len(r.found) < r.all}
	if errors.Is(r.err, context.Canceled) {
		return p, nil
	}
	return p, r.err
}

// wait waits a moment for the end.
func (r *sweepRun) wait(ctx context.Context) {
	select {
	case <-r.ended:
	case <-time.After(patience):
	case <-ctx.Done():
	}
}

// stopSweep stops a household's search, if one goes on, and waits for its end.
func (s *Site) stopSweep(householdID int64) {
	s.sweeps.lock.Lock()
	run := s.sweeps.of[householdID]
	s.sweeps.lock.Unlock()
	if run != nil {
		run.stop()
		<-run.ended
	}
}
