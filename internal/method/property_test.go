package method

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/recipe"
	"potwright/internal/swap"
)

// pool are lines and what a step may call them.
var pool = []struct {
	line  string
	calls []string
}{
	{"1/2 teaspoon salt", []string{"salt", "1/4 teaspoon salt", "half the salt", "the remaining salt", "salt to taste"}},
	{"1/4 teaspoon black pepper", []string{"pepper", "black pepper", "a pinch of pepper"}},
	{"2 tablespoons butter", []string{"the butter", "1 tablespoon of the butter", "melted butter"}},
	{"1 onion, chopped", []string{"the onion", "chopped onion"}},
	{"4 cups chicken broth", []string{"the broth", "1/2 cup of the chicken broth", "the rest of the stock"}},
	{"1 pound cod fillets", []string{"the cod", "the fish", "cod pieces", "the cod fillets"}},
	{"1 cup shredded cheddar cheese", []string{"the cheddar", "half of the cheese"}},
	{"2 bay leaves", []string{"the bay leaves", "bay"}},
	{"1 can black beans", []string{"the beans", "black beans (drained)"}},
	{"1 can kidney beans", []string{"the kidney beans", "beans"}},
	{"1 tablespoon chopped parsley", []string{"the parsley", "parsley, to taste"}},
}

var patterns = []string{
	"Add #.", "Add #, # and #.", "Add #, #, and # to the pot.", "Cook # in # until soft.", "Stir in # and cook 5 minutes.",
	"Season with # and #; stir.", "Toss # with # and #, then set it aside.", "In a large bowl, mix #, # and #.",
	"Serve with # on top.", "Once # is soft, add # and simmer 10 minutes.", "Simmer until # is tender.", "# and # go in",
	"Melt #, add # and #, and cook over low heat.", "Scatter # over #.", "Bring the # mixture to a boil.", "Peel and chop #.",
	"Salt the water, then boil # in it.", "Butter a dish; layer # and # (see note), # or #.", "Drain. Rinse, please!", "Pour # into # & #",
}

func drawStep(t *rapid.T) string {
	var texts []string
	for range rapid.IntRange(1, 3).Draw(t, "sentences") {
		s := rapid.SampledFrom(patterns).Draw(t, "pattern")
		for strings.Contains(s, "#") {
			p := rapid.SampledFrom(pool).Draw(t, "food")
			s = strings.Replace(s, "#", rapid.SampledFrom(p.calls).Draw(t, "call"), 1)
		}
		texts = append(texts, s)
	}
	return strings.Join(texts, " ")
}

// No step may tell the cook to add what is gone, be empty, or show the seams.
func TestNoMentionOfAnOmittedLineRemains(t *testing.T) {
	var all []string
	for _, p := range pool {
		all = append(all, p.line)
	}
	rec, lines := dish(all...)
	rapid.Check(t, func(t *rapid.T) {
		rec := rec
		rec.Steps = nil
		for range rapid.IntRange(1, 4).Draw(t, "steps") {
			rec.Steps = append(rec.Steps, recipe.Step{Text: capital(drawStep(t))})
		}
		omitted := map[int]bool{}
		var changes []LineChange
		for _, i := range rapid.SliceOfNDistinct(rapid.IntRange(0, len(pool)-1), 1, 5, rapid.ID[int]).Draw(t, "omitted") {
			omitted[i] = true
			changes = append(changes, LineChange{i, option(swap.Omit)})
		}
		after, notes := rewrite(rec, lines, changes)
		for i, ms := range Mentions(after, lines) {
			for _, m := range ms {
				stays := !omitted[m.Line]
				for _, o := range m.Others {
					stays = stays || !omitted[o]
				}
				assert.True(t, stays, "%q is still in %q\nof %q", m.Words, after[i].Text, texts(rec.Steps))
			}
			seams(t, after[i].Text)
		}
		keptAreSaid(t, rec, after, notes, omitted)
	})
}

func seams(t *rapid.T, text string) {
	for _, seam := range []string{"  ", " ,", " .", ",,", ",.", " ;", "and.", "and,", "and and", "with.", "the.", "()"} {
		assert.NotContains(t, text, seam)
	}
	assert.NotEmpty(t, strings.TrimSpace(text))
	first := []rune(text)[0]
	assert.False(t, unicode.IsLower(first), "%q does not start a sentence", text)
}

// A food that stays is still said by some step, or a note says that it is not.
func keptAreSaid(t *rapid.T, rec recipe.Recipe, after []recipe.Step, notes []string, omitted map[int]bool) {
	_, lines := dish()
	for _, l := range rec.Lines {
		lines = append(lines, line(l.Reading.Text))
	}
	said := func(steps []recipe.Step) map[int]bool {
		out := map[int]bool{}
		for _, ms := range Mentions(steps, lines) {
			for _, m := range ms {
				out[m.Line] = true
				for _, o := range m.Others {
					out[o] = true
				}
			}
		}
		return out
	}
	before, now := said(rec.Steps), said(after)
	for i := range lines {
		if before[i] && !now[i] && !omitted[i] {
			assert.Contains(t, strings.Join(notes, " "), lines[i].Reading.Food)
		}
	}
}

// A step that names no changed line, whatever else stands in it, is not touched.
func TestUntouchedStepsAreByteForByteTheSame(t *testing.T) {
	rec, lines := dish("1/2 teaspoon salt", "1 cup rice")
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		rec := rec
		rec.Steps = steps(text)
		if strings.TrimSpace(text) == "" || len(Mentions(rec.Steps, lines)[0]) > 0 {
			t.Skip("speaks of a line, or of nothing")
		}
		after, _ := rewrite(rec, lines, []LineChange{{0, option(swap.Omit)}, {1, option(swap.Reduce, "1/2 cup rice")}})
		require.Equal(t, rec.Steps, after)
	})
}

func FuzzRewrite(f *testing.F) {
	for _, p := range patterns {
		f.Add(strings.ReplaceAll(p, "#", "the salt"), "chicken broth", "1/2 cup of the butter")
	}
	f.Add("Add 1/2 cup of the broth, ½ tsp. salt (to taste); stir…", "4 cups\tbroth", "\xff\x00and, and")
	rec, lines := dish("1/2 teaspoon salt", "4 cups chicken broth", "2 tablespoons butter", "1 onion")
	f.Fuzz(func(t *testing.T, first, second, third string) {
		if len(first)+len(second)+len(third) > 4000 {
			t.Skip("long texts only take long")
		}
		rec := rec
		rec.Steps = steps(first, second, third)
		move := option(swap.Reduce, "1 cup chicken broth")
		move.Rule.Method = []swap.MethodEdit{{Do: "move", At: "end", Text: second}, {Do: "drop", Find: third}, {Do: "replace", Find: third, Text: "x"}}
		for _, changes := range [][]LineChange{
			{{0, option(swap.Omit)}, {2, option(swap.Replace, "1 tablespoon oil", "1 tablespoon water")}},
			{{1, move}, {3, option(swap.ToTable, "1 onion")}, {7, option(swap.Omit)}},
			nil,
		} {
			after, _ := rewrite(rec, lines, changes)
			for _, s := range after {
				if strings.TrimSpace(s.Text) == "" {
					t.Errorf("an empty step of %q", texts(rec.Steps))
				}
				if utf8.ValidString(first+second+third) && !utf8.ValidString(s.Text) {
					t.Errorf("%q is no text", s.Text)
				}
			}
		}
		Times(rec.Steps)
	})
}

// Names of plain letters take a shorter way to the same words.
func TestWordsOfPlainNamesAreThoseOfTheLexer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		phrase := rapid.StringMatching(`[a-zA-Z ,./()\-'0-9é½]{0,30}`).Draw(t, "phrase")
		var want []string
		tokens, _ := lex(phrase)
		for _, tok := range tokens {
			if tok.word {
				want = append(want, tok.norm)
			}
		}
		assert.Equal(t, strings.Join(want, "|"), strings.Join(words(phrase), "|"))
	})
}
