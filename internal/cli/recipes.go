package cli

import (
	"context"
	"flag"
	"fmt"
	"time"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
)

// recipeRow is a saved recipe in JSON.
type recipeRow struct {
	Recipe   int64     `json:"recipe"`
	Title    string    `json:"title"`
	Versions int       `json:"versions"`
	SavedAt  time.Time `json:"saved_at"`
}

// recipes lists the saved recipes of a household.
func recipes(r *run) (int, error) {
	var p place
	var q kitchen.RecipeQuery
	name := ""
	o, err := r.parse("recipes", func(f *flag.FlagSet) {
		p.flags(f)
		householdFlag(f, &name)
		f.StringVar(&q.Words, "words", "", "only those with all of these words in their title, a tag or their text")
		f.StringVar(&q.Tag, "tag", "", "only those filed under this tag")
	})
	if err != nil {
		return exitDone, err
	}
	if len(o.files) > 0 {
		return exitDone, badInput("recipes takes no %q; expected --words to look for some", o.files[0])
	}
	return exitDone, r.inHousehold("recipes", p, name, func(ctx context.Context, k *kitchen.Kitchen, h household.Household) error {
		list, _, err := k.Store.FindRecipes(ctx, h.ID, q)
		if err != nil {
			return err
		}
		return r.listRecipes(list, o.format)
	})
}

func (r *run) listRecipes(list []kitchen.RecipeSummary, format string) (err error) {
	if len(list) == 0 && format == "text" {
		fmt.Fprintln(r.out, "no such recipe is saved there")
	}
	for _, s := range list {
		if format == "json" {
			err = r.json(recipeRow{s.ID, s.Title, s.Versions, s.SavedAt})
		} else {
			_, err = fmt.Fprintf(r.out, "%6d  %s (%s, saved %s)\n", s.ID, s.Title, count(s.Versions, "version"), s.SavedAt.Format("2006-01-02"))
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// saveFlags say where recipes are saved.
type saveFlags struct {
	place
	household, recipe, note string
}

// savedRow is a saved version in JSON.
type savedRow struct {
	Recipe  int64  `json:"recipe"`
	Version int64  `json:"version"`
	Number  int    `json:"number"`
	Title   string `json:"title"`
	// Alike is the number of another recipe that looks like the same dish.
	Alike int64 `json:"alike,omitempty"`
}

// save saves recipe files: each as a new recipe, or one as a further version. All are
// read before any is saved.
func save(r *run) (int, error) {
	var s saveFlags
	o, err := r.parse("save", func(f *flag.FlagSet) {
		s.flags(f)
		householdFlag(f, &s.household)
		f.StringVar(&s.recipe, "recipe", "", "the title or number of a saved recipe that the file is a further version of")
		f.StringVar(&s.note, "note", "", "a note for later")
	})
	if err != nil {
		return exitDone, err
	}
	if s.recipe != "" && len(o.files) > 1 {
		return exitDone, badInput("--recipe takes one file as the further version; %d are given", len(o.files))
	}
	if err := kitchen.CheckNote(s.note); err != nil {
		return exitDone, inputError{err}
	}
	return exitDone, r.inHousehold("save", s.place, s.household, func(ctx context.Context, k *kitchen.Kitchen, h household.Household) error {
		texts, err := r.texts(o.files)
		if err != nil {
			return err
		}
		return r.saveAll(ctx, k, h.ID, s, texts, o.format)
	})
}

// saveAll reads all texts and then saves them.
func (r *run) saveAll(ctx context.Context, k *kitchen.Kitchen, householdID int64, s saveFlags, texts []text, format string) (err error) {
	var parent *recipe.Version
	if s.recipe != "" {
		if parent, err = newestOf(ctx, k, householdID, s.recipe); err != nil {
			return err
		}
	}
	var read []kitchen.Analysis
	for _, t := range texts {
		a, err := readToSave(ctx, k, householdID, parent, t.body)
		if err != nil {
			return inFile(t.name, err)
		}
		read = append(read, a)
	}
	for _, a := range read {
		if err := r.saveOne(ctx, k, householdID, parent, a, s.note, format); err != nil {
			return err
		}
	}
	return nil
}

// newestOf finds the newest version of a saved recipe.
func newestOf(ctx context.Context, k *kitchen.Kitchen, householdID int64, name string) (*recipe.Version, error) {
	sum, err := recipeNamed(ctx, k.Store, householdID, name)
	if err != nil {
		return nil, err
	}
	v, err := k.Store.FindVersion(ctx, householdID, sum.LatestID)
	return &v, err
}

// readToSave reads a text: as a new recipe, or as the changed text of a version, whose
// corrections stay.
func readToSave(ctx context.Context, k *kitchen.Kitchen, householdID int64, parent *recipe.Version, text string) (kitchen.Analysis, error) {
	if parent == nil {
		return k.ReadFor(ctx, householdID, text, nil)
	}
	return k.ReadEdit(ctx, householdID, *parent, text)
}

// saveOne saves one recipe and says what came of it.
func (r *run) saveOne(ctx context.Context, k *kitchen.Kitchen, householdID int64, parent *recipe.Version, a kitchen.Analysis, note, format string) error {
	var v recipe.Version
	var err error
	if parent == nil {
		v, err = k.SaveNew(ctx, householdID, a, note)
	} else {
		v, err = k.SaveEdit(ctx, householdID, *parent, a, note)
	}
	if err != nil {
		return err
	}
	like, alike, err := k.Alike(ctx, householdID, a.Recipe, v.RecipeID)
	if err != nil {
		return err
	}
	if format == "json" {
		return r.json(savedRow{v.RecipeID, v.ID, v.Number, a.Recipe.Title, like.ID})
	}
	fmt.Fprintf(r.out, "saved: %s, recipe %d, version %d\n", a.Recipe.Title, v.RecipeID, v.Number)
	if alike {
		fmt.Fprintf(r.out, "note: recipe %d, %s, looks like the same dish\n", like.ID, like.Title)
	}
	return nil
}
