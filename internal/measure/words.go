package measure

import "strings"

// aboutWords say that a quantity is not meant exactly. Those that describe a
// spoonful may also stand after the number; the ingredient reader sees to that.
var aboutWords = []string{
	"about", "approximately", "approx.", "approx", "around", "roughly", "nearly",
	"almost", "heaping", "heaped", "rounded", "scant", "generous", "up to",
	"at least", "~", "circa", "ca.",
}

// numberWords in the order that longer phrases come first.
var numberWords = []struct {
	word string
	low  Ratio
	high Ratio // Den 0 where the word is one number
}{
	{"one and a half", Ratio{3, 2}, Ratio{}}, {"one and one half", Ratio{3, 2}, Ratio{}},
	{"half a dozen", Ratio{6, 1}, Ratio{}}, {"half dozen", Ratio{6, 1}, Ratio{}},
	{"one dozen", Ratio{12, 1}, Ratio{}}, {"two dozen", Ratio{24, 1}, Ratio{}},
	{"a dozen", Ratio{12, 1}, Ratio{}}, {"dozen", Ratio{12, 1}, Ratio{}},
	{"a couple of", Ratio{2, 1}, Ratio{}}, {"a couple", Ratio{2, 1}, Ratio{}},
	{"couple of", Ratio{2, 1}, Ratio{}},
	{"a few", Ratio{2, 1}, Ratio{4, 1}}, {"few", Ratio{2, 1}, Ratio{4, 1}},
	{"several", Ratio{3, 1}, Ratio{5, 1}},
	{"one-half", Ratio{1, 2}, Ratio{}}, {"one half", Ratio{1, 2}, Ratio{}},
	{"one-third", Ratio{1, 3}, Ratio{}}, {"one third", Ratio{1, 3}, Ratio{}},
	{"two-thirds", Ratio{2, 3}, Ratio{}}, {"two thirds", Ratio{2, 3}, Ratio{}},
	{"one-quarter", Ratio{1, 4}, Ratio{}}, {"one quarter", Ratio{1, 4}, Ratio{}},
	{"three-quarters", Ratio{3, 4}, Ratio{}}, {"three quarters", Ratio{3, 4}, Ratio{}},
	{"half of a", Ratio{1, 2}, Ratio{}}, {"half an", Ratio{1, 2}, Ratio{}}, {"half a", Ratio{1, 2}, Ratio{}},
	{"a half", Ratio{1, 2}, Ratio{}}, {"half", Ratio{1, 2}, Ratio{}},
	{"a quarter of a", Ratio{1, 4}, Ratio{}}, {"quarter of a", Ratio{1, 4}, Ratio{}},
	{"a quarter", Ratio{1, 4}, Ratio{}}, {"quarter", Ratio{1, 4}, Ratio{}},
	{"a third", Ratio{1, 3}, Ratio{}},
	{"one", Ratio{1, 1}, Ratio{}}, {"two", Ratio{2, 1}, Ratio{}}, {"three", Ratio{3, 1}, Ratio{}},
	{"four", Ratio{4, 1}, Ratio{}}, {"five", Ratio{5, 1}, Ratio{}}, {"six", Ratio{6, 1}, Ratio{}},
	{"seven", Ratio{7, 1}, Ratio{}}, {"eight", Ratio{8, 1}, Ratio{}}, {"nine", Ratio{9, 1}, Ratio{}},
	{"ten", Ratio{10, 1}, Ratio{}}, {"eleven", Ratio{11, 1}, Ratio{}}, {"twelve", Ratio{12, 1}, Ratio{}},
	{"an", Ratio{1, 1}, Ratio{}}, {"a", Ratio{1, 1}, Ratio{}},
}

// firstWords are those that a quantity in words may begin with.
var firstWords = firstWordsOf()

func firstWordsOf() map[string]bool {
	out := map[string]bool{}
	note := func(phrase string) {
		first, _, _ := strings.Cut(phrase, " ")
		first, _, _ = strings.Cut(first, "-")
		out[strings.TrimSuffix(first, ".")] = true
	}
	for _, w := range aboutWords {
		note(w)
	}
	for _, w := range numberWords {
		note(w.word)
	}
	return out
}

// BeginsQuantity reports whether a word in lower case may be the first of a quantity: of
// text that begins with another word ScanQuantity makes none.
func BeginsQuantity(word string) bool { return firstWords[word] }

// scanAbout skips one word of vagueness and the space after it.
func scanAbout(s string) (n int, ok bool) {
	for _, w := range aboutWords {
		if hasWord(s, w) && len(s) > len(w) {
			return len(w) + spaces(s[len(w):]), true
		}
	}
	return 0, false
}

// scanWords reads a number in words. A word for a range ("a few") is put into q,
// where there is one.
func scanWords(s string, q *Quantity) (r Ratio, n int, ok bool) {
	for _, w := range numberWords {
		if !hasWord(s, w.word) {
			continue
		}
		if w.high.Den != 0 && q != nil {
			q.Low, q.High, q.About = w.low, w.high, true
		}
		return w.low, len(w.word), true
	}
	return Ratio{}, 0, false
}

// hasWord reports whether s starts with the word, in any case, and the word
// ends there. A hyphen goes on with the word, so that "half" is not found in
// "half-and-half".
func hasWord(s, word string) bool {
	if len(s) < len(word) || (s[0]^word[0])&^('a'-'A') != 0 || !strings.EqualFold(s[:len(word)], word) {
		return false
	}
	rest := s[len(word):]
	if rest == "" || word == "~" {
		return true
	}
	c := rest[0]
	letter := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= 0x80 || c == '-' || c == '\''
	return !letter
}
