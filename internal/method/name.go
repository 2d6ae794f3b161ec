package method

import (
	"strings"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
)

// rank is how well a name tells a line from others; lower is better.
type rank int

const (
	wholePhrase rank = iota // as the ingredient line says it
	shortened               // without its first words
	otherName               // a synonym or the table row's name
	headNoun                // its last word
	shortName               // "chicken" for chicken breast, "cheddar"
	classWord               // "the fish"
)

// name is one way to speak of a part of a line.
type name struct {
	words []string
	line  int
	part  int
	rank  rank
}

// book holds the names of all lines by their first word.
type book struct {
	names map[string][]name
	lines []foodmatch.Matched
	rows  [][]row // by line and part
}

// row are the words of the line of a part.
type row []string

func (r row) has(words ...string) bool { return hasAny(r, words...) }

// Names are the ways to speak of one line. They do not depend on the recipe, so
// they may be kept with the line.
type Names struct {
	names []name // their line is not set
	rows  []row
}

// NamesOf takes the names out of a line.
func NamesOf(m foodmatch.Matched) Names {
	parts := readings(m)
	n := Names{rows: make([]row, len(parts))}
	for p, r := range parts {
		n.rows[p] = words(r.Text + " " + r.Food)
		n.addPart(m, p, r)
	}
	return n
}

func newBook(lines []foodmatch.Matched) *book {
	names := make([]Names, len(lines))
	for i, m := range lines {
		names[i] = NamesOf(m)
	}
	return bookOf(lines, names)
}

// bookOf is newBook with the names of every line.
func bookOf(lines []foodmatch.Matched, names []Names) *book {
	b := &book{names: make(map[string][]name, 4*len(lines)), lines: lines, rows: make([][]row, 0, len(lines))}
	for i, n := range names {
		for _, nm := range n.names {
			nm.line = i
			b.names[nm.words[0]] = append(b.names[nm.words[0]], nm)
		}
		b.rows = append(b.rows, n.rows)
	}
	return b
}

// readings are the foods of a line: its own, then those written with it.
func readings(m foodmatch.Matched) []ingredient.Reading {
	return append([]ingredient.Reading{m.Reading}, m.Reading.Together...)
}

func (n *Names) addPart(m foodmatch.Matched, part int, r ingredient.Reading) {
	phrases := []string{r.Food}
	for _, other := range r.Alternatives {
		phrases = append(phrases, other.Food)
	}
	for _, phrase := range phrases {
		head, _, _ := strings.Cut(phrase, ",")
		head, _, _ = strings.Cut(head, " for the ")
		n.addPhrase(words(head), part)
	}
	if part == 0 {
		n.addAsides(r)
	}
	if said := words(r.Text); hasAny(said, "crumb", "crumble", "crumbled", "crushed") && hasAny(said, "bread", "cereal", "flake", "cracker") {
		n.add([]string{"crumb"}, part, classWord)
	}
	if r.HasAmount && r.Amount.Unit.Name == "slice" {
		n.add([]string{"slice"}, part, classWord)
	}
	if part < len(m.Items) && m.Items[part].Food != nil {
		n.addRow(words(r.Food), m.Items[part].Food.Name, m.Items[part].Food.Synonyms, part)
	}
}

func (n *Names) addPhrase(ws []string, part int) {
	if len(ws) == 0 {
		return
	}
	n.add(ws, part, wholePhrase)
	for i := 1; i < len(ws)-1; i++ {
		n.add(ws[i:], part, shortened)
	}
	head := ws[len(ws)-1]
	if len(ws) > 1 && (!weakHeads[head] || made[head]) {
		n.add(ws[len(ws)-1:], part, headNoun)
	}
	whole := len(ws) - 1 // the last word that is no part of the food before it
	for whole > 0 && partHeads[ws[whole]] {
		whole--
	}
	for i, w := range ws[:len(ws)-1] {
		if varieties[w] || i == whole || head == "juice" && i == len(ws)-2 {
			n.add([]string{w}, part, shortName)
		}
	}
	for _, w := range ws {
		for _, class := range classes[w] {
			if w == head || partHeads[head] || head == "bean" {
				n.add(words(class), part, classWord)
			}
		}
	}
	if hasRun(ws, "dry", "milk") {
		n.add([]string{"milk", "powder"}, part, otherName)
	}
}

func hasAny(ws []string, any ...string) bool {
	for _, w := range ws {
		for _, a := range any {
			if w == a {
				return true
			}
		}
	}
	return false
}

// addAsides adds the words behind a comma that name the food again: "cereal,
// cornflakes, crumb".
func (n *Names) addAsides(r ingredient.Reading) {
	said := set{}
	for _, w := range words(strings.Join(r.Preparation, " ") + " " + strings.Join(r.States, " ") + " " + r.UseOf) {
		said[w] = true
	}
	pieces := strings.Split(r.Text, ",")
	for _, piece := range pieces[1:] {
		ws := words(piece)
		if len(ws) != 1 || strings.ContainsAny(piece, "()0123456789") || said[ws[0]] || adjectives[ws[0]] || verbs[ws[0]] ||
			strings.HasSuffix(ws[0], "ed") || strings.HasSuffix(ws[0], "ly") || strings.HasSuffix(ws[0], "less") || noFoods[ws[0]] {
			continue
		}
		for _, w := range words(r.Food) {
			if w == ws[0] {
				n.add(ws, 0, otherName)
			}
		}
	}
}

// noFoods are words behind a comma that name no food of their own.
var noFoods = newSet("optional packed divided crosswise light fat sodium free")

// addRow adds the table's own names where they share a word with the line's, so
// that a wrong match of the row does not bring in a stranger.
func (n *Names) addRow(phrase []string, rowName string, synonyms []string, part int) {
	first, _, _ := strings.Cut(rowName, ",")
	for i := range len(synonyms) + 1 {
		other := first
		if i > 0 {
			other = synonyms[i-1]
		}
		if len(phrase) > 0 && !mayShare(other, phrase[len(phrase)-1]) {
			continue // most synonyms: not worth taking apart
		}
		ws := words(other)
		if len(ws) == 0 || weakHeads[ws[len(ws)-1]] {
			continue
		}
		if len(phrase) == 0 || len(ws) > 1 && ws[len(ws)-1] == phrase[len(phrase)-1] {
			n.add(ws, part, otherName)
		}
	}
}

// mayShare is false where a text surely does not hold a word: even its plural
// begins with the same two letters.
func mayShare(text, word string) bool {
	if len(word) < 2 {
		return true
	}
	for i := 0; i+1 < len(text); i++ {
		if text[i]|0x20 == word[0] && text[i+1]|0x20 == word[1] { // lower case
			return true
		}
	}
	return false
}

func (n *Names) add(ws []string, part int, r rank) {
	n.names = append(n.names, name{words: ws, part: part, rank: r})
}
