package cli

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"potwright/internal/archive"
	"potwright/internal/kitchen"
	"potwright/internal/store/sqlite"
)

func export(r *run) (int, error) {
	name := ""
	p, to, err := r.parsePlace("export", "ARCHIVE.zip", func(f *flag.FlagSet) {
		f.StringVar(&name, "household", "", "only the household of this name (every one where it is not given)")
	})
	if err != nil {
		return exitDone, err
	}
	if _, err := os.Lstat(to); err == nil {
		return exitDone, badInput("%q is there already and was left as it is; expected the name of a new file", to)
	}
	ctx := context.Background()
	k, done, err := r.openPlace(ctx, p)
	if err != nil {
		return exitDone, err
	}
	all, err := everything(ctx, k.Store, name)
	if err == nil {
		err = writeArchive(ctx, to, all)
	}
	if err = errors.Join(err, done()); err != nil {
		return exitDone, err
	}
	recipes := 0
	for _, h := range all {
		recipes += len(h.Recipes)
	}
	fmt.Fprintf(r.out, "%s holds %s with %s; the README.txt inside tells how it is laid out\n", to, count(len(all), "household"), count(recipes, "recipe"))
	return exitDone, nil
}

// everything is what is kept for the household named, or for all.
func everything(ctx context.Context, shelf kitchen.Shelf, name string) (all []kitchen.Holdings, err error) {
	var ids []int64
	if name != "" {
		h, err := householdNamed(ctx, shelf, name)
		if err != nil {
			return nil, err
		}
		ids = append(ids, h.ID)
	} else {
		list, err := shelf.ListHouseholds(ctx)
		if err != nil {
			return nil, err
		}
		for _, h := range list {
			ids = append(ids, h.ID)
		}
	}
	for _, id := range ids {
		h, err := shelf.Holdings(ctx, id)
		if err != nil {
			return nil, err
		}
		all = append(all, h)
	}
	return all, nil
}

// writeArchive writes an archive to a new file, which bears its name only when it
// is whole, reads back, and is on the disk.
func writeArchive(ctx context.Context, to string, all []kitchen.Holdings) (err error) {
	f, err := os.CreateTemp(filepath.Dir(to), filepath.Base(to)+".part-*") // readable by its owner alone
	if err != nil {
		return inputError{err}
	}
	defer os.Remove(f.Name())
	if err := errors.Join(archive.Write(ctx, f, all, time.Now()), f.Sync()); err != nil {
		return errors.Join(err, f.Close())
	}
	_, err = readArchive(f)
	if err = errors.Join(err, f.Close()); err != nil {
		return fmt.Errorf("the archive does not read back: %w", err)
	}
	return sqlite.NameNew(f.Name(), to)
}

func importAll(r *run) (int, error) {
	name := ""
	p, from, err := r.parsePlace("import", "ARCHIVE.zip", func(f *flag.FlagSet) {
		f.StringVar(&name, "household", "", "for an archive of recipes: the household that gets them")
	})
	if err != nil {
		return exitDone, err
	}
	f, err := openArchive(from)
	if err != nil {
		return exitDone, inFile(from, err)
	}
	defer f.Close()
	a, err := readArchive(f)
	if err != nil {
		return exitDone, inFile(from, err)
	}
	p.fresh = true
	k, done, err := r.openPlace(context.Background(), p)
	if err != nil {
		return exitDone, err
	}
	err = r.takeIn(context.Background(), k, a, name)
	return exitDone, errors.Join(err, done())
}

func openArchive(name string) (*os.File, error) {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, badInput("there is no file %q", name)
	}
	if err != nil {
		return nil, inputError{err}
	}
	return f, nil
}

// readArchive reads an archive, whose photos stay in the file.
func readArchive(f *os.File) (archive.Archive, error) {
	size, err := f.Seek(0, io.SeekEnd)
	if err != nil {
		return archive.Archive{}, inputError{err}
	}
	return archive.Read(f, size, archive.WholeLimits())
}

// takeIn saves what an archive holds and says what came of it.
func (r *run) takeIn(ctx context.Context, k *kitchen.Kitchen, a archive.Archive, name string) error {
	notes := a.NotTaken
	if a.Recipes != nil {
		h, err := householdNamed(ctx, k.Store, name)
		if err != nil {
			return err
		}
		ids, err := k.Store.TakeRecipes(ctx, h.ID, *a.Recipes)
		if err != nil {
			return err
		}
		fmt.Fprintf(r.out, "taken in: %s\n", count(len(ids), "recipe"))
	} else {
		saved, doubts, err := k.TakeIn(ctx, a.Households)
		if err != nil {
			return err
		}
		notes = append(notes, doubts...)
		if len(saved) == 0 {
			notes = append(notes, "the archive holds no household")
		}
		for i, h := range saved {
			fmt.Fprintf(r.out, "taken in: household %q with %s and %s\n", h.Name, count(len(h.Members), "member"), count(len(a.Households[i].Recipes), "recipe"))
		}
	}
	for _, n := range notes {
		fmt.Fprintln(r.out, "note: "+n)
	}
	return nil
}
