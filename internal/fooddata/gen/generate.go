package main

import (
	"fmt"
	"io/fs"
	"sort"

	"potwright/internal/composition"
	"potwright/internal/fooddata/usda"
)

// row is a food on its way into the table: the food and the file it belongs to.
type row struct {
	composition.Food
	file string
	// survey are the nutrients whose value comes from the survey.
	survey []composition.Nutrient
	// defaults is the curated column, written as it is read.
	defaults string
}

// generate reads the USDA files and the curated names and returns the files of
// the table by name.
func generate(data, here fs.FS) (map[string][]byte, error) {
	names, err := readNames(here)
	if err != nil {
		return nil, err
	}
	src, err := readSources(data, names)
	if err != nil {
		return nil, err
	}
	var rows []*row
	for _, n := range names {
		r, err := src.row(n)
		if err != nil {
			return nil, err
		}
		rows = append(rows, r)
	}
	if err := readExtra(here, rows); err != nil {
		return nil, err
	}
	own, err := readOwn(here, rows)
	if err != nil {
		return nil, err
	}
	rows = append(rows, own...)
	sort.Slice(rows, func(i, j int) bool { return rows[i].Name < rows[j].Name })
	for i := 1; i < len(rows); i++ {
		if rows[i].Name == rows[i-1].Name {
			return nil, fmt.Errorf("name %q stands for both %s and %s; expected unique names",
				rows[i].Name, rows[i-1].ID, rows[i].ID)
		}
	}
	return write(rows), nil
}

// sources are the USDA files by NDB number.
type sources struct {
	foods  map[string]usda.Description
	values map[string]values
	survey map[string]values
	change map[string]map[composition.Nutrient]float64
	added  map[string]float64
	weight map[string][]composition.Measure
}

func readSources(data fs.FS, names []named) (*sources, error) {
	wanted, called := map[string]bool{}, map[string]string{}
	for _, n := range names {
		wanted[n.ndb], called[n.ndb] = true, n.name
	}
	s := &sources{}
	steps := []func() error{
		func() (err error) { s.foods, err = readDescriptions(data, wanted); return },
		func() (err error) { s.values, err = readValues(data, wanted); return },
		func() (err error) { s.weight, err = readWeights(data, called); return },
		func() (err error) { s.survey, err = readSurvey(data, wanted); return },
		func() (err error) { s.change, err = readChanges(data, wanted); return },
		func() (err error) { s.added, err = readAddedSugars(data, wanted); return },
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return s, nil
}

// row joins one curated name with its figures.
func (s *sources) row(n named) (*row, error) {
	d, ok := s.foods[n.ndb]
	if !ok {
		return nil, fmt.Errorf("%s:%d: no food %s in FOOD_DES; expected a number of SR28", n.file, n.line, n.ndb)
	}
	r := &row{file: n.file, defaults: n.defaults}
	r.ID, r.Name, r.Group, r.Refuse = "sr:"+n.ndb, n.name, d.Group, d.Refuse
	r.Kinds, r.States, r.Synonyms = n.kinds, n.states, n.synonyms
	r.Measures = s.weight[n.ndb]
	s.fill(r, n.ndb)
	r.Source = source(n.ndb, r.survey)
	return r, nil
}

// source names where the figures of a row come from.
func source(ndb string, survey []composition.Nutrient) string {
	text := "USDA SR28 NDB " + ndb
	for i, n := range survey {
		if i == 0 {
			text += "; USDA FNDDS 2017-2018:"
		}
		text += " " + n.Key()
	}
	return text
}
