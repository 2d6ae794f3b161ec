package main

import (
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
	"potwright/internal/fooddata/usda"
	"potwright/internal/foodmatch"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
	"potwright/internal/testkit"
)

// surveyed is a dish of the USDA Food and Nutrient Database for Dietary Studies
// 2017-2018: codes and grams of its ingredients, and the published values.
type surveyed struct {
	code, name string
	parts      []surveyPart
	// moisture is the change of the dish's weight by water, percent.
	moisture  float64
	published [composition.NutrientCount]float64
}

// surveyPart is one ingredient; code is an NDB number of five digits, or of
// eight for another food of the survey.
type surveyPart struct {
	code      string
	grams     float64
	retention string // code of the USDA retention table, "" for none
}

// foodOf finds the values of an ingredient per 100 g; false where there are
// none.
type foodOf func(code string) (*composition.Food, bool)

// survey is everything the check needs of the files.
type survey struct {
	dishes    map[string]*surveyed
	order     []string
	retention map[string]map[composition.Nutrient]float64
}

func readDishes(t *testing.T, data fs.FS) *survey {
	t.Helper()
	s := &survey{dishes: map[string]*surveyed{}, retention: readRetention(t, data)}
	require.NoError(t, eachRow(data, "fndds-2017-2018/ingredients.csv", func(get func(string) string) error {
		code := get("Food code")
		if s.dishes[code] == nil {
			s.dishes[code] = &surveyed{code: code, name: get("Main food description")}
			s.order = append(s.order, code)
		}
		d := s.dishes[code]
		grams, err := usda.Number(get("Ingredient weight (g)"))
		if err != nil {
			return err
		}
		if d.moisture, err = usda.Number(get("Moisture change (%)")); err != nil {
			return err
		}
		p := surveyPart{code: get("Ingredient code"), grams: grams}
		if len(p.code) < 6 {
			p.code = strings.Repeat("0", 5-len(p.code)) + p.code
		}
		if r := get("Retention code"); r != "0" {
			p.retention = strings.Repeat("0", 4-len(r)) + r
		}
		d.parts = append(d.parts, p)
		return nil
	}))
	require.NoError(t, eachRow(data, "fndds-2017-2018/nutrient_values.csv", func(get func(string) string) (err error) {
		d := s.dishes[get("Food code")]
		if d == nil {
			return nil
		}
		for n, heading := range surveyHeading {
			if d.published[n], err = usda.Number(get(heading)); err != nil {
				return err
			}
		}
		return nil
	}))
	return s
}

// readRetention reads the USDA Table of Nutrient Retention Factors, Release 6,
// as shares. A factor that is no whole number is left out, as are blanks: both
// stand in the 24 shifted rows under code 5005.
func readRetention(t *testing.T, data fs.FS) map[string]map[composition.Nutrient]float64 {
	t.Helper()
	out := map[string]map[composition.Nutrient]float64{}
	require.NoError(t, eachRow(data, "usda-retention/retn06.csv", func(get func(string) string) error {
		n, known := usda.NutrientOf(get("nutr_no"))
		pct, err := strconv.Atoi(get("retention_pct"))
		if !known || err != nil {
			return nil
		}
		code := get("retn_code")
		if out[code] == nil {
			out[code] = map[composition.Nutrient]float64{}
		}
		out[code][n] = float64(pct) / 100
		return nil
	}))
	return out
}

// panel is the dish as the program sums one, per 100 g of the finished dish;
// false where the values of an ingredient are not to be had.
func (s *survey) panel(d *surveyed, find foodOf) (nutrient.Panel, bool) {
	var lines []nutrient.LinePanel
	weight := 0.0
	for i, part := range d.parts {
		food, ok := find(part.code)
		if !ok {
			return nutrient.Panel{}, false
		}
		item := foodmatch.Item{Food: s.retained(food, part.retention), Grams: spread.Exact(part.grams)}
		lines = append(lines, nutrient.Line(strconv.Itoa(i), &foodmatch.Matched{State: foodmatch.Read, Items: []foodmatch.Item{item}}, 1))
		weight += part.grams
	}
	total := nutrient.Sum(lines, 1).Total
	total[composition.Water].Mid += weight * d.moisture / 100
	return total.Scale(100 / (weight * (1 + d.moisture/100))), weight > 0
}

// retained is the food with what cooking leaves of each nutrient.
func (s *survey) retained(f *composition.Food, code string) *composition.Food {
	kept := s.retention[code]
	if len(kept) == 0 {
		return f
	}
	out := *f
	for n, share := range kept {
		out.Nutrients[n].Mid *= share
		out.Nutrients[n].Other *= share
		out.Nutrients[n].SD *= share
	}
	return &out
}

// nested finds ingredients that are themselves foods of the survey by computing
// them in the same way; others by find.
func (s *survey) nested(find foodOf) foodOf {
	known := map[string]*composition.Food{}
	open := map[string]bool{}
	var look foodOf
	look = func(code string) (*composition.Food, bool) {
		d := s.dishes[code]
		if d == nil || len(code) < 8 {
			return find(code)
		}
		if f, ok := known[code]; ok {
			return f, f != nil
		}
		if open[code] {
			return nil, false
		}
		open[code] = true
		panel, ok := s.panel(d, look)
		open[code], known[code] = false, nil
		if !ok {
			return nil, false
		}
		f := &composition.Food{ID: "survey:" + code, Name: d.name}
		for n, a := range panel {
			f.Nutrients[n] = composition.Content{Known: a.Unknown == 0, Mid: a.Mid}
		}
		known[code] = f
		return f, true
	}
	return look
}

// leastPublished is the published amount, kcal or mg, below which a dish is not
// compared by energy or sodium: they are published as whole numbers, so that
// below it rounding alone is over 5 %.
const leastPublished = 10

// tooSmall reports whether a published amount is mostly rounding.
func tooSmall(n composition.Nutrient, published float64) bool {
	whole := n == composition.Energy || n == composition.Sodium
	return published <= 0 || whole && published < leastPublished
}

// differences are |computed − published| ÷ published of the dishes of two or
// more ingredients, sorted.
func (s *survey) differences(find foodOf, n composition.Nutrient) []float64 {
	var out []float64
	for _, code := range s.order {
		d := s.dishes[code]
		if len(d.parts) < 2 || tooSmall(n, d.published[n]) {
			continue
		}
		if panel, ok := s.panel(d, find); ok && panel[n].Unknown == 0 {
			out = append(out, math.Abs(panel[n].Mid-d.published[n])/d.published[n])
		}
	}
	sort.Float64s(out)
	return out
}

// rawFoods are foods with the values of the files alone; later files replace
// what earlier ones say.
func (s *survey) rawFoods(values ...map[string]values) foodOf {
	made := map[string]*composition.Food{}
	return func(code string) (*composition.Food, bool) {
		if f, ok := made[code]; ok {
			return f, f != nil
		}
		made[code] = nil
		for _, source := range values {
			v, ok := source[code]
			if !ok {
				continue
			}
			if made[code] == nil {
				made[code] = &composition.Food{ID: "sr:" + code, Name: code}
			}
			for _, n := range composition.Nutrients() {
				if x, has := v[usda.NutrientNumber(n)]; has {
					made[code].Nutrients[n] = composition.Content{Known: true, Mid: x.Mid}
				}
			}
		}
		return made[code], made[code] != nil
	}
}

// at is the value that a share of a sorted list does not pass.
func at(sorted []float64, share float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	return sorted[min(len(sorted)-1, int(share*float64(len(sorted))))]
}

// The codes and grams of USDA FNDDS 2017-2018, summed by the program's own
// computation with the retention factors of USDA Release 6 and the survey's
// moisture changes, against the values the survey published. What is left is
// the difference between the values of SR28 (2015) and those the survey used.
func TestDishesOfTheSurveyComeOutAsPublished(t *testing.T) {
	data := os.DirFS(filepath.Dir(filepath.Dir(testkit.Shared(t, "data/fndds-2017-2018/ingredients.csv"))))
	s := readDishes(t, data)
	codes := map[string]bool{}
	for _, d := range s.dishes {
		for _, p := range d.parts {
			codes[p.code] = true
		}
	}
	sr28, err := readValues(data, codes)
	require.NoError(t, err)
	used, err := readSurvey(data, codes)
	require.NoError(t, err)
	table, err := fooddata.Load()
	require.NoError(t, err)
	shipped := func(code string) (*composition.Food, bool) { return table.ByID("sr:" + code) }

	type bar struct{ median, ninetieth float64 }
	for _, c := range []struct {
		name   string
		find   foodOf
		dishes int
		bars   map[composition.Nutrient]bar
	}{
		{"SR28 as it stands", s.nested(s.rawFoods(sr28)), 2400, map[composition.Nutrient]bar{
			composition.Energy: {0.002, 0.009}, composition.Sodium: {0.002, 0.053}}},
		{"with the survey's own values", s.nested(s.rawFoods(sr28, used)), 2400, map[composition.Nutrient]bar{
			composition.Energy: {0.002, 0.009}, composition.Sodium: {0.002, 0.009}}},
		{"the table of the program", s.nested(shipped), 1900, map[composition.Nutrient]bar{
			composition.Energy: {0.002, 0.010}, composition.Sodium: {0.002, 0.02}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, n := range composition.Nutrients() {
				if _, published := surveyHeading[n]; !published {
					continue
				}
				diffs := s.differences(c.find, n)
				t.Logf("%-16s %5d dishes, median %5.2f %%, 90th percentile %5.1f %%", n.Name(), len(diffs), 100*at(diffs, 0.5), 100*at(diffs, 0.9))
				if b, ok := c.bars[n]; ok {
					assert.GreaterOrEqual(t, len(diffs), c.dishes, "dishes compared by %s", n.Name())
					assert.LessOrEqual(t, at(diffs, 0.5), b.median, "median of %s", n.Name())
					assert.LessOrEqual(t, at(diffs, 0.9), b.ninetieth, "90th percentile of %s", n.Name())
				}
			}
		})
	}
}
