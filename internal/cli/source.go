package cli

import (
	"context"
	"errors"
	"flag"
	"slices"
	"strconv"
	"strings"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
)

// parseRecipes is parse for a command that takes recipes: files, or saved ones of a
// place; withHousehold where it is for someone.
func (r *run) parseRecipes(name string, withHousehold bool, more func(*flag.FlagSet), formats ...string) (options, error) {
	var p place
	var saved []string
	table, system := "", measure.US
	o, err := r.parse(name, func(f *flag.FlagSet) {
		p.flags(f)
		f.StringVar(&table, "household", "", "a household file, YAML or JSON; with --data or --server the name of a kept household, which may be left out where it is the only one")
		f.Func("recipe", "a saved recipe of --data or --server by its title or number, as it is now (may be repeated)", func(s string) error {
			saved = append(saved, s)
			return nil
		})
		if !withHousehold {
			measuresFlag(f, &system)
		}
		if more != nil {
			more(f)
		}
	}, formats...)
	if err != nil {
		return o, err
	}
	o.place, o.recipes, o.household, o.measures = p, saved, table, system
	if err := o.place.settle(len(saved) > 0); err != nil {
		return o, err
	}
	switch {
	case len(saved) > 0 && !o.place.named():
		return o, badInput("--recipe %q is kept nowhere; expected --data FILE or --server URL with it", saved[0])
	case withHousehold && table == "" && !o.place.named():
		return o, badInput("no household; expected --household FILE")
	}
	return o, nil
}

// source is where the recipes of a command come from, and for whom they are.
type source struct {
	k *kitchen.Kitchen
	// household is the one named, if any: its cups and spoons measure the lines. One
	// that is kept has an id.
	household household.Household
	done      func() error
}

// source opens what the options name.
func (r *run) source(ctx context.Context, o options) (s source, err error) {
	s.done = func() error { return nil }
	if !o.place.named() {
		if s.k, err = r.open(); err != nil {
			return s, err
		}
		if o.household != "" {
			if s.household, err = readHousehold(o.household, s.k.Needs); err != nil {
				return s, err
			}
			o.measures = s.household.Measures
		}
		s.k = s.k.Measuring(o.measures)
		return s, nil
	}
	if s.k, s.household, s.done, err = r.openHousehold(ctx, o.place, o.household); err != nil {
		return s, err
	}
	s.k = s.k.Measuring(s.household.Measures)
	return s, nil
}

// table is who a recipe is for, and what is asked of its adaptation at that place.
type table struct {
	household household.Household
	kept      adaptation.Wishes
}

// text reads a recipe's text, with the pantry and the choices of a kept household.
func (s source) text(ctx context.Context, text string) (kitchen.Analysis, table, error) {
	t := table{household: s.household}
	if s.household.ID == 0 {
		a, err := s.k.Read(text, nil, nil)
		return a, t, err
	}
	a, err := s.k.ReadFor(ctx, s.household.ID, text, nil)
	if err != nil {
		return a, t, err
	}
	t.kept, err = s.k.WithRefusals(ctx, s.household.ID, adaptation.Wishes{})
	return a, t, err
}

// saved opens the newest version of a saved recipe.
func (s source) saved(ctx context.Context, name string) (kitchen.Analysis, table, error) {
	t := table{household: s.household}
	sum, err := recipeNamed(ctx, s.k.Store, s.household.ID, name)
	if err != nil {
		return kitchen.Analysis{}, t, err
	}
	_, a, err := s.k.Open(ctx, s.household.ID, sum.LatestID)
	if err != nil {
		return a, t, err
	}
	t.kept, err = s.k.WishesFor(ctx, s.household.ID, sum.ID)
	return a, t, err
}

// recipeNamed finds a saved recipe by its number or its title.
func recipeNamed(ctx context.Context, shelf kitchen.Shelf, householdID int64, name string) (kitchen.RecipeSummary, error) {
	list, err := shelf.ListRecipes(ctx, householdID)
	if err != nil {
		return kitchen.RecipeSummary{}, err
	}
	number, _ := strconv.ParseInt(name, 10, 64)
	var titles []string
	for _, s := range list {
		if s.ID == number || strings.EqualFold(s.Title, name) {
			return s, nil
		}
		titles = append(titles, s.Title)
	}
	return kitchen.RecipeSummary{}, badInput("--recipe: there is no saved recipe %q%s", name, didYouMean(name, titles, "potwright recipes lists them"))
}

// eachFor runs do over every recipe given: the files first, then the saved ones.
func (r *run) eachFor(o options, do func(*kitchen.Kitchen, kitchen.Analysis, table) error) (err error) {
	ctx := context.Background()
	var texts []text
	if len(o.files) > 0 || len(o.recipes) == 0 {
		if texts, err = r.texts(o.files); err != nil {
			return err
		}
	}
	s, err := r.source(ctx, o)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.done()) }()
	for _, t := range texts {
		a, at, err := s.text(ctx, t.body)
		if err != nil {
			return inFile(t.name, err)
		}
		if err := do(s.k, a, at); err != nil {
			return err
		}
	}
	for _, name := range o.recipes {
		a, at, err := s.saved(ctx, name)
		if err != nil {
			return err
		}
		if err := do(s.k, a, at); err != nil {
			return err
		}
	}
	return nil
}

// asked are the wishes kept with a recipe and those given now, which come first.
func (t table) asked(now adaptation.Wishes) adaptation.Wishes {
	w := t.kept
	w.Lock = append(slices.Clone(w.Lock), now.Lock...)
	w.Refuse = append(slices.DeleteFunc(slices.Clone(w.Refuse), func(kept adaptation.Pick) bool {
		return slices.ContainsFunc(now.Insist, func(p adaptation.Pick) bool { return p.Rule == kept.Rule })
	}), now.Refuse...)
	w.Insist = append(slices.Clone(w.Insist), now.Insist...)
	w.Certificate = now.Certificate
	if now.MaxChanges > 0 {
		w.MaxChanges = now.MaxChanges
	}
	return w
}
