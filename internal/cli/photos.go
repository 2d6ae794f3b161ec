package cli

import (
	"context"
	"flag"
	"fmt"
	"os"
	"strconv"
	"strings"
	"time"

	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
)

// photoRow is a photo in JSON.
type photoRow struct {
	Photo   int64     `json:"photo"`
	Main    bool      `json:"main"`
	OnCard  bool      `json:"on_card"`
	Caption string    `json:"caption,omitempty"`
	Width   int       `json:"width"`
	Height  int       `json:"height"`
	AddedAt time.Time `json:"added_at"`
}

// album is the photos of one recipe.
type album struct {
	run                 *run
	kitchen             *kitchen.Kitchen
	store               kitchen.PhotoStore
	household, recipe   int64
	title, caption, how string
}

// photos lists, adds and takes away the photos of a saved recipe.
func photos(r *run) (int, error) {
	p, verb, name, of, caption := place{timeout: time.Minute}, "", "", "", ""
	if len(r.args) > 0 && !strings.HasPrefix(r.args[0], "-") {
		verb, r.args = r.args[0], r.args[1:]
	}
	o, err := r.parse("photo", func(f *flag.FlagSet) {
		dataFlag(f, &p.data)
		householdFlag(f, &name)
		f.StringVar(&of, "recipe", "", "the title or number of the saved recipe")
		f.StringVar(&caption, "caption", "", "what photos that are added show")
	})
	if err != nil {
		return exitDone, err
	}
	if verb == "" || of == "" {
		return exitDone, badInput("expected potwright photo list, photo add FILE ... or photo remove NUMBER ..., with --recipe TITLE")
	}
	return exitDone, r.inHousehold("photo", p, name, func(ctx context.Context, k *kitchen.Kitchen, h household.Household) error {
		store, ok := k.Store.(kitchen.PhotoStore)
		if !ok {
			return badInput("photo works on a data file; expected --data FILE, or the pages of the server")
		}
		s, err := recipeNamed(ctx, k.Store, h.ID, of)
		if err != nil {
			return err
		}
		return album{r, k, store, h.ID, s.ID, s.Title, caption, o.format}.do(ctx, verb, o.files)
	})
}

func (a album) do(ctx context.Context, verb string, files []string) error {
	switch {
	case verb == "list" && len(files) == 0:
		return a.list(ctx)
	case verb == "add" && len(files) > 0:
		return a.add(ctx, files)
	case verb == "remove" && len(files) > 0:
		return a.remove(ctx, files)
	}
	return badInput("expected photo list, photo add FILE ... or photo remove NUMBER ...; photo list shows the numbers")
}

func (a album) list(ctx context.Context) error {
	list, err := a.store.ListPhotos(ctx, a.household, a.recipe)
	if err != nil {
		return err
	}
	if len(list) == 0 && a.how == "text" {
		fmt.Fprintf(a.run.out, "%s has no photo\n", a.title)
	}
	for _, p := range list {
		if err := a.tell(p); err != nil {
			return err
		}
	}
	return nil
}

func (a album) tell(p photo.Photo) error {
	large := p.Picture.Large
	if a.how == "json" {
		return a.run.json(photoRow{p.ID, p.Main, p.OnCard, p.Caption, large.Width, large.Height, p.AddedAt})
	}
	said := p.Caption
	if p.Main {
		said += " (stands for the dish)"
	}
	_, err := fmt.Fprintf(a.run.out, "%6d  %d × %d  %s\n", p.ID, large.Width, large.Height, said)
	return err
}

// add keeps the photo of each file; one that can't be taken stops the rest.
func (a album) add(ctx context.Context, files []string) error {
	for _, name := range files {
		if err := a.addFile(ctx, name); err != nil {
			return inFile(name, err)
		}
	}
	return nil
}

func (a album) addFile(ctx context.Context, name string) error {
	if info, err := os.Stat(name); err == nil && info.Size() > photo.MostBytes {
		return badInput("%q is over %d MB; expected a smaller photo", name, photo.MostBytes>>20)
	}
	content, err := os.ReadFile(name)
	if err != nil {
		return notRead("photo", name, err)
	}
	p, err := a.kitchen.AddPhoto(ctx, a.household, a.recipe, content, a.caption)
	if err != nil {
		return err
	}
	return a.tell(p)
}

// remove takes the photos of these numbers away, all or none that are not there.
func (a album) remove(ctx context.Context, numbers []string) error {
	var ids []int64
	for _, typed := range numbers {
		id, err := strconv.ParseInt(typed, 10, 64)
		if err == nil {
			_, err = kitchen.FindPhoto(ctx, a.store, a.household, a.recipe, id)
		}
		if err != nil {
			return badInput("%q is no number of a photo of %s; photo list shows them", typed, a.title)
		}
		ids = append(ids, id)
	}
	for _, id := range ids {
		if err := a.store.DeletePhoto(ctx, a.household, a.recipe, id); err != nil {
			return err
		}
		fmt.Fprintf(a.run.errs, "photo %d of %s is taken away\n", id, a.title)
	}
	return nil
}
