package household

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// unaccented are the accented letters that recipes in English use.
var unaccented = strings.NewReplacer("é", "e", "è", "e", "ê", "e", "ë", "e", "á", "a", "à", "a", "â", "a", "ä", "a",
	"ã", "a", "å", "a", "í", "i", "ì", "i", "î", "i", "ï", "i", "ó", "o", "ò", "o", "ô", "o", "ö", "o", "õ", "o",
	"ø", "o", "ú", "u", "ù", "u", "û", "u", "ü", "u", "ç", "c", "ñ", "n", "æ", "ae", "œ", "oe", "'", "", "’", "")

// tokens are the words of a text: lower case, without accents and apostrophes,
// in the singular. Text and phrases go through it alike, so that the singular
// need not be good English.
func tokens(text string) []string {
	text = strings.ToLower(text)
	if !plain(text) {
		text = unaccented.Replace(text)
	}
	words := strings.FieldsFunc(text, func(r rune) bool {
		if r < utf8.RuneSelf {
			return (r < 'a' || r > 'z') && (r < '0' || r > '9')
		}
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	for i, w := range words {
		words[i] = singular(w)
	}
	return words
}

// plain reports whether a text has neither accents nor apostrophes.
func plain(text string) bool {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf || text[i] == '\'' {
			return false
		}
	}
	return true
}

// singular takes a plural ending off and nothing else: "creamed" is not cream.
// Words that could be either, such as cookie and cookies, come out alike.
func singular(w string) string {
	switch {
	case len(w) < 4 || w[len(w)-1] != 's' && w[len(w)-1] != 'e' || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us") || strings.HasSuffix(w, "is"):
		return w
	case w == "leaves" || w == "loaves" || w == "halves" || w == "calves":
		return w[:len(w)-3] + "f"
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "ie"):
		return w[:len(w)-2] + "y"
	case hardEnding(strings.TrimSuffix(w, "es")) && strings.HasSuffix(w, "es"):
		return w[:len(w)-2]
	case hardEnding(strings.TrimSuffix(w, "e")) && strings.HasSuffix(w, "e"):
		return w[:len(w)-1]
	case strings.HasSuffix(w, "s"):
		return w[:len(w)-1]
	default:
		return w
	}
}

// hardEnding reports whether a word takes -es in the plural.
func hardEnding(w string) bool {
	for _, end := range []string{"ss", "sh", "ch", "x", "o"} {
		if strings.HasSuffix(w, end) {
			return true
		}
	}
	return false
}

// phrase is one or more words in order, and how it was written.
type phrase struct {
	words []string
	text  string
}

// phrases are looked up by their first word.
type phrases struct {
	byFirst map[string][]phrase
	// firsts are the marks of the first words: they tell at a glance of most words
	// that no phrase begins with them.
	firsts uint64
}

func newPhrases(texts []string) phrases {
	var ps phrases
	for _, t := range texts {
		words := tokens(t)
		if len(words) == 0 {
			continue
		}
		if ps.byFirst == nil {
			ps.byFirst = map[string][]phrase{}
		}
		ps.byFirst[words[0]] = append(ps.byFirst[words[0]], phrase{words, t})
		ps.firsts |= mark(words[0])
	}
	return ps
}

// mark is one bit for a word, by its length and its ends; a few words share one.
func mark(word string) uint64 {
	n := len(word)
	if n == 0 {
		return 0
	}
	return 1 << ((uint(word[0])*5 + uint(word[n-1])*3 + uint(word[n/2]) + uint(n)) % 64)
}

// marksOf are the marks of all words: phrases none of whose firsts is among them are not
// in the words.
func marksOf(words []string) uint64 {
	var marks uint64
	for _, w := range words {
		marks |= mark(w)
	}
	return marks
}

// at is the longest phrase that starts at the head of words.
func (ps *phrases) at(words []string) (best phrase, ok bool) {
	if ps.firsts&mark(words[0]) == 0 {
		return best, false
	}
	for _, p := range ps.byFirst[words[0]] {
		if len(p.words) > len(best.words) && len(p.words) <= len(words) && same(p.words, words) {
			best = p
		}
	}
	return best, len(best.words) > 0
}

func same(p, words []string) bool {
	for i, w := range p {
		if words[i] != w {
			return false
		}
	}
	return true
}

// find is the first phrase in words, as it was written.
func (ps *phrases) find(words []string) (string, bool) {
	if ps.firsts == 0 {
		return "", false
	}
	for i := range words {
		if p, ok := ps.at(words[i:]); ok && (i == 0 || !denies(words[i-1])) {
			return p.text, true
		}
	}
	return "", false
}

// denies reports whether a word turns the next into its absence: "without egg".
func denies(w string) bool {
	return w == "without" || w == "no" || w == "not" || w == "non"
}

// in reports whether words hold a phrase, denied or not.
func (ps *phrases) in(words []string) bool {
	if ps.firsts == 0 {
		return false
	}
	for i := range words {
		if _, ok := ps.at(words[i:]); ok {
			return true
		}
	}
	return false
}

// cut returns words with every phrase found blanked out, so that words on its
// two sides never meet.
func (ps *phrases) cut(words []string) []string {
	if !ps.in(words) {
		return words
	}
	out := append([]string(nil), words...)
	for i := 0; i < len(words); i++ {
		if p, ok := ps.at(words[i:]); ok {
			for k := range p.words {
				out[i+k] = ""
			}
			i += len(p.words) - 1
		}
	}
	return out
}
