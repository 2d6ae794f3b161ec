// Package usda reads food composition files as the US Department of Agriculture
// publishes them: the Standard Reference (text files of ~quoted~ fields, described
// in its documentation, release 28) and FoodData Central (CSV files, described in
// its field descriptions). All amounts are per 100 g edible portion.
package usda

import "fmt"

// OnBad is told of a row that can't be used. What it returns stops the reading;
// nil goes on with the next row.
type OnBad func(file string, line int, err error) error

// Stop ends the reading at the first row that can't be used.
func Stop(file string, line int, err error) error { return fmt.Errorf("%s:%d: %w", file, line, err) }
