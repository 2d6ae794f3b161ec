package cli

import (
	"archive/zip"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
	"potwright/internal/fooddata/usda"
)

// foodsVariable names a folder of imported foods where no flag does.
const foodsVariable = "POTWRIGHT_FOODS"

// foodsFlag adds --foods.
func (r *run) foodsFlag(f *flag.FlagSet) {
	f.StringVar(&r.foodsFolder, "foods", os.Getenv(foodsVariable), "a folder that foods import wrote, put beside the built-in table ("+foodsVariable+")")
}

// table is the built-in table, with the imported foods asked for beside it, or those
// in a folder that may be there or not.
func (r *run) table(builtIn *composition.Table, perhaps string) (*composition.Table, error) {
	dir := r.foodsFolder
	if dir == "" {
		info, err := os.Stat(perhaps)
		if perhaps == "" || err != nil || !info.IsDir() {
			return builtIn, nil
		}
		dir = perhaps
	}
	if err := mustBeFolder(dir); err != nil {
		return nil, err
	}
	more, err := fooddata.Read(os.DirFS(dir))
	if err != nil {
		return nil, badInput("the foods in %q can't be read: %v; expected a folder that potwright foods import wrote", dir, err)
	}
	return builtIn.Beside(more)
}

// importFoods turns a distribution or a CSV file into a folder of foods.
func importFoods(r *run) (int, error) {
	to := "foods"
	o, err := r.parse("foods import", func(f *flag.FlagSet) {
		f.StringVar(&to, "to", to, "the folder to write; it must not be there yet")
	})
	if err != nil {
		return exitDone, err
	}
	if len(o.files) != 1 {
		return exitDone, badInput("%d files; expected one: the archive or folder of a USDA distribution, or a CSV file with named columns", len(o.files))
	}
	if _, err := os.Lstat(to); err == nil {
		return exitDone, badInput("%q is there already; name another folder with --to, or move it away", to)
	}
	in, err := takeIn(o.files[0])
	if err != nil {
		return exitInput, inputError{err}
	}
	had, err := leaveKnown(&in)
	if err != nil {
		return exitFailed, err
	}
	if len(in.Foods) == 0 {
		return exitInput, badInput("no food in %s is new and can be used: %d the built-in table has, %s rejected", o.files[0], had, rejections(in.Rejected))
	}
	if err := writeFoods(to, in); err != nil {
		return exitFailed, err
	}
	return exitDone, r.tellIntake(to, in, had)
}

// leaveKnown drops foods that the built-in table has under the same id, which has
// been looked at by people, and says how many they were.
func leaveKnown(in *fooddata.Intake) (had int, err error) {
	s, err := stock()
	if err != nil {
		return 0, err
	}
	all := len(in.Foods)
	in.Foods = slices.DeleteFunc(in.Foods, func(f *composition.Food) bool { _, has := s.table.ByID(f.ID); return has })
	return all - len(in.Foods), nil
}

// takeIn reads a folder, a zip archive, or else a CSV file.
func takeIn(name string) (fooddata.Intake, error) {
	info, err := os.Stat(name)
	if err != nil {
		return fooddata.Intake{}, notRead("file or folder of foods", name, err)
	}
	if info.IsDir() {
		return usda.Read(os.DirFS(name))
	}
	if strings.EqualFold(filepath.Ext(name), ".zip") {
		z, err := zip.OpenReader(name)
		if err != nil {
			return fooddata.Intake{}, badInput("%q is no zip archive, or its end is missing; expected one as FoodData Central offers it, or a CSV file", name)
		}
		defer z.Close()
		return usda.Read(z)
	}
	f, err := os.Open(name)
	if err != nil {
		return fooddata.Intake{}, err
	}
	defer f.Close()
	return fooddata.ReadCSV(f, filepath.Base(name))
}

// rejectedFile holds the report of an import.
const rejectedFile = "rejected.txt"

// writeFoods writes the folder beside its place and moves it there whole.
func writeFoods(to string, in fooddata.Intake) (err error) {
	to = filepath.Clean(to)
	tmp, err := os.MkdirTemp(filepath.Dir(to), ".foods-")
	if err != nil {
		return fmt.Errorf("make a folder for the foods: %w", err)
	}
	defer func() {
		if err != nil {
			_ = os.RemoveAll(tmp) // the first error matters more
		}
	}()
	files := in.Files()
	var report strings.Builder
	for _, rej := range in.Rejected {
		report.WriteString(rej.String() + "\n")
	}
	files[rejectedFile] = report.String()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(tmp, name), []byte(text), 0o644); err != nil {
			return fmt.Errorf("write the foods: %w", err)
		}
	}
	if err := os.Chmod(tmp, 0o755); err != nil {
		return err
	}
	// What was written must read, before it is called done.
	if _, err := fooddata.Read(os.DirFS(tmp)); err != nil {
		return fmt.Errorf("what was written does not read: %w", err)
	}
	return os.Rename(tmp, to)
}

func (r *run) tellIntake(to string, in fooddata.Intake, had int) error {
	fmt.Fprintf(r.out, "%s taken, in %s; use them with --foods %s\n", count(len(in.Foods), "food"), to, to)
	if had > 0 {
		fmt.Fprintf(r.out, "left out: %d that the built-in table has\n", had)
	}
	for _, sort := range slices.Sorted(maps.Keys(in.Left)) {
		fmt.Fprintf(r.out, "left out: %d %s\n", in.Left[sort], sort)
	}
	if len(in.Rejected) > 0 {
		fmt.Fprintf(r.out, "rejected: %s; every one is in %s\n", rejections(in.Rejected), filepath.Join(to, rejectedFile))
	}
	_, err := fmt.Fprintln(r.out, "What an imported food is made of is not known: for whoever avoids something, check its label.")
	return err
}

// rejections says how many rows were rejected and shows the first few.
func rejections(all []fooddata.Rejected) string {
	const shown = 3
	var first []string
	for _, rej := range all[:min(shown, len(all))] {
		first = append(first, rej.String())
	}
	if len(all) == 0 {
		return "no row"
	}
	return count(len(all), "row") + ", such as " + strings.Join(first, "; ")
}
