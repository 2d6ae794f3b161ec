package main

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"potwright/internal/composition"
)

const measuresFile = "measures.tsv"

// write renders the rows, sorted by name, one file a group, and all household
// measures in one file sorted by id.
func write(rows []*row) map[string][]byte {
	text := map[string]*strings.Builder{}
	var measures []string
	for _, r := range rows {
		b := text[r.file]
		if b == nil {
			b = &strings.Builder{}
			b.WriteString(header())
			text[r.file] = b
		}
		b.WriteString(foodLine(r))
		for i, m := range r.Measures {
			measures = append(measures, measureLine(r.ID, i, m))
		}
	}
	out := map[string][]byte{}
	for name, b := range text {
		out[name] = []byte(b.String())
	}
	sort.Strings(measures)
	for i, m := range measures {
		measures[i] = m[strings.IndexByte(m, 0)+1:]
	}
	out[measuresFile] = []byte("# id\tamount\tunit\tqualifier\tgrams\tsd\tn\n" + strings.Join(measures, ""))
	return out
}

func header() string {
	cols := []string{"# id", "name", "group", "refuse", "states", "kinds", "synonyms", "default for", "source"}
	for _, n := range composition.Nutrients() {
		cols = append(cols, n.Key())
	}
	return strings.Join(cols, "\t") + "\n"
}

func foodLine(r *row) string {
	cols := []string{r.ID, r.Name, string(r.Group), short(r.Refuse), strings.Join(r.States, " "),
		strings.Join(r.Kinds, " "), strings.Join(r.Synonyms, "; "), r.defaults, r.Source}
	for _, c := range r.Nutrients {
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

func measureLine(id string, i int, m composition.Measure) string {
	key := fmt.Sprintf("%s %03d", id, i)
	cols := []string{id, short(m.Amount), m.Unit, m.Qualifier, short(m.Grams), "", ""}
	if m.SD > 0 {
		cols[5] = short(significant(m.SD))
	}
	if m.N > 0 {
		cols[6] = strconv.Itoa(m.N)
	}
	return key + "\x00" + strings.Join(cols, "\t") + "\n"
}

func short(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// significant rounds to three significant digits, enough for a spread.
func significant(x float64) float64 {
	scale := math.Pow(10, 2-math.Floor(math.Log10(x)))
	return math.Round(x*scale) / scale
}
