package kitchen

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"runtime"
	"slices"
	"sync"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/recipe"
)

// SweepOptions say how far a sweep looks.
type SweepOptions struct {
	// Workers is how many recipes are looked at at once; 0 for one a processor.
	Workers int
	// Adapt looks for swaps where a dish does not suit as it is: a search that
	// takes far longer than the check.
	Adapt bool
	// From skips so many recipes of the list; Most ends after so many, 0 for all.
	From, Most int
}

// Standing is what a sweep found of one recipe.
type Standing string

// Standings.
const (
	Suits      Standing = "suits"        // as it is
	Differs    Standing = "does not yet" // not as it is; swaps were not looked for
	SuitsAfter Standing = "with swaps"
	Unsuitable Standing = "not found" // no allowed swaps were found that suit everyone
	Unread     Standing = "unread"    // the text no longer reads; Why says where
)

// Swept is what a sweep says of one recipe.
type Swept struct {
	// Recipe is the one looked at; its ids are 0 where it is not a saved one.
	Recipe   RecipeSummary
	Standing Standing
	// Fit is the worst verdict of the dish as it is; "" where it was not read.
	Fit household.Fit
	// For are the members whom it does not suit as it is, in their order.
	For []string
	// Swaps are the titles of the swaps that make it suit.
	Swaps []string
	// Why is a sentence for each thing in the way.
	Why []string
}

// Sweepable is one recipe of a sweep that is not taken from the store.
type Sweepable struct{ Title, Text string }

// sweepJob reads one recipe and the wishes kept with it.
type sweepJob struct {
	recipe RecipeSummary
	// read may be given a sheet to read on, as Kitchen.read may.
	read func(context.Context, *nutrient.Sheet) (Analysis, adaptation.Wishes, error)
	// key is under what the recipe's gist is remembered; nil for not at all.
	key *keptKey
}

// Sweep looks at the newest version of every recipe of a household, in the order
// of the list, for the members it has now. Results come as they are ready and in
// order; only a few a worker are held at once. It ends with an error, the
// context's where that is done, or where the loop over it ends. A text that does
// not read is a result, not an error.
func (k *Kitchen) Sweep(ctx context.Context, householdID int64, o SweepOptions) iter.Seq2[Swept, error] {
	return func(yield func(Swept, error) bool) {
		list, err := k.Store.ListRecipes(ctx, householdID)
		if err != nil {
			yield(Swept{}, fmt.Errorf("list recipes of household %d: %w", householdID, err))
			return
		}
		k.SweepOf(ctx, householdID, o.part(list), o)(yield)
	}
}

// SweepOf is Sweep over some of the household's recipes; From and Most of the options
// do not count. A recipe whose gist is in the kitchen's Memory is not read again, but
// for swaps.
func (k *Kitchen) SweepOf(ctx context.Context, householdID int64, list []RecipeSummary, o SweepOptions) iter.Seq2[Swept, error] {
	return func(yield func(Swept, error) bool) {
		w, err := k.waysOf(ctx, householdID)
		if err != nil {
			yield(Swept{}, err)
			return
		}
		if len(list) > manyRecipes {
			own := *w
			own.reading = &reading{kitchen: w.kitchen, known: new(lines)}
			w = &own
		}
		k.sweep(ctx, w.household, k.sweepJobs(householdID, list, w, o.Adapt), o, yield)
	}
}

// writtenAtOnce is how many versions are read from the store with one question: most
// of what one costs is the asking. A design choice.
const writtenAtOnce = 64

// sweepJobs are the jobs of a household's recipes; wished takes the wishes kept with them.
func (k *Kitchen) sweepJobs(householdID int64, list []RecipeSummary, w *ways, wished bool) iter.Seq[sweepJob] {
	return func(yield func(sweepJob) bool) {
		for part := range slices.Chunk(list, writtenAtOnce) {
			written := k.writtenOf(householdID, part)
			for _, r := range part {
				j := sweepJob{recipe: r, read: func(ctx context.Context, sheet *nutrient.Sheet) (Analysis, adaptation.Wishes, error) {
					return k.openSwept(ctx, householdID, r, w, wished, written, sheet)
				}}
				if !wished && k.Memory != nil {
					j.key = &keptKey{w.gist, r.LatestID}
				}
				if !yield(j) {
					return
				}
			}
		}
	}
}

// writtenOf gives what one of the recipes is read from: the first who asks has the
// store asked for all of them, the others wait.
func (k *Kitchen) writtenOf(householdID int64, part []RecipeSummary) func(context.Context, RecipeSummary) (recipe.Written, error) {
	var once sync.Once
	var all map[int64]recipe.Written
	var failed error
	return func(ctx context.Context, r RecipeSummary) (recipe.Written, error) {
		once.Do(func() {
			ids := make([]int64, len(part))
			for i := range part {
				ids[i] = part[i].LatestID
			}
			if all, failed = k.Store.FindWritten(ctx, householdID, ids); failed != nil {
				failed = fmt.Errorf("find version %d and those after it: %w", part[0].LatestID, failed)
			}
		})
		return all[r.LatestID], failed
	}
}

// manyRecipes are so many that a sweep of them reads with a memory for lines of its
// own, larger than the household's and forgotten at its end.
const manyRecipes = 500

// SweepTexts is Sweep over texts given, for a household that need not be saved.
func (k *Kitchen) SweepTexts(ctx context.Context, h household.Household, texts []Sweepable, o SweepOptions) iter.Seq2[Swept, error] {
	return func(yield func(Swept, error) bool) {
		reader, known := k.Measuring(h.Measures), new(lines)
		jobs := func(yield func(sweepJob) bool) {
			for _, t := range texts {
				j := sweepJob{recipe: RecipeSummary{Title: t.Title}, read: func(_ context.Context, sheet *nutrient.Sheet) (Analysis, adaptation.Wishes, error) {
					a, err := reader.read(recipe.ParseWith, t.Text, nil, nil, known, sheet)
					return a, adaptation.Wishes{}, unreadable(err)
				}}
				if !yield(j) {
					return
				}
			}
		}
		reader.sweep(ctx, h, jobs, o, yield)
	}
}

// part is the stretch of the list that is asked for.
func (o SweepOptions) part(list []RecipeSummary) []RecipeSummary {
	list = list[min(max(o.From, 0), len(list)):]
	if o.Most > 0 {
		list = list[:min(o.Most, len(list))]
	}
	return list
}

// openSwept opens a recipe's newest version with the household's ways.
func (k *Kitchen) openSwept(ctx context.Context, householdID int64, r RecipeSummary, ways *ways, wished bool,
	written func(context.Context, RecipeSummary) (recipe.Written, error), sheet *nutrient.Sheet) (Analysis, adaptation.Wishes, error) {
	var w adaptation.Wishes
	v, err := written(ctx, r)
	if err != nil {
		return Analysis{}, w, err
	}
	if wished {
		if w, err = k.WishesFor(ctx, householdID, r.ID); err != nil && !errors.Is(err, ErrNotFound) {
			return Analysis{}, w, fmt.Errorf("find the wishes of recipe %d: %w", r.ID, err)
		}
	}
	a, err := ways.read(recipe.ParseKept, v.Text, v.Corrections, sheet)
	return a, w, unreadable(err)
}

// unreadError is a recipe whose text does not read.
type unreadError struct{ error }

func unreadable(err error) error {
	if err == nil {
		return nil
	}
	return unreadError{err}
}

// sweptOrError is a result on its way from a worker.
type sweptOrError struct {
	swept Swept
	err   error
}

// promised is a job and where its result goes.
type promised struct {
	job     sweepJob
	promise chan sweptOrError
}

// sweep looks at the jobs with some workers and hands the results on in order.
// The queue of promised results bounds what is held.
func (k *Kitchen) sweep(ctx context.Context, h household.Household, jobs iter.Seq[sweepJob], o SweepOptions, yield func(Swept, error) bool) {
	workers := o.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	asked := ctx
	ctx, stop := context.WithCancel(ctx)
	queue := make(chan chan sweptOrError, workers)
	// No worker outlives the sweep: the store may be closed after it.
	defer func() {
		stop()
		for promise := range queue {
			<-promise
		}
	}()
	taken := make(chan promised)
	go func() {
		defer close(queue)
		defer close(taken)
		for j := range jobs {
			p := promised{j, make(chan sweptOrError, 1)}
			select {
			case queue <- p.promise:
				taken <- p
			case <-ctx.Done():
				return
			}
		}
	}()
	for range workers {
		go func() {
			var sheet *nutrient.Sheet // the answers of a search for swaps may be kept
			if !o.Adapt {
				sheet = new(nutrient.Sheet)
			}
			for p := range taken {
				s, err := k.sweepOne(ctx, h, p.job, o, sheet)
				p.promise <- sweptOrError{s, err}
			}
		}()
	}
	for promise := range queue {
		r := <-promise
		if r.err != nil && asked.Err() != nil {
			r.err = asked.Err() // the store may answer a cancelled question in words of its own
		}
		if !yield(r.swept, r.err) || r.err != nil {
			return
		}
	}
	if err := asked.Err(); err != nil {
		yield(Swept{}, err)
	}
}

func (k *Kitchen) sweepOne(ctx context.Context, h household.Household, j sweepJob, o SweepOptions, sheet *nutrient.Sheet) (Swept, error) {
	if err := ctx.Err(); err != nil {
		return Swept{}, err
	}
	s := Swept{Recipe: j.recipe}
	if j.key != nil {
		if g, known := k.Memory.gists.Find(*j.key); known {
			s.judge(g, h)
			return s, nil
		}
	}
	a, w, err := j.read(ctx, sheet)
	var unread unreadError
	switch {
	case errors.As(err, &unread):
		s.Standing, s.Why = Unread, []string{unread.Error()}
		return s, nil
	case err != nil:
		return s, err
	}
	g := adaptation.GistOf(h, k.Needs, k.dish(a))
	if j.key != nil {
		k.Memory.gists.Put(*j.key, g)
	}
	if s.judge(g, h); s.Standing == Suits || !o.Adapt {
		return s, nil
	}
	ans, err := k.Adapt(ctx, a, h, w)
	if err != nil {
		return s, fmt.Errorf("adapt %q: %w", j.recipe.Title, err)
	}
	s.adapted(ans)
	return s, nil
}

// judge says whom a usual portion of the dish suits as it is.
func (s *Swept) judge(g adaptation.Gist, h household.Household) {
	s.Standing, s.Fit = Suits, household.Inside
	for i, portion := range usualPortions(h) {
		j := g.Judge(h, i, portion)
		s.Fit = household.Worse(s.Fit, j.Fit)
		if j.Suits() {
			continue
		}
		name := h.Members[i].Name
		s.Standing, s.For = Differs, append(s.For, name)
		for _, text := range j.Against {
			s.Why = append(s.Why, name+": "+text)
		}
		s.Why = append(s.Why, j.Provided...)
	}
}

// adapted takes in what the search for swaps found.
func (s *Swept) adapted(ans adaptation.Answer) {
	s.Standing = SuitsAfter
	if !ans.Fits {
		s.Standing = Unsuitable
		s.Why = nil
		for _, p := range ans.Plates {
			if !p.Fits {
				s.Why = append(s.Why, inTheWay(p)...)
			}
		}
		return
	}
	for _, c := range ans.Changes {
		s.Swaps = append(s.Swaps, c.Option.Rule.Title)
	}
	s.Why = nil
	for _, p := range ans.Plates {
		s.Why = append(s.Why, p.Provided...)
	}
}

// inTheWay is what keeps a plate from suiting, in a sentence each.
func inTheWay(p adaptation.Plate) []string {
	var out []string
	for _, f := range p.Verdict.Findings {
		if f.Fit != household.Inside {
			out = append(out, p.Member.Name+": "+f.Text)
		}
	}
	return append(out, p.Provided...)
}
