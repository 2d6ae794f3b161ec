package main

import (
	"compress/gzip"
	"fmt"
	"io"
	"io/fs"

	"potwright/internal/composition"
	"potwright/internal/fooddata/usda"
)

// values are the cells of one food by USDA nutrient number.
type values map[string]usda.Value

// The files of the Standard Reference as they lie at hand.
const (
	descriptionsFile = "usda-sr28/FOOD_DES.txt"
	valuesFile       = "usda-sr28/NUT_DATA.txt.gz"
	weightsFile      = "usda-sr28/WEIGHT.txt"
)

func readDescriptions(data fs.FS, wanted map[string]bool) (out map[string]usda.Description, err error) {
	err = within(data, descriptionsFile, func(r io.Reader) error {
		out, err = usda.Descriptions(r, descriptionsFile, usda.Stop, func(ndb string) bool { return wanted[ndb] })
		return err
	})
	if err != nil {
		return nil, err
	}
	for ndb, d := range out {
		if d.Maker != "" {
			return nil, fmt.Errorf("food %s carries a maker's name; expected a generic row", ndb)
		}
	}
	return out, nil
}

func readValues(data fs.FS, wanted map[string]bool) (out map[string]values, err error) {
	out = map[string]values{}
	err = within(data, valuesFile, func(r io.Reader) error {
		zr, err := gzip.NewReader(r)
		if err != nil {
			return fmt.Errorf("%s: %w", valuesFile, err)
		}
		return usda.Values(zr, valuesFile, usda.Stop, func(ndb, nutrient string, v usda.Value) {
			if !wanted[ndb] {
				return
			}
			if out[ndb] == nil {
				out[ndb] = values{}
			}
			out[ndb][nutrient] = v
		})
	})
	return out, err
}

func readWeights(data fs.FS, called map[string]string) (out map[string][]composition.Measure, err error) {
	err = within(data, weightsFile, func(r io.Reader) error {
		out, err = usda.Weights(r, weightsFile, usda.Stop, called)
		return err
	})
	return out, err
}

// within opens a file for f.
func within(data fs.FS, name string, f func(io.Reader) error) error {
	file, err := data.Open(name)
	if err != nil {
		return err
	}
	defer file.Close()
	return f(file)
}
