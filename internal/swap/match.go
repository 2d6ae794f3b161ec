package swap

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
)

// part is one food of a line with the words that name it.
type part struct {
	index   int // in Matched.Items
	item    foodmatch.Item
	reading ingredient.Reading
	// measures is whose cups and spoons the line is measured in.
	measures measure.System
}

// parts pairs the foods of a line with their readings: the line's own first,
// then those written together with it ("salt and pepper").
func parts(line foodmatch.Matched) []part {
	readings := append([]ingredient.Reading{line.Reading}, line.Reading.Together...)
	var out []part
	for i, it := range line.Items {
		if it.Food == nil || i >= len(readings) {
			continue
		}
		out = append(out, part{index: i, item: it, reading: readings[i], measures: line.Measures})
	}
	return out
}

// fits finds the first food of a line, of its parts, that the rule speaks of; words are
// the plain ones of the line.
func (r *Rule) fits(line *foodmatch.Matched, words said, ps []part, dish []foodmatch.Matched) (*part, bool) {
	for i := range ps {
		p := &ps[i]
		if r.Match.suitsFood(p.item.Food) && r.Match.suitsWords(words, &p.reading) && !r.alreadyDone(p.item.Food) {
			return p, r.Match.suitsDish(line.Reading.Text, dish)
		}
	}
	return nil, false
}

// alreadyDone reports whether the line is what the rule would make of it.
func (r *Rule) alreadyDone(f *composition.Food) bool {
	switch r.Do {
	case Rinse:
		return f.HasState("rinsed")
	case Drain:
		return f.HasState("drained") || f.HasState("rinsed")
	case Replace:
		return len(r.With) == 1 && !r.With[0].Same && r.With[0].Food == f.Name && r.With[0].Ratio == 1 &&
			r.With[0].Note == "" && len(r.Spares) == 0 && len(r.Softens) == 0
	}
	return false
}

func (m *Match) suitsFood(f *composition.Food) bool {
	return (len(m.Foods) == 0 || has(m.Foods, f.Name)) &&
		(len(m.Kinds) == 0 || overlap(m.Kinds, f.Kinds)) &&
		(len(m.States) == 0 || overlap(m.States, f.States)) &&
		!has(m.NotFoods, f.Name) && !overlap(m.NotKinds, f.Kinds) && !overlap(m.NotState, f.States)
}

// ofWords reports whether the words of a line alone tell that it is meant, whatever
// foods stand on it.
func (m *Match) ofWords() bool { return len(m.Foods) == 0 && len(m.Kinds) == 0 }

func (m *Match) suitsWords(words said, r *ingredient.Reading) bool {
	if len(m.Units) > 0 && !has(m.Units, unitOf(r)) {
		return false
	}
	if m.Most > 0 && (!r.HasAmount || r.Amount.Quantity.Mid() > m.Most) {
		return false
	}
	return (len(m.Words) == 0 || anyPhrase(words, m.Words)) && !anyPhrase(words, m.NotWords)
}

// unitOf is the unit a line is measured in: "each" for a bare count, "" where
// it has no amount.
func unitOf(r *ingredient.Reading) string {
	switch {
	case !r.HasAmount:
		return ""
	case r.Amount.Unit.Name == "":
		return "each"
	}
	return r.Amount.Unit.Name
}

// suitsDish looks at the other lines of a dish than that of a text.
func (m *Match) suitsDish(text string, dish []foodmatch.Matched) bool {
	if len(m.DishHas) == 0 && len(m.DishNot) == 0 {
		return true
	}
	found := len(m.DishHas) == 0
	for i := range dish {
		other := &dish[i]
		if other.Reading.Text == text || other.State == foodmatch.Skipped {
			continue
		}
		for _, it := range other.Items {
			if it.Food == nil {
				continue
			}
			if isAny(it.Food, m.DishNot) {
				return false
			}
			found = found || isAny(it.Food, m.DishHas)
		}
	}
	return found
}

// said is text in lower case with one space around every word, so that whole words and
// phrases can be found in it.
type said string

func plainWords(text string) said {
	out := make([]byte, 1, len(text)+2)
	out[0] = ' '
	for _, r := range text {
		switch r = unicode.ToLower(r); {
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			out = utf8.AppendRune(out, r)
		case out[len(out)-1] != ' ':
			out = append(out, ' ')
		}
	}
	if out[len(out)-1] != ' ' || len(out) == 1 {
		out = append(out, ' ')
	}
	return said(out)
}

// anyPhrase reports whether plain words hold one of the phrases.
func anyPhrase(words said, phrases []string) bool {
	return slices.ContainsFunc(phrases, func(p string) bool { return holds(words, p) })
}

// holds reports whether plain words hold a phrase. Nearly every phrase is written in
// plain words itself, and need not be made so.
func holds(words said, phrase string) bool {
	if !isPlain(phrase) {
		return strings.Contains(string(words), string(plainWords(phrase)))
	}
	for from := 1; from < len(words); from++ {
		i := strings.Index(string(words[from:]), phrase)
		if i < 0 {
			return false
		}
		from += i
		if words[from-1] == ' ' && words[from+len(phrase)] == ' ' {
			return true
		}
	}
	return false
}

// isPlain reports whether a text is small letters and digits with one space between
// its words.
func isPlain(text string) bool {
	space := true // before it
	for i := range len(text) {
		switch c := text[i]; {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			space = false
		case c == ' ' && !space:
			space = true
		default:
			return false
		}
	}
	return !space
}

// isAny reports whether a food is of one of the kinds or has one of the names.
func isAny(f *composition.Food, words []string) bool {
	return overlap(words, f.Kinds) || has(words, f.Name)
}

func has(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}

func overlap(a, b []string) bool {
	for _, x := range a {
		if has(b, x) {
			return true
		}
	}
	return false
}
