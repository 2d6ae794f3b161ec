package method

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// token is a word, a number or one other character, with the space before it.
type token struct {
	space string
	text  string
	norm  string // lower case, unaccented, singular; "" for punctuation
	from  int    // rune column in the step
	word  bool
	num   bool
	// mention is what the token speaks of, shared by all tokens of the mention.
	mention *Mention
	// fixed tokens were written by a rewrite and are not taken for old words.
	fixed bool
}

// lex cuts a text into tokens; joining them gives the text again, but for space
// at its end, which is returned.
func lex(text string) (tokens []token, tail string) {
	runes := []rune(text)
	tokens = make([]token, 0, len(runes)/4+2)
	at := 0
	for {
		start := at
		for at < len(runes) && unicode.IsSpace(runes[at]) {
			at++
		}
		space := string(runes[start:at])
		if at == len(runes) {
			return tokens, space
		}
		end, word, num := scan(runes, at)
		t := token{space: space, text: string(runes[at:end]), from: at, word: word, num: num}
		if word {
			t.norm = normal(t.text)
		}
		tokens = append(tokens, t)
		at = end
	}
}

// scan finds the end of the token at runes[at].
func scan(runes []rune, at int) (end int, word, num bool) {
	first := runes[at]
	switch {
	case isLetter(first):
		for end = at + 1; end < len(runes) && (isLetter(runes[end]) || isApostrophe(runes, end)); end++ {
		}
		return end, true, false
	case unicode.IsNumber(first):
		for end = at + 1; end < len(runes) && inNumber(runes, end); end++ {
		}
		return end, false, true
	}
	return at + 1, false, false
}

func isLetter(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) }

func isApostrophe(runes []rune, i int) bool {
	return (runes[i] == '\'' || runes[i] == '’') && i+1 < len(runes) && isLetter(runes[i+1])
}

// inNumber keeps 1.5, 1,000, 1/2 and 3½ together.
func inNumber(runes []rune, i int) bool {
	if unicode.IsNumber(runes[i]) {
		return true
	}
	joint := runes[i] == '.' || runes[i] == ',' || runes[i] == '/' || runes[i] == '⁄'
	return joint && i+1 < len(runes) && unicode.IsNumber(runes[i+1])
}

func render(tokens []token) string {
	var b strings.Builder
	for _, t := range tokens {
		b.WriteString(t.space)
		b.WriteString(t.text)
	}
	return b.String()
}

// unaccented are the accented letters that recipes in English use.
var unaccented = strings.NewReplacer("é", "e", "è", "e", "ê", "e", "ë", "e", "á", "a", "à", "a", "â", "a", "ä", "a",
	"å", "a", "í", "i", "î", "i", "ï", "i", "ó", "o", "ô", "o", "ö", "o", "ú", "u", "û", "u", "ü", "u", "ç", "c",
	"ñ", "n", "'", "", "’", "")

// normal is the form in which words are compared. It need not be good English:
// steps and food names go through it alike.
func normal(word string) string {
	low := strings.ToLower(word)
	for i := 0; i < len(low); i++ {
		if low[i] >= utf8.RuneSelf {
			return singular(unaccented.Replace(low))
		}
	}
	return singular(low)
}

// irregular plurals of foods and of their parts.
var irregular = map[string]string{
	"leaves": "leaf", "loaves": "loaf", "halves": "half", "knives": "knife", "calves": "calf",
	"molasses": "molasses", "hummus": "hummus", "couscous": "couscous", "asparagus": "asparagus", "octopus": "octopus",
}

func singular(w string) string {
	if s, ok := irregular[w]; ok {
		return s
	}
	switch {
	case len(w) < 4 || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us") || strings.HasSuffix(w, "is"):
		return w
	case strings.HasSuffix(w, "ies") && len(w) > 5: // but cookies, brownies: both sides alike
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "sses"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "ches"),
		strings.HasSuffix(w, "xes"), strings.HasSuffix(w, "oes"):
		return w[:len(w)-2]
	case strings.HasSuffix(w, "s"):
		return w[:len(w)-1]
	}
	return w
}

// words are the normal forms of the words of a phrase.
func words(phrase string) []string {
	for i := 0; i < len(phrase); i++ {
		if phrase[i] >= utf8.RuneSelf {
			return wordsOfRunes([]rune(phrase))
		}
	}
	out := make([]string, 0, 8)
	for at := 0; at < len(phrase); {
		end := at + 1
		switch {
		case plainLetter(phrase, at):
			for end < len(phrase) && (plainLetter(phrase, end) || phrase[end] == '\'' && plainLetter(phrase, end+1)) {
				end++
			}
			out = append(out, normal(phrase[at:end]))
		case plainDigit(phrase, at):
			for end < len(phrase) && (plainDigit(phrase, end) || strings.IndexByte(".,/", phrase[end]) >= 0 && plainDigit(phrase, end+1)) {
				end++
			}
		}
		at = end
	}
	return out
}

func plainLetter(s string, i int) bool {
	return i < len(s) && ('a' <= s[i] && s[i] <= 'z' || 'A' <= s[i] && s[i] <= 'Z')
}

func plainDigit(s string, i int) bool { return i < len(s) && '0' <= s[i] && s[i] <= '9' }

func wordsOfRunes(runes []rune) []string {
	var out []string
	for at := 0; at < len(runes); {
		if unicode.IsSpace(runes[at]) {
			at++
			continue
		}
		end, word, _ := scan(runes, at)
		if word {
			out = append(out, normal(string(runes[at:end])))
		}
		at = end
	}
	return out
}

// capital writes the first letter large.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

func startsCapital(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsUpper(r)
}

func startsLower(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLower(r)
}
