package recipe_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

// recipeOf is a recipe of these ingredient lines.
func recipeOf(lines ...string) recipe.Recipe {
	r := recipe.Recipe{Title: "Soup", Servings: 2}
	for _, l := range lines {
		r.Lines = append(r.Lines, recipe.Line{Reading: ingredient.Read(l)})
	}
	return r
}

// said is what is corrected, line by line: the food, "" for nothing.
func said(r recipe.Recipe) []string {
	out := make([]string, len(r.Lines))
	for i, l := range r.Lines {
		if l.Fix != nil {
			out[i] = l.Fix.FoodID
		}
	}
	return out
}

func food(words, id string) recipe.LineCorrection {
	return recipe.LineCorrection{Words: words, Correction: recipe.Correction{FoodID: id}}
}

func TestACorrectionSpeaksOfItsOwnWordsAlone(t *testing.T) {
	milk2 := recipe.LineCorrection{Words: "1 cup milk", Nth: 2, Of: 2, Correction: recipe.Correction{FoodID: "sr:2"}}
	for name, c := range map[string]struct {
		lines  []string
		given  []recipe.LineCorrection
		want   []string
		strays int
	}{
		"its line":                         {[]string{"1 onion", "1 cup milk"}, []recipe.LineCorrection{food("1 cup milk", "sr:1")}, []string{"", "sr:1"}, 0},
		"other spacing":                    {[]string{"1  cup\tmilk "}, []recipe.LineCorrection{food("1 cup milk", "sr:1")}, []string{"sr:1"}, 0},
		"the second of two":                {[]string{"1 cup milk", "1 onion", "1 cup milk"}, []recipe.LineCorrection{milk2}, []string{"", "", "sr:2"}, 0},
		"the line is a heading now":        {[]string{"1 onion", "2 cups rice"}, []recipe.LineCorrection{food("For the sauce", "sr:1")}, []string{"", ""}, 1},
		"another amount":                   {[]string{"2 cups milk"}, []recipe.LineCorrection{food("1 cup milk", "sr:1")}, []string{""}, 1},
		"one of two is gone":               {[]string{"1 cup milk", "1 onion"}, []recipe.LineCorrection{milk2}, []string{"", ""}, 1},
		"the words stand twice now":        {[]string{"1 cup milk", "1 cup milk"}, []recipe.LineCorrection{food("1 cup milk", "sr:1")}, []string{"", ""}, 1},
		"two for one line":                 {[]string{"1 cup milk"}, []recipe.LineCorrection{food("1 cup milk", "sr:1"), food("1 cup milk", "sr:2")}, []string{"sr:1"}, 1},
		"no words":                         {[]string{"1 cup milk"}, []recipe.LineCorrection{{At: 1, Correction: recipe.Correction{FoodID: "sr:1"}}}, []string{""}, 1},
		"a number that no words can have":  {[]string{"1 cup milk"}, []recipe.LineCorrection{{Words: "1 cup milk", Nth: -3, Of: -1, Correction: recipe.Correction{FoodID: "sr:1"}}}, []string{"sr:1"}, 0},
		"a number past those of the words": {[]string{"1 cup milk"}, []recipe.LineCorrection{{Words: "1 cup milk", Nth: 7, Of: 1, Correction: recipe.Correction{FoodID: "sr:1"}}}, []string{""}, 1},
	} {
		r := recipeOf(c.lines...)
		r.Correct(c.given)
		assert.Equal(t, c.want, said(r), name)
		assert.Len(t, r.Strays, c.strays, name)
		assert.Len(t, r.Corrections(), len(c.given), name+": none is lost")
	}
}

func TestAStrayIsToldWithTheWordsItWasMadeFor(t *testing.T) {
	assert.Equal(t, "The correction made for “1 cup milk” no longer has its line, so it is not used.", food("1 cup milk", "sr:1").Stray())
	assert.Contains(t, recipe.LineCorrection{Words: "1 cup milk", Nth: 2, Of: 2}.Stray(), "“1 cup milk”, number 2 of 2 with these words")
	assert.Contains(t, recipe.LineCorrection{At: 4}.Stray(), "what once was ingredient 4")
}

// foodOf is a line's food, one or several of it.
func foodOf(l recipe.Line) string { return strings.Join(composition.Words(l.Reading.Food), " ") }

// Whatever lines a recipe has, its corrections find their lines again, and in a recipe
// whose lines are shuffled, left out and added to, none speaks of other words.
func TestCorrectionsNeverSpeakOfOtherWords(t *testing.T) {
	lines := []string{"1 cup milk", "2 cups milk", "1 onion", "salt", "2 onions", "1 can beans"}
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string) recipe.Recipe {
			return recipeOf(rapid.SliceOfN(rapid.SampledFrom(lines), 1, 8).Draw(t, label)...)
		}
		was, is := draw("was"), draw("is")
		for i := range was.Lines {
			if rapid.Bool().Draw(t, "corrected") {
				grams := spread.Exact(float64(i + 1))
				was.Lines[i].Fix = &recipe.Correction{FoodID: foodOf(was.Lines[i]), Grams: &grams}
			}
		}
		again := recipeOf()
		for _, l := range was.Lines {
			again.Lines = append(again.Lines, recipe.Line{Reading: l.Reading})
		}
		again.Correct(was.Corrections())
		require.Equal(t, was.Lines, again.Lines)
		require.Empty(t, again.Strays)

		carried := recipe.Carried(was, is)
		is.Correct(carried)
		for _, l := range is.Lines {
			if l.Fix != nil {
				require.Equal(t, foodOf(l), l.Fix.FoodID)
			}
		}
		require.GreaterOrEqual(t, len(carried), len(was.Corrections()), "none is lost")
	})
}

func TestACorrectionStaysWithItsLineWhenTheTextIsChanged(t *testing.T) {
	grams := spread.Exact(400)
	beans := recipe.Correction{FoodID: "sr:1"}
	broth := recipe.Correction{FoodID: "sr:2", Grams: &grams}
	for name, c := range map[string]struct {
		is     []string
		want   []string
		weight float64 // of the broth, 0 where it has none
		strays []string
	}{
		"a line above it":                {[]string{"1 onion", "1 can beans", "2 cups broth"}, []string{"", "sr:1", "sr:2"}, 400, nil},
		"above it, and another amount":   {[]string{"1 onion", "1 can beans", "4 cups broth"}, []string{"", "sr:1", "sr:2"}, 800, nil},
		"the other way round":            {[]string{"2 cups broth", "1 can beans"}, []string{"sr:2", "sr:1"}, 400, nil},
		"one of them more":               {[]string{"2 cans beans", "2 cups broth"}, []string{"sr:1", "sr:2"}, 400, nil},
		"another food in its place":      {[]string{"1 can beans", "2 cups milk"}, []string{"sr:1", ""}, 0, []string{"2 cups broth"}},
		"another amount in another unit": {[]string{"1 can beans", "1 carton broth"}, []string{"sr:1", "sr:2"}, 0, []string{"2 cups broth"}},
		"two that may be meant":          {[]string{"1 can beans", "1 cup broth", "3 cups broth"}, []string{"sr:1", "", ""}, 0, []string{"2 cups broth"}},
		"cooked now":                     {[]string{"1 can cooked beans", "2 cups broth"}, []string{"", "sr:2"}, 400, []string{"1 can beans"}},
		"a larger can":                   {[]string{"1 (28 oz) can beans", "2 cups broth"}, []string{"", "sr:2"}, 400, []string{"1 can beans"}},
	} {
		was := recipeOf("1 can beans", "2 cups broth")
		was.Lines[0].Fix, was.Lines[1].Fix = &beans, &broth
		is := recipeOf(c.is...)
		is.Correct(recipe.Carried(was, is))
		assert.Equal(t, c.want, said(is), name)
		var strays []string
		for _, s := range is.Strays {
			strays = append(strays, s.Words)
		}
		assert.Equal(t, c.strays, strays, name)
		for _, l := range is.Lines {
			if l.Fix != nil && l.Fix.FoodID == "sr:2" && c.weight > 0 {
				assert.InDelta(t, c.weight, l.Fix.Grams.Mid, 1e-9, name)
			}
		}
	}
}

func TestWhatWasKeptByNumberIsTiedWithoutGuessing(t *testing.T) {
	const text = "Soup\n\nIngredients\n1 can beans\n2 cups broth\n1 onion\n"
	fix := map[int]recipe.Correction{1: {FoodID: "sr:2"}}
	change := func(line int, from string) recipe.Change {
		return recipe.Change{Line: line, From: from, To: []string{from}}
	}
	for name, c := range map[string]struct {
		later []recipe.Change // made to the text by the next version
		fixes map[int]recipe.Correction
		want  []recipe.LineCorrection
	}{
		"nothing is known but today's reading": {nil, fix, []recipe.LineCorrection{food("2 cups broth", "sr:2")}},
		"a change names the line as today":     {[]recipe.Change{change(1, "2 cups broth")}, fix, []recipe.LineCorrection{food("2 cups broth", "sr:2")}},
		"it names another: the text was read otherwise": {[]recipe.Change{change(1, "1 can beans")}, fix,
			[]recipe.LineCorrection{food("1 can beans", "sr:2")}},
		"others are named otherwise": {[]recipe.Change{change(2, "2 cups broth"), {Line: -1, From: "Cook."}}, fix,
			[]recipe.LineCorrection{{At: 2, Correction: fix[1]}}},
		"a line that is a heading today": {[]recipe.Change{change(1, "For the pot:")}, fix,
			[]recipe.LineCorrection{food("For the pot:", "sr:2")}},
		"more lines than there are": {nil, map[int]recipe.Correction{9: {Skip: true}}, []recipe.LineCorrection{{At: 10, Correction: recipe.Correction{Skip: true}}}},
		"two changes disagree":      {[]recipe.Change{change(1, "1 can beans"), change(1, "1 onion")}, fix, []recipe.LineCorrection{{At: 2, Correction: fix[1]}}},
	} {
		vs := []recipe.Version{{ID: 1, Text: text}, {ID: 2, ParentID: 1, Text: "Soup\n\n1 onion", Changes: c.later}}
		recipe.TieNumbered(vs, map[int64]map[int]recipe.Correction{1: c.fixes})
		assert.Equal(t, c.want, vs[0].Corrections, name)
		assert.Empty(t, vs[1].Corrections, name)
	}
	unread := []recipe.Version{{ID: 1, Text: "\n"}}
	recipe.TieNumbered(unread, map[int64]map[int]recipe.Correction{1: fix})
	assert.Equal(t, []recipe.LineCorrection{{At: 2, Correction: fix[1]}}, unread[0].Corrections, "a text that no longer reads")
}
