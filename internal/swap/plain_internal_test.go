package swap

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// TestAPhraseIsHeldWhereItsPlainWordsAre holds the look-up against the plain words of
// both sides, cut by the standard library.
func TestAPhraseIsHeldWhereItsPlainWordsAre(t *testing.T) {
	plain := func(text string) string {
		return " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), " ") + " "
	}
	word := rapid.StringMatching(`[aAbB1é' -]{0,4}`)
	rapid.Check(t, func(t *rapid.T) {
		text, phrase := strings.Join(rapid.SliceOfN(word, 0, 6).Draw(t, "text"), " "), word.Draw(t, "phrase")
		assert.Equal(t, plain(text), string(plainWords(text)))
		assert.Equal(t, strings.Contains(plain(text), plain(phrase)), holds(plainWords(text), phrase), "%q in %q", phrase, text)
	})
}
