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
	// minutes are those of a unit of time, 0 for any other word.
	minutes float64
	// mention is what the token speaks of, shared by all tokens of the mention.
	mention *Mention
	// fixed tokens were written by a rewrite and are not taken for old words.
	fixed bool
}

// lex cuts a text into tokens; joining them gives the text again, but for space
// at its end, which is returned.
func lex(text string) (tokens []token, tail string) {
	return lexInto(make([]token, 0, len(text)/5+2), text)
}

// lexInto is lex with room for the tokens.
func lexInto(room []token, text string) (tokens []token, tail string) {
	tokens = room[:0]
	for at, column := 0, 0; ; {
		end := at + space(text[at:])
		blank := text[at:end]
		column += utf8.RuneCountInString(blank)
		if at = end; at == len(text) {
			return tokens, blank
		}
		n, word, num := scan(text[at:])
		t := token{space: blank, text: text[at : at+n], from: column, word: word, num: num}
		if word {
			t.norm = normal(t.text)
			t.minutes = minutesOf[t.norm]
		}
		tokens = append(tokens, t)
		column += utf8.RuneCountInString(t.text)
		at += n
	}
}

// space is how many bytes of space a text begins with.
func space(text string) int {
	for i, r := range text {
		if !unicode.IsSpace(r) {
			return i
		}
	}
	return len(text)
}

// scan is how many bytes the token at the start of a text takes.
func scan(text string) (n int, word, num bool) {
	for n < len(text) && isPlainLetter(text[n]) { // most words are plain letters
		n++
	}
	if n > 0 && (n == len(text) || text[n] < utf8.RuneSelf && text[n] != '\'') {
		return n, true, false
	}
	first, n := utf8.DecodeRuneInString(text)
	switch {
	case isLetter(first):
		for n < len(text) {
			r, size := utf8.DecodeRuneInString(text[n:])
			if !isLetter(r) && !isApostrophe(r, text[n+size:]) {
				break
			}
			n += size
		}
		return n, true, false
	case unicode.IsNumber(first):
		for n < len(text) {
			r, size := utf8.DecodeRuneInString(text[n:])
			if !inNumber(r, text[n+size:]) {
				break
			}
			n += size
		}
		return n, false, true
	}
	return n, false, false
}

func isPlainLetter(c byte) bool { return c|0x20 >= 'a' && c|0x20 <= 'z' }

func isLetter(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) }

// isApostrophe reports whether a character is one within a word: rest is what
// follows.
func isApostrophe(r rune, rest string) bool {
	if r != '\'' && r != '’' {
		return false
	}
	next, _ := utf8.DecodeRuneInString(rest)
	return isLetter(next)
}

// inNumber keeps 1.5, 1,000, 1/2 and 3½ together; rest is what follows.
func inNumber(r rune, rest string) bool {
	if unicode.IsNumber(r) {
		return true
	}
	next, _ := utf8.DecodeRuneInString(rest)
	return (r == '.' || r == ',' || r == '/' || r == '⁄') && unicode.IsNumber(next)
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
	if !strings.HasSuffix(w, "s") {
		return w
	}
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
	}
	return w[:len(w)-1]
}

// wordsOf are the normal forms of the words among tokens.
func wordsOf(tokens []token) []string { return appendWords(make([]string, 0, len(tokens)), tokens) }

func appendWords(out []string, tokens []token) []string {
	for i := range tokens {
		if tokens[i].word {
			out = append(out, tokens[i].norm)
		}
	}
	return out
}

// words are the normal forms of the words of a phrase.
func words(phrase string) []string {
	out := make([]string, 0, len(phrase)/5+2)
	for len(phrase) > 0 {
		n, word, _ := scan(phrase)
		if word {
			out = append(out, normal(phrase[:n]))
		}
		phrase = phrase[n:]
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
