package usda

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
)

// Bounds of a distribution; the whole of FoodData Central without makers' packages
// has some 70,000 foods, the Standard Reference 8,789 (release 28).
const (
	maxFoods    = 200_000
	maxRejected = 10_000
)

// Read reads a distribution as downloaded; its folder may lie deeper. Ids are
// "sr:01001" where a row has a number of the Standard Reference, else "fdc:" with
// the number of FoodData Central; names are the agency's descriptions in lower
// case; kinds and states are not given. Packages of named makers and single samples
// are left out and counted. It fails where neither FOOD_DES.txt nor food.csv is there.
func Read(files fs.FS) (fooddata.Intake, error) {
	where := ""
	err := fs.WalkDir(files, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if base := strings.ToLower(path.Base(p)); where == "" && !d.IsDir() && (base == "food_des.txt" || base == "food.csv") {
			where = p
		}
		return nil
	})
	if err != nil {
		return fooddata.Intake{}, err
	}
	if where == "" {
		return fooddata.Intake{}, errors.New("neither FOOD_DES.txt (the Standard Reference) nor food.csv (FoodData Central) is in it; expected the archive or folder as the agency publishes it")
	}
	r := reading{files: files, dir: path.Dir(where), foods: map[string]*composition.Food{}, left: map[string]int{}}
	if strings.EqualFold(path.Base(where), "food.csv") {
		err = r.central()
	} else {
		err = r.reference()
	}
	if err != nil {
		return fooddata.Intake{}, err
	}
	in := fooddata.Intake{Left: r.left, Rejected: r.rejected}
	in.Take(slices.Collect(maps.Values(r.foods)))
	return in, nil
}

// reading is a distribution on its way in.
type reading struct {
	files fs.FS
	dir   string
	// foods by the number the files use: NDB or FDC.
	foods    map[string]*composition.Food
	left     map[string]int
	rejected []fooddata.Rejected
}

func (r *reading) bad(file string, line int, err error) error {
	if len(r.rejected) >= maxRejected {
		return fmt.Errorf("%s:%d: over %d rows can't be used, the last one: %w", file, line, maxRejected, err)
	}
	r.rejected = append(r.rejected, fooddata.Rejected{File: file, Line: line, Why: err.Error()})
	return nil
}

// within opens a file of the folder by its name, whatever its case; a file that is
// not there is passed over where it may lack.
func (r *reading) within(name string, mayLack bool, f func(io.Reader) error) error {
	entries, err := fs.ReadDir(r.files, r.dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if !strings.EqualFold(e.Name(), name) {
			continue
		}
		file, err := r.files.Open(path.Join(r.dir, e.Name()))
		if err != nil {
			return err
		}
		defer file.Close()
		return f(file)
	}
	if mayLack {
		return nil
	}
	return fmt.Errorf("%s is not in the folder of %s; expected the distribution whole", name, r.dir)
}

func (r *reading) add(number string, f *composition.Food) error {
	if len(r.foods) >= maxFoods {
		return fmt.Errorf("over %d foods; expected a distribution of the agency", maxFoods)
	}
	if f.Name = strings.ToLower(strings.Join(strings.Fields(f.Name), " ")); f.Name == "" {
		return errors.New("no description")
	}
	if r.foods[number] != nil {
		return fmt.Errorf("food %s stands twice", number)
	}
	r.foods[number] = f
	return nil
}

// reference reads the files of the Standard Reference.
func (r *reading) reference() error {
	var about map[string]Description
	err := r.within("FOOD_DES.txt", false, func(in io.Reader) (err error) {
		about, err = Descriptions(in, "FOOD_DES.txt", r.bad, func(string) bool { return true })
		return err
	})
	if err != nil {
		return err
	}
	called := map[string]string{}
	for ndb, d := range about {
		if d.Maker != "" {
			r.left["packages of named makers"]++
			continue
		}
		f := &composition.Food{ID: "sr:" + ndb, Name: d.Text, Group: d.Group, Refuse: d.Refuse, Source: "USDA Standard Reference NDB " + ndb}
		if err := r.add(ndb, f); err != nil {
			if err := r.bad("FOOD_DES.txt", 0, err); err != nil {
				return err
			}
			continue
		}
		called[ndb] = f.Name
	}
	err = r.within("NUT_DATA.txt", false, func(in io.Reader) error {
		return EachRecord(in, "NUT_DATA.txt", r.bad, func(fields []string) error {
			ndb, number, v, err := cell(fields)
			f := r.foods[ndb]
			n, ours := NutrientOf(number)
			if err != nil || f == nil || !ours {
				return err
			}
			return fooddata.SetContent(f, n, composition.Content{Mid: v.Mid, SD: v.SD, N: v.N})
		})
	})
	if err != nil {
		return err
	}
	return r.within("WEIGHT.txt", true, func(in io.Reader) error {
		weights, err := Weights(in, "WEIGHT.txt", r.bad, called)
		for ndb, ms := range weights {
			r.foods[ndb].Measures = ms
		}
		return err
	})
}
