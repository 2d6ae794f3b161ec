package cli

import (
	"flag"
	"fmt"
	"strings"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
	"potwright/internal/label"
)

func foods(r *run) (int, error) {
	if len(r.args) > 0 && r.args[0] == "import" {
		r.args = r.args[1:]
		return importFoods(r)
	}
	limit := 20
	o, err := r.parse("foods", func(f *flag.FlagSet) { f.IntVar(&limit, "limit", limit, "show at most so many") })
	if err != nil {
		return exitDone, err
	}
	if len(o.files) == 0 {
		return exitDone, badInput("no words to search; expected, for example, potwright foods chicken broth")
	}
	s, err := stock()
	if err != nil {
		return exitFailed, err
	}
	table, err := r.table(s.table, "")
	if err != nil {
		return exitFailed, err
	}
	codes, err := fooddata.LanguaL()
	if err != nil {
		return exitFailed, err
	}
	for _, f := range table.Search(strings.Join(o.files, " "), limit) {
		if err := r.food(o, f, codes); err != nil {
			return exitFailed, err
		}
	}
	return exitDone, nil
}

// foodRow is a row of the table for other programs, per 100 g edible portion.
type foodRow struct {
	ID      string               `json:"id"`
	Name    string               `json:"name"`
	Source  string               `json:"source"`
	Known   fooddata.Identifiers `json:"identifiers"`
	Per100g map[string]float64   `json:"per_100g"`
}

func (r *run) food(o options, f *composition.Food, langual map[string][]string) error {
	if o.format == "text" {
		sodium := "unknown"
		if c := f.Nutrients[composition.Sodium]; c.Known {
			sodium = label.Text(composition.Sodium, c.Mid)
		}
		_, err := fmt.Fprintf(r.out, "%-10s %s (sodium %s in 100 g)\n", f.ID, f.Name, sodium)
		return err
	}
	row := foodRow{f.ID, f.Name, f.Source, fooddata.IdentifiersOf(f, langual), map[string]float64{}}
	for n, c := range f.Nutrients {
		if c.Known {
			row.Per100g[composition.Nutrient(n).Key()] = c.Mid
		}
	}
	return r.json(row)
}
