package fooddata

import (
	"embed"
	"io/fs"
	"strings"

	"potwright/internal/composition"
)

//go:embed table/*.tsv factor/*.tsv
var embedded embed.FS

// Load parses the embedded table. Errors say file and line.
func Load() (*composition.Table, error) { return load(embedded) }

const measuresFile = "table/measures.tsv"

func load(files fs.FS) (*composition.Table, error) {
	names, err := fs.Glob(files, "table/*.tsv")
	if err != nil {
		return nil, err
	}
	var foods []*composition.Food
	for _, name := range names {
		if name == measuresFile {
			continue
		}
		err := eachLine(files, name, func(line string) error {
			f, err := parseFood(line)
			foods = append(foods, f)
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	byID := make(map[string]*composition.Food, len(foods))
	for _, f := range foods {
		byID[f.ID] = f
	}
	err = eachLine(files, measuresFile, func(line string) error { return parseMeasure(line, byID) })
	if err != nil {
		return nil, err
	}
	return composition.NewTable(foods)
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
