package fooddata

import (
	"embed"
	"fmt"
	"io/fs"
	"strings"

	"potwright/internal/composition"
)

//go:embed table/*.tsv factor/*.tsv
var embedded embed.FS

// Load parses the embedded table. Errors say file and line.
func Load() (*composition.Table, error) {
	files, err := fs.Sub(embedded, "table")
	if err != nil {
		return nil, err
	}
	foods, err := Read(files)
	if err != nil {
		return nil, err
	}
	return composition.NewTable(foods)
}

// MeasuresFile is the file of a folder of foods that holds their household measures.
const MeasuresFile = "measures.tsv"

// Read reads a folder of foods: every *.tsv in it, one of them MeasuresFile.
// Errors say file and line.
func Read(files fs.FS) ([]*composition.Food, error) {
	names, err := fs.Glob(files, "*.tsv")
	if err != nil {
		return nil, err
	}
	var foods []*composition.Food
	byID := map[string]*composition.Food{}
	for _, name := range names {
		if name == MeasuresFile {
			continue
		}
		err := eachLine(files, name, func(line string) error {
			f, err := parseFood(line)
			if err != nil {
				return err
			}
			if byID[f.ID] != nil {
				return fmt.Errorf("id %q stands twice", f.ID)
			}
			byID[f.ID] = f
			foods = append(foods, f)
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	err = eachLine(files, MeasuresFile, func(line string) error { return parseMeasure(line, byID) })
	if err != nil {
		return nil, err
	}
	return foods, nil
}

// eachLine calls f with every line that is neither empty nor a comment.
func eachLine(files fs.FS, name string, f func(string) error) error {
	b, err := fs.ReadFile(files, name)
	if err != nil {
		return err
	}
	rest := string(b)
	for n := 1; rest != ""; n++ {
		var line string
		line, rest, _ = strings.Cut(rest, "\n")
		if line == "" || line[0] == '#' {
			continue
		}
		if err := f(line); err != nil {
			return fault(name, n, err)
		}
	}
	return nil
}
