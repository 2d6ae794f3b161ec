package fooddata

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/diagnostic"
)

// Columns of a CSV file of foods beside the nutrients' keys; only name must be
// there. Lists are divided by semicolons; refuse is a share, 0 to 1; a column that
// ends in _grams says what one of that measure weighs.
const (
	nameColumn   = "name"
	gramsColumns = "_grams"
)

var foodColumns = map[string]func(f *composition.Food, cell string) error{
	"id":       func(f *composition.Food, cell string) error { f.ID = csvPrefix + cell; return nil },
	nameColumn: func(f *composition.Food, cell string) error { f.Name = strings.ToLower(cell); return nil },
	"group":    func(f *composition.Food, cell string) error { f.Group = composition.Group(cell); return nil },
	"kinds": func(f *composition.Food, cell string) error {
		for _, kind := range list(cell) {
			f.Kinds = append(f.Kinds, strings.ReplaceAll(kind, " ", "_"))
		}
		return nil
	},
	"synonyms": func(f *composition.Food, cell string) error { f.Synonyms = list(strings.ToLower(cell)); return nil },
	"source":   func(f *composition.Food, cell string) error { f.Source = cell; return nil },
	"refuse": func(f *composition.Food, cell string) (err error) {
		if f.Refuse, err = strconv.ParseFloat(cell, 64); err != nil || !(f.Refuse >= 0 && f.Refuse < 1) {
			return fmt.Errorf("refuse %q; expected a share from 0 to 1", cell)
		}
		return nil
	},
}

const csvPrefix = "csv:"

// maxRows bounds a CSV file of foods.
const maxRows = 200_000

// ReadCSV reads a CSV file with named columns, figures per 100 g edible portion in
// the units that the nutrients' keys end in; an empty cell is unknown. A column that
// is not known fails the whole; a row that can't be used is rejected.
func ReadCSV(r io.Reader, file string) (Intake, error) {
	in := csv.NewReader(r)
	head, err := in.Read()
	if err != nil {
		return Intake{}, fmt.Errorf("%s: the line of headings can't be read: %w", file, err)
	}
	columns, err := readHeadings(head)
	if err != nil {
		return Intake{}, fmt.Errorf("%s:1: %w", file, err)
	}
	var out Intake
	var foods []*composition.Food
	for {
		rec, err := in.Read()
		if errors.Is(err, io.EOF) {
			out.Take(foods)
			return out, nil
		}
		if err != nil && !errors.Is(err, csv.ErrFieldCount) {
			return Intake{}, fmt.Errorf("%s: %w", file, err)
		}
		line, _ := in.FieldPos(0)
		var f *composition.Food
		if err == nil {
			f, err = readFood(rec, columns)
		}
		if err != nil {
			out.Rejected = append(out.Rejected, Rejected{File: file, Line: line, Why: err.Error()})
		} else {
			foods = append(foods, f)
		}
		if len(foods)+len(out.Rejected) > maxRows {
			return Intake{}, fmt.Errorf("%s:%d: over %d rows; expected a table of foods", file, line, maxRows)
		}
	}
}

type column struct {
	name string
	set  func(f *composition.Food, cell string) error
}

func readHeadings(head []string) ([]column, error) {
	known := make([]string, 0, len(foodColumns)+composition.NutrientCount)
	for name := range foodColumns {
		known = append(known, name)
	}
	for _, n := range composition.Nutrients() {
		known = append(known, n.Key())
	}
	columns := make([]column, len(head))
	named := false
	for i, h := range head {
		h = strings.ToLower(strings.TrimSpace(strings.TrimPrefix(h, "\ufeff")))
		columns[i] = column{h, setter(h)}
		if columns[i].set == nil {
			return nil, unknownColumn(h, known)
		}
		named = named || h == nameColumn
	}
	if !named {
		return nil, errors.New("no column \"name\"; expected one, and columns such as energy_kcal, sodium_mg, cup_grams")
	}
	return columns, nil
}

func unknownColumn(h string, known []string) error {
	near := ""
	if n := diagnostic.Nearest(h, known); n != "" {
		near = fmt.Sprintf(" (did you mean %q?)", n)
	}
	return fmt.Errorf("there is no column %q%s; expected name, id, group, kinds, synonyms, source, refuse, nutrients such as sodium_mg, measures such as cup_grams", h, near)
}

func setter(heading string) func(f *composition.Food, cell string) error {
	if set := foodColumns[heading]; set != nil {
		return set
	}
	if unit, ok := strings.CutSuffix(heading, gramsColumns); ok && unit != "" {
		return func(f *composition.Food, cell string) error {
			grams, err := amount(cell)
			if err != nil || grams == 0 {
				return fmt.Errorf("%s %q; expected grams over 0", heading, cell)
			}
			f.Measures = append(f.Measures, composition.Measure{Amount: 1, Unit: strings.ReplaceAll(unit, "_", " "), Grams: grams})
			return nil
		}
	}
	n, ok := composition.ParseNutrient(heading)
	if !ok {
		return nil
	}
	return func(f *composition.Food, cell string) error {
		x, err := amount(cell)
		if err != nil {
			return fmt.Errorf("%s %w", heading, err)
		}
		return SetContent(f, n, composition.Content{Mid: x})
	}
}

func readFood(rec []string, columns []column) (*composition.Food, error) {
	f := &composition.Food{}
	for i, c := range columns {
		cell := strings.Join(strings.Fields(rec[i]), " ")
		if cell == "" {
			continue
		}
		if err := c.set(f, cell); err != nil {
			return nil, err
		}
	}
	if f.Name == "" {
		return nil, errors.New("no name; expected one")
	}
	if f.ID == "" {
		f.ID = csvPrefix + f.Name
	}
	if f.Source == "" {
		f.Source = "imported table, no source given"
	}
	return f, nil
}
