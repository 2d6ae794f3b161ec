package composition

import (
	"sort"

	"potwright/internal/diagnostic"
)

// Suggest lists words of food names that the word may be a slip of the pen for,
// nearest first: something to ask a person, never to decide by.
func (t *Table) Suggest(word string) []string {
	words := tokenize(word)
	if len(words) != 1 || t.index.known[words[0]] > 0 {
		return nil
	}
	w := words[0]
	var names []string
	for known := range t.index.known {
		if len(known) > 2 && abs(len(known)-len(w)) <= 2 {
			names = append(names, known)
		}
	}
	sort.Strings(names)
	var out []string
	for len(out) < 3 {
		near := diagnostic.Nearest(w, names)
		if near == "" {
			break
		}
		out = append(out, near)
		i := sort.SearchStrings(names, near)
		names = append(names[:i], names[i+1:]...)
	}
	return out
}

func abs(x int) int {
	if x < 0 {
		return -x
	}
	return x
}
