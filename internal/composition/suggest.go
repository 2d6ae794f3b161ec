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
	return diagnostic.Near(w, names, 3)
}

// leastRespelled is how many letters a word needs before one letter more, less
// or other is taken for a slip of the pen: shorter words are near too many.
const leastRespelled = 7

// Respelled is the one word of food names that is a single letter from a word no
// food is called by, both beginning alike: "mayonaise" is mayonnaise. ok is false
// where there is none, or more than one.
func (t *Table) Respelled(word string) (found string, ok bool) {
	words := tokenize(word)
	if len(words) != 1 || len(words[0]) < leastRespelled || t.index.known[words[0]] > 0 {
		return "", false
	}
	w := words[0]
	for known := range t.index.known {
		if known[0] != w[0] || len(known) < leastRespelled-1 || !oneLetterOff(known, w) {
			continue
		}
		if ok {
			return "", false
		}
		found, ok = known, true
	}
	return found, ok
}

// oneLetterOff reports whether a letter more, less or other, or two swapped,
// makes one word of the other.
func oneLetterOff(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	switch len(b) - len(a) {
	case 1:
		return a[i:] == b[i+1:]
	case 0:
		if i == len(a) {
			return false
		}
		swapped := i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
		return swapped || a[i+1:] == b[i+1:]
	default:
		return false
	}
}

func abs(x int) int {
	if x < 0 {
		return -x
	}
	return x
}
