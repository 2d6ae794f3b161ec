package fooddata

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"potwright/internal/composition"
)

// Header is the line of headings of a file of foods.
func Header() string {
	cols := []string{"# id", "name", "group", "refuse", "states", "kinds", "synonyms", "default for", "source"}
	for _, n := range composition.Nutrients() {
		cols = append(cols, n.Key())
	}
	return strings.Join(cols, "\t") + "\n"
}

// FoodLine is a food as a line of such a file. defaults are the phrases that mean
// it, as the file has them.
func FoodLine(f *composition.Food, defaults string) string {
	cols := []string{f.ID, f.Name, string(f.Group), short(f.Refuse), strings.Join(f.States, " "),
		strings.Join(f.Kinds, " "), strings.Join(f.Synonyms, "; "), defaults, f.Source}
	for _, c := range f.Nutrients {
		cols = append(cols, cell(c))
	}
	return strings.Join(cols, "\t") + "\n"
}

// cell writes mid, then ~sd, #n and |other where there are any; nothing where
// the content is unknown.
func cell(c composition.Content) string {
	if !c.Known {
		return ""
	}
	s := short(c.Mid)
	if c.SD > 0 {
		s += "~" + short(significant(c.SD))
	}
	if c.N > 0 {
		s += "#" + strconv.Itoa(c.N)
	}
	if c.HasOther {
		s += "|" + short(c.Other)
	}
	return s
}

// Measures is the file of household measures of the foods, sorted by id.
func Measures(foods []*composition.Food) string {
	sorted := slices.Clone(foods)
	slices.SortStableFunc(sorted, func(a, b *composition.Food) int { return strings.Compare(a.ID, b.ID) })
	var b strings.Builder
	b.WriteString("# id\tamount\tunit\tqualifier\tgrams\tsd\tn\n")
	for _, f := range sorted {
		for _, m := range f.Measures {
			b.WriteString(measureLine(f.ID, m))
		}
	}
	return b.String()
}

func measureLine(id string, m composition.Measure) string {
	cols := []string{id, short(m.Amount), m.Unit, m.Qualifier, short(m.Grams), "", ""}
	if m.SD > 0 {
		cols[5] = short(significant(m.SD))
	}
	if m.N > 0 {
		cols[6] = strconv.Itoa(m.N)
	}
	return strings.Join(cols, "\t") + "\n"
}

func short(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// significant rounds to three significant digits, enough for a spread.
func significant(x float64) float64 {
	scale := math.Pow(10, 2-math.Floor(math.Log10(x)))
	return math.Round(x*scale) / scale
}
