package fooddata

import (
	"testing"

	"potwright/internal/composition"
)

var phrases = []composition.Phrase{
	{Words: "salt", Unit: "tsp"},
	{Words: "boneless skinless chicken breast halves", States: []string{"boneless", "skinless"}, Unit: "each"},
	{Words: "diced tomatoes", States: []string{"low_sodium"}, Unit: "can"},
	{Words: "extra lean ground beef", States: []string{"lean_95"}, Unit: "lb"},
	{Words: "milk", States: []string{"fat_free"}, Unit: "cup"},
}

func BenchmarkMatch(b *testing.B) {
	table, err := Load()
	if err != nil {
		b.Fatal(err)
	}
	for i := 0; b.Loop(); i++ {
		table.Match(phrases[i%len(phrases)])
	}
}

func BenchmarkSearch(b *testing.B) {
	table, err := Load()
	if err != nil {
		b.Fatal(err)
	}
	queries := []string{"milk", "chicken br", "c", "canned beans low sodium", "tomato"}
	for i := 0; b.Loop(); i++ {
		table.Search(queries[i%len(queries)], 20)
	}
}
