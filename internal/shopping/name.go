package shopping

import (
	"slices"
	"strings"
	"unicode"

	"potwright/internal/ingredient"
)

// called is what a line calls its food, or else where it has no words for it.
// What stands behind the first comma is how it comes or is cut ("bacon, bought
// ready cut"): its words are left away where the name keeps its last word.
func called(r ingredient.Reading, orElse string) string {
	name := strings.TrimSpace(r.Food)
	if name == "" {
		return orElse
	}
	before, _, found := strings.Cut(strings.ToLower(r.Text), ",")
	if !found {
		return name
	}
	known, all := nameWords(before), strings.Fields(name)
	var kept []string
	for _, w := range all {
		if ws := nameWords(w); len(ws) > 0 && !slices.ContainsFunc(ws, func(x string) bool { return !slices.Contains(known, x) }) {
			kept = append(kept, w)
		}
	}
	if len(kept) == 0 || kept[len(kept)-1] != all[len(all)-1] {
		return name
	}
	return strings.Join(kept, " ")
}

// call notes a name that the item goes by, whether of one or of many. Of two names
// where one only adds words to the other ("salt", "salt for the pasta water"), the
// short one stands.
func (g *gathered) call(name string) {
	for i, known := range g.names {
		switch {
		case holds(name, known):
			return
		case holds(known, name):
			g.names[i] = name
			return
		}
	}
	g.names = append(g.names, name)
}

// holds reports whether a name has all the words of another.
func holds(name, other string) bool {
	ws := nameWords(name)
	return !slices.ContainsFunc(nameWords(other), func(w string) bool { return !slices.Contains(ws, w) })
}

// plainStates are words of the table's names that a shop needs no telling.
var plainStates = []string{"raw", "table", "fresh"}

// saysMore reports whether the table's name has words that the lines' do not.
func saysMore(row, name string) bool {
	known := nameWords(name)
	return slices.ContainsFunc(nameWords(row), func(w string) bool {
		return !slices.Contains(known, w) && !slices.Contains(plainStates, w)
	})
}

// nameWords are the words of a name in lower case, their plural endings off.
func nameWords(name string) []string {
	ws := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for i, w := range ws {
		for _, end := range []string{"oes", "es", "s"} {
			if cut, ok := strings.CutSuffix(w, end); ok && len(cut) > 2 {
				if end == "oes" {
					cut += "o"
				}
				ws[i] = cut
				break
			}
		}
	}
	return ws
}
