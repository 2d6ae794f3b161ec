package ingredient

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// tokenKind tells words from numbers from marks.
type tokenKind uint8

const (
	word   tokenKind = iota
	number           // a run of digits or one fraction character
	mark             // one character of punctuation
)

// token is a piece of the line: runes from..to of the text and bytes at..end of
// the plain text.
type token struct {
	kind     tokenKind
	low      string // lower case
	from, to int
	at, end  int
}

// source is a line cut into tokens.
type source struct {
	runes  []rune // as written, for quoting; nil where the plain text is that
	plain  string // the same runes with odd spaces and quotes made plain
	tokens []token
}

// plainRune maps look-alikes of space, quote, hyphen and letters to the plain
// one. It never changes the number of runes, so that columns stay true.
func plainRune(r rune) rune {
	switch r {
	case '\u00a0', '\u2007', '\u2009', '\u200a', '\u200b', '\u202f', '\u2002', '\u2003', '\u3000', '\t', '\n', '\r', '\ufeff':
		return ' '
	case '‘', '’', 'ʼ', '´', '`':
		return '\''
	case '“', '”', '″':
		return '"'
	case '‐', '‑':
		return '-'
	case utf8.RuneError:
		return '?'
	}
	if r >= '０' && r <= '９' {
		return r - '０' + '0'
	}
	return r
}

func scan(text string) *source {
	s := &source{plain: text}
	if !isPlain(text) {
		s.runes = []rune(text)
		plain := make([]byte, 0, len(text)+8)
		for _, r := range s.runes {
			plain = utf8.AppendRune(plain, plainRune(r))
		}
		s.plain = string(plain)
	}
	s.tokens = make([]token, 0, len(text)/4+4)
	col := 0
	for at := 0; at < len(s.plain); {
		r, size := utf8.DecodeRuneInString(s.plain[at:])
		if r == ' ' {
			at, col = at+size, col+1
			continue
		}
		kind, end, runes := tokenAt(s.plain, at, r, size)
		s.tokens = append(s.tokens, token{
			kind: kind, low: lower(s.plain[at:end]),
			from: col, to: col + runes, at: at, end: end,
		})
		at, col = end, col+runes
	}
	return s
}

// isPlain reports whether a text is plain already, a byte a rune.
func isPlain(text string) bool {
	for i := range len(text) {
		if c := text[i]; c >= utf8.RuneSelf || rune(c) != plainRune(rune(c)) {
			return false
		}
	}
	return true
}

// lower is the text in lower case; "1 %" becomes "1%".
func lower(text string) string {
	if !strings.HasSuffix(text, "%") {
		return strings.ToLower(text)
	}
	return strings.Replace(strings.ToLower(text), " %", "%", 1)
}

// tokenAt finds the token that starts at byte at with rune r: its kind, its end
// and its length in runes.
func tokenAt(s string, at int, r rune, size int) (kind tokenKind, end, runes int) {
	switch {
	case r >= '0' && r <= '9':
		end = at
		for end < len(s) && (isDigit(s[end]) || isPoint(s, end)) {
			end++
		}
		for _, percent := range []string{"%", " %"} { // "85%" is a word that describes
			if strings.HasPrefix(s[end:], percent) {
				end += len(percent)
				return word, end, end - at
			}
		}
		return number, end, end - at
	case unicode.Is(unicode.No, r):
		return number, at + size, 1
	case isLetter(r):
		return wordAt(s, at)
	}
	return mark, at + size, 1
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// isPoint reports whether the byte is a decimal point or comma between digits.
func isPoint(s string, i int) bool {
	return (s[i] == '.' || s[i] == ',') && i+1 < len(s) && isDigit(s[i+1])
}

func isLetter(r rune) bool { return unicode.IsLetter(r) || unicode.Is(unicode.Mn, r) }

// abbreviations keep the full stop that follows them.
var abbreviations = wordSet("oz lb lbs tsp tsps tbsp tbsps tbs tbl pkg pkgs fl approx in qt qts pt pts gal c t lg med sm sml env ea no ca")

func wordAt(s string, at int) (tokenKind, int, int) {
	end, runes := at, 0
	for end < len(s) {
		r, size := utf8.DecodeRuneInString(s[end:])
		if !isLetter(r) {
			next, _ := utf8.DecodeRuneInString(s[end+size:])
			joins := (r == '-' || r == '\'') && isLetter(next)
			if !joins {
				break
			}
		}
		end, runes = end+size, runes+1
	}
	if end < len(s) && s[end] == '.' && abbreviations[strings.ToLower(s[at:end])] {
		end, runes = end+1, runes+1
	}
	return word, end, runes
}

// wordSet makes a set of the words of a text.
func wordSet(text string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(text) {
		set[w] = true
	}
	return set
}

// written is the text of tokens from..to as it stands on the line.
func (s *source) written(from, to int) string {
	if from >= to {
		return ""
	}
	if s.runes == nil {
		return strings.TrimSpace(s.plain[s.tokens[from].at:s.tokens[to-1].end])
	}
	return strings.TrimSpace(string(s.runes[s.tokens[from].from:s.tokens[to-1].to]))
}

// is reports whether token i is the given word or mark.
func (s *source) is(i int, low string) bool {
	return i >= 0 && i < len(s.tokens) && s.tokens[i].low == low
}
