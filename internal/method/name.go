package method

import (
	"slices"
	"strings"
	"unicode/utf8"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
)

// rank is how well a name tells a line from others; lower is better.
type rank uint8

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
	// bucket is that of its first word in a book.
	bucket uint8
}

// book holds the names of all lines.
type book struct {
	lines []*Names
	names []linked
	// by is where the names with a first word are, by its bucket: those of other
	// words may be among them.
	by [buckets]chain
	// found is room for what at finds, mentions for what mark does.
	found    []name
	mentions []Mention
}

// linked is a name, the index-th of its line, with the place of the next one in
// its bucket; 0 for none.
type linked struct{ line, index, next int32 }

// chain is the first and the last of the names in one bucket.
type chain struct{ first, last int32 }

// buckets is how many there are, a power of 2: about as many as a recipe has
// names.
const buckets = 128

// bucketOf spreads words by their length and their ends, as most differ in these.
func bucketOf(word string) uint8 {
	n := len(word)
	if n == 0 {
		return 0
	}
	return uint8((int(word[0])*7 + int(word[n-1])*5 + int(word[n/2])*3 + n) % buckets)
}

// first is the place of the first name that may begin with a word; 0 for none.
func (b *book) first(word string) int32 { return b.by[bucketOf(word)].first }

// name is the name at a place.
func (b *book) name(at int32) name {
	l := b.names[at]
	nm := b.lines[l.line].names[l.index]
	nm.line = int(l.line)
	return nm
}

// Names are the ways to speak of one line. They do not depend on the recipe, so
// they may be kept with the line.
type Names struct {
	Line  *foodmatch.Matched
	names []name // their line is not set
	parts []part
}

// part is one food of a line.
type part struct {
	reading    *ingredient.Reading
	text, food []string // their words
	// uses are what it is for, the words behind "for"; hasUse is set where its text
	// tells one.
	uses   []string
	hasUse bool
}

// newPart makes a part of a reading, the words of whose text and food are given.
func newPart(r *ingredient.Reading, text, food []string) part {
	p := part{reading: r, text: text, food: food}
	if at := slices.Index(text, "for"); at >= 0 {
		p.hasUse = true
		p.uses = slices.DeleteFunc(slices.Clone(text[at+1:]), func(w string) bool { return determiners[w] })
	}
	return p
}

// has reports whether the part's line has one of the words.
func (p *part) has(words ...string) bool { return hasAny(p.text, words...) || hasAny(p.food, words...) }

// NamesOf takes the names out of a line, which must not be changed afterwards.
func NamesOf(m *foodmatch.Matched) *Names {
	n := &Names{Line: m, names: make([]name, 0, 8), parts: make([]part, 0, 1+len(m.Reading.Together))}
	for p, r := range readings(m) {
		text, food := words(r.Text), words(r.Food)
		n.parts = append(n.parts, newPart(r, text, food))
		n.addPart(p, r, text, food)
	}
	return n
}

// namesOf takes the names out of lines.
func namesOf(lines []foodmatch.Matched) []*Names {
	names := make([]*Names, len(lines))
	for i := range lines {
		names[i] = NamesOf(&lines[i])
	}
	return names
}

func newBook(lines []*Names) *book {
	b := new(book)
	b.open(lines)
	return b
}

// open fills the book with the names of lines, in place of those it had.
func (b *book) open(lines []*Names) {
	count := 1 // place 0 is none
	for _, n := range lines {
		count += len(n.names)
	}
	b.lines, b.names, b.by = lines, append(slices.Grow(b.names[:0], count), linked{}), [buckets]chain{}
	for i, n := range lines {
		for k := range n.names {
			b.add(linked{line: int32(i), index: int32(k)}, n.names[k].bucket)
		}
	}
}

func (b *book) add(l linked, bucket uint8) {
	at := int32(len(b.names))
	b.names = append(b.names, l)
	c := &b.by[bucket]
	if c.first > 0 {
		b.names[c.last].next = at
	} else {
		c.first = at
	}
	c.last = at
}

// readings are the foods of a line: its own, then those written with it.
func readings(m *foodmatch.Matched) []*ingredient.Reading {
	out := []*ingredient.Reading{&m.Reading}
	for i := range m.Reading.Together {
		out = append(out, &m.Reading.Together[i])
	}
	return out
}

func (n *Names) addPart(part int, r *ingredient.Reading, text, food []string) {
	if head := headOf(r.Food); head == r.Food {
		n.addPhrase(food, part)
	} else {
		n.addPhrase(words(head), part)
	}
	for i := range r.Alternatives {
		n.addPhrase(words(headOf(r.Alternatives[i].Food)), part)
	}
	if part == 0 {
		n.addAsides(r, food)
	}
	if hasAny(text, "crumb", "crumble", "crumbled", "crushed") && hasAny(text, "bread", "cereal", "flake", "cracker") {
		n.add([]string{"crumb"}, part, classWord)
	}
	if r.HasAmount && r.Amount.Unit.Name == "slice" {
		n.add([]string{"slice"}, part, classWord)
	}
	if items := n.Line.Items; part < len(items) && items[part].Food != nil {
		n.addRow(food, items[part].Food.Name, items[part].Food.Synonyms, part)
	}
}

// headOf is what of a food's phrase names it.
func headOf(phrase string) string {
	head, _, _ := strings.Cut(phrase, ",")
	head, _, _ = strings.Cut(head, " for the ")
	head, _, _ = strings.Cut(head, " with ") // "tomatoes with green chiles" are the tomatoes
	return head
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
			n.add(ws[i:i+1], part, shortName)
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
func (n *Names) addAsides(r *ingredient.Reading, food []string) {
	_, rest, _ := strings.Cut(r.Text, ",")
	for len(rest) > 0 {
		var piece string
		piece, rest, _ = strings.Cut(rest, ",")
		ws := words(piece)
		if len(ws) != 1 || !slices.Contains(food, ws[0]) || strings.ContainsAny(piece, "()0123456789") || adjectives[ws[0]] || verbs[ws[0]] ||
			strings.HasSuffix(ws[0], "ed") || strings.HasSuffix(ws[0], "ly") || strings.HasSuffix(ws[0], "less") || noFoods[ws[0]] || saidOtherwise(r, ws[0]) {
			continue
		}
		n.add(ws, 0, otherName)
	}
}

// saidOtherwise reports whether a word stands in the line's preparation, states or
// use.
func saidOtherwise(r *ingredient.Reading, word string) bool {
	in := func(text string) bool { return slices.Contains(words(text), word) }
	return slices.ContainsFunc(r.Preparation, in) || slices.ContainsFunc(r.States, in) || in(r.UseOf)
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
		if len(phrase) > 0 && !mayEnd(other, phrase[len(phrase)-1]) {
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

// mayEnd is false where the last word of a text is surely another.
func mayEnd(text, word string) bool {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return true
		}
	}
	end := len(text)
	for end > 0 && !isPlainLetter(text[end-1]) {
		end--
	}
	start := end
	for start > 0 && (isPlainLetter(text[start-1]) || text[start-1] == '\'') {
		start--
	}
	return normal(strings.TrimLeft(text[start:end], "'")) == word
}

func (n *Names) add(ws []string, part int, r rank) {
	n.names = append(n.names, name{words: ws, part: part, rank: r, bucket: bucketOf(ws[0])})
}
