package cli

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"
	"time"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
	"potwright/internal/fooddata"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/ruleset"
	"potwright/internal/swap"
	"potwright/rules"
)

// rulesVariable names folders of own rules where no flag does, divided as the
// system divides lists of folders.
const rulesVariable = "POTWRIGHT_RULES"

// rulesFlag adds --rules, which may be given several times.
func (r *run) rulesFlag(f *flag.FlagSet) {
	f.Func("rules", "a folder of your own rules, put over the built-in ones; may be given several times ("+rulesVariable+" where it is not given)",
		func(dir string) error {
			r.rules = append(r.rules, dir)
			return nil
		})
}

// ruleFolders are the folders of own rules asked for.
func (r *run) ruleFolders() []string {
	if len(r.rules) > 0 {
		return r.rules
	}
	return filepath.SplitList(os.Getenv(rulesVariable))
}

// mustBeFolder says what to do where a folder named is none.
func mustBeFolder(dir string) error {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return badInput("there is no folder %q", dir)
	case err != nil:
		return badInput("folder %q can't be read: %v", dir, err)
	case !info.IsDir():
		return badInput("%q is a file; expected the folder that holds it", dir)
	}
	return nil
}

// folder opens a folder of rules that must be there.
func folder(dir string) (ruleset.Folder, error) {
	if err := mustBeFolder(dir); err != nil {
		return ruleset.Folder{}, err
	}
	return ruleset.Folder{Name: filepath.ToSlash(filepath.Clean(dir)), FS: os.DirFS(dir)}, nil
}

// supplies are what is built in.
type supplies struct {
	table *composition.Table
	stock ruleset.Stock
}

// stock is the food table and what rules are read against. It never changes: several
// commands of one process share it.
var stock = sync.OnceValues(func() (supplies, error) {
	table, err := fooddata.Load()
	if err != nil {
		return supplies{}, fmt.Errorf("load the food table: %w", err)
	}
	retentions, err := fooddata.LoadRetentions()
	if err != nil {
		return supplies{}, fmt.Errorf("load the retention factors: %w", err)
	}
	return supplies{table, ruleset.Stock{Foods: table.Foods(), Retentions: retentions, Read: reader(table)}}, nil
})

// builtIn is the rulebook of the built-in rules alone, shared as the stock is.
var builtIn = sync.OnceValues(func() (*kitchen.Rulebook, error) {
	s, err := stock()
	if err != nil {
		return nil, err
	}
	return ruleset.Library(ruleset.Folder{FS: rules.FS}, nil, s.stock)
})

func reader(table *composition.Table) swap.Reader {
	return func(text string) foodmatch.Matched {
		return foodmatch.Weigh(ingredient.Read(text), table, nil, nil)
	}
}

// library reads the rulebook: the built-in rules, the own ones asked for, and
// those in a folder that may be there or not. What is wrong with own files is
// told and stops nothing.
func (r *run) library(perhaps string) (*kitchen.Rulebook, error) {
	var own []ruleset.Folder
	for _, dir := range r.ruleFolders() {
		f, err := folder(dir)
		if err != nil {
			return nil, err
		}
		own = append(own, f)
	}
	if info, err := os.Stat(perhaps); perhaps != "" && err == nil && info.IsDir() {
		own = append(own, ruleset.Folder{Name: filepath.ToSlash(perhaps), FS: os.DirFS(perhaps)})
	}
	if len(own) == 0 {
		return builtIn()
	}
	s, err := stock()
	if err != nil {
		return nil, err
	}
	book, err := ruleset.Library(ruleset.Folder{FS: rules.FS}, own, s.stock)
	if err != nil {
		return nil, err
	}
	if n := len(book.Faults); n > 0 {
		fmt.Fprintln(r.errs, book.Faults.Error())
		fmt.Fprintf(r.errs, "potwright: %s in your own rules; what is at fault is left out, all other rules stand\n", count(n, "fault"))
	}
	return book, nil
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// open puts the kitchen together without a store.
func (r *run) open() (*kitchen.Kitchen, error) {
	k, _, err := r.openWith("", "")
	return k, err
}

// photosAtATime is how many photos are opened at once: a large one takes some 300 MB.
const photosAtATime = 1

// openWith is open with folders of own rules and of imported foods that may be
// there or not.
func (r *run) openWith(ownRules, ownFoods string) (*kitchen.Kitchen, *kitchen.Rulebook, error) {
	s, err := stock()
	if err != nil {
		return nil, nil, err
	}
	book, err := r.library(ownRules)
	if err != nil {
		return nil, nil, err
	}
	table, err := r.table(s.table, ownFoods)
	if err != nil {
		return nil, nil, err
	}
	return &kitchen.Kitchen{Table: table, Book: book.Swaps, Needs: book.Needs, Cooking: book.Cooking,
		Keeping: book.Keeping, Taste: book.Taste, Darkroom: photo.NewDarkroom(photosAtATime), Now: time.Now}, book, nil
}

// rulebook lists the swap rules in force, or checks folders of rules.
func rulebook(r *run) (int, error) {
	if len(r.args) > 0 && r.args[0] == "check" {
		r.args = r.args[1:]
		return checkRules(r)
	}
	dir := ""
	o, err := r.parse("rules", func(f *flag.FlagSet) {
		f.StringVar(&dir, "dir", "", "list the rules of this folder alone")
	})
	if err != nil {
		return exitDone, err
	}
	if len(o.files) > 0 {
		return exitDone, badInput("rules takes no %q; expected rules check [FOLDER ...], or --dir FOLDER", o.files[0])
	}
	book, err := r.swapRules(dir)
	if err != nil {
		return exitInput, err
	}
	for _, rule := range book.Rules() {
		if o.format == "json" {
			err = r.json(rule)
		} else {
			_, err = fmt.Fprintf(r.out, "%-34s %s\n", rule.ID, rule.Title)
		}
		if err != nil {
			return exitFailed, err
		}
	}
	return exitDone, nil
}

func (r *run) swapRules(dir string) (*swap.Book, error) {
	if dir == "" {
		book, err := r.library("")
		if err != nil {
			return nil, err
		}
		return book.Swaps, nil
	}
	f, err := folder(dir)
	if err != nil {
		return nil, err
	}
	s, err := stock()
	if err != nil {
		return nil, err
	}
	return ruleset.Swaps(f.FS, s.stock.Foods)
}

// checkRules finds every fault of folders of rules, and tries every example; of
// the built-in rules where no folder is named.
func checkRules(r *run) (int, error) {
	o, err := r.parse("rules check", nil)
	if err != nil {
		return exitDone, err
	}
	dirs := append(o.files, r.ruleFolders()...)
	s, err := stock()
	if err != nil {
		return exitFailed, err
	}
	ours := ruleset.Folder{FS: rules.FS}
	var faults diagnostic.Faults
	if len(dirs) == 0 {
		faults = ruleset.Check(ours, s.stock)
	}
	check := ruleset.Checker(ours, s.stock)
	for _, dir := range dirs {
		f, err := folder(dir)
		if err != nil {
			return exitDone, err
		}
		faults = append(faults, check(f)...)
	}
	if o.format == "json" {
		if faults == nil {
			faults = diagnostic.Faults{}
		}
		err = r.json(faults)
	} else if len(faults) == 0 {
		_, err = fmt.Fprintln(r.out, "no fault: every file is sound and every example holds")
	} else {
		_, err = fmt.Fprintf(r.out, "%s\n%s\n", faults.Error(), count(len(faults), "fault"))
	}
	switch {
	case err != nil:
		return exitFailed, err
	case len(faults) > 0:
		return exitInput, nil
	}
	return exitDone, nil
}
