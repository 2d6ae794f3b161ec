package main

import (
	"strings"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
)

// write renders the rows, sorted by name, one file a group, and all household
// measures in one file sorted by id.
func write(rows []*row) map[string][]byte {
	text := map[string]*strings.Builder{}
	var foods []*composition.Food
	for _, r := range rows {
		b := text[r.file]
		if b == nil {
			b = &strings.Builder{}
			b.WriteString(fooddata.Header())
			text[r.file] = b
		}
		b.WriteString(fooddata.FoodLine(&r.Food, r.defaults))
		foods = append(foods, &r.Food)
	}
	out := map[string][]byte{}
	for name, b := range text {
		out[name] = []byte(b.String())
	}
	out[fooddata.MeasuresFile] = []byte(fooddata.Measures(foods))
	return out
}
