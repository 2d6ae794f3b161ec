package recipe_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/diagnostic"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"
)

func texts(r recipe.Recipe) []string {
	var out []string
	for _, l := range r.Lines {
		out = append(out, l.Reading.Text)
	}
	return out
}

func steps(r recipe.Recipe) []string {
	var out []string
	for _, s := range r.Steps {
		out = append(out, s.Text)
	}
	return out
}

const headed = "Bean Soup\r\n\r\nPrep time: 20 minutes\r\nServes 6\r\n\r\nIngredients:\r\n• 1\u00a0tablespoon olive oil\r\n• 1 onion, chopped\r\n" +
	"\r\nFor the topping:\r\n• 1/4 cup Parmesan cheese\r\n• salt and pepper to taste\r\n\r\nDirections:\r\n1. Heat the oil.\r\n2) Cook the onion\r\nuntil soft.\r\n\r\nNotes\r\nKeeps for three days.\r\n"

func TestARecipeWithHeadings(t *testing.T) {
	r, err := recipe.Parse(headed)
	require.NoError(t, err)
	assert.Equal(t, "Bean Soup", r.Title)
	assert.Equal(t, 6.0, r.Servings)
	assert.False(t, r.ServingsAssumed)
	assert.Equal(t, "Serves 6", r.YieldText)
	assert.Equal(t, []string{"1\u00a0tablespoon olive oil", "1 onion, chopped", "1/4 cup Parmesan cheese", "salt and pepper to taste"}, texts(r))
	assert.Equal(t, "For the topping", r.Lines[2].Section)
	assert.Equal(t, 7, r.Lines[0].SourceLine)
	assert.Equal(t, "olive oil", r.Lines[0].Reading.Food)
	assert.Equal(t, []string{"Heat the oil.", "Cook the onion until soft."}, steps(r))
	assert.Equal(t, []string{"Prep time: 20 minutes", "Keeps for three days."}, r.Notes)
	assert.Equal(t, headed, r.Text)
}

const bare = `Lemon rice
2 cups cooked brown rice
1 lemon, juiced
1/2 teaspoon salt
fresh parsley (optional)

Warm the rice in a pan with two spoons of water.
Stir in the lemon juice and the salt, then taste.

Scatter the parsley over it. Serve at once.
`

func TestARecipeWithoutHeadings(t *testing.T) {
	r, err := recipe.Parse(bare)
	require.NoError(t, err)
	assert.Equal(t, "Lemon rice", r.Title)
	assert.Equal(t, 4.0, r.Servings)
	assert.True(t, r.ServingsAssumed)
	require.NotEmpty(t, r.Notes)
	assert.Contains(t, r.Notes[len(r.Notes)-1], "4 is assumed")
	assert.Len(t, r.Lines, 4)
	assert.Equal(t, []string{
		"Warm the rice in a pan with two spoons of water.", "Stir in the lemon juice and the salt, then taste.",
		"Scatter the parsley over it. Serve at once.",
	}, steps(r))
}

func TestHowManyItServes(t *testing.T) {
	cases := []struct {
		line     string
		servings float64
	}{
		{"Serves 4", 4}, {"Makes 6 servings", 6}, {"Yield: 12 muffins", 12}, {"Servings: 4-6", 5}, {"4 portions", 4},
		{"SERVES: 8", 8}, {"Serves 4 to 6", 5}, {"Yield: 6 cups (8 servings)", 8}, {"Makes 2 dozen", 24}, {"Yields about 10", 10},
		{"**Servings:** 3", 3}, {"For 4 people", 4}, {"Number of servings: 5", 5}, {"Serves four", 4},
		{"Prep 10 min | Cook 25 min | 6 servings (1 1/3 cups each)", 6}, {"makes 8 small pancakes (2 per person)", 4},
		{"Makes 24 cookies (2 per serving)", 12}, {"16 bars", 16}, {"Prep 15 m  Cook 6 h  Serves 8", 8}, {"Cook 40 mins Makes 12 muffins", 12}, {"Makes 1 loaf (12 slices)", 12}, {"Makes one 9-inch pie, 8 servings", 8}, {"Makes 12 small pies", 12},
		{"For 2", 2}, {"For two", 2}, {"for 3 bowls", 3}, {"4-6 porcje (serves 4 to 6)", 5},
	}
	for _, c := range cases {
		r, err := recipe.Parse("Dish\n" + c.line + "\n1 cup rice\n2 cups water\n")
		require.NoError(t, err, c.line)
		assert.Equal(t, c.servings, r.Servings, c.line)
		assert.Equal(t, c.line, r.YieldText)
		assert.Len(t, r.Lines, 2, c.line)
	}
	for _, line := range []string{"Makes 6 cups", "Makes 1 loaf", "Makes one 9-inch pie", "Yield: 2 loaves"} {
		r, err := recipe.Parse("Dish\n" + line + "\n1 cup rice\n")
		require.NoError(t, err)
		assert.True(t, r.ServingsAssumed, line)
		assert.Equal(t, 4.0, r.Servings, line)
	}
}

func TestTheLastSentenceMaySayHowManyItServes(t *testing.T) {
	for last, want := range map[string]float64{
		"Bake 20 minutes. Makes 12 brownies.": 12, "Makes 2 dozen.": 24, "Chill, then serve. Serves 6": 6, "Serves 4 to 6.": 5, "Slice. Makes one loaf, about 10 slices.": 10,
	} {
		r, err := recipe.Parse("Bread\n\n1 cup cornmeal\n1 lemon\n\nMix all.\n\n" + last + "\n")
		require.NoError(t, err, last)
		assert.Equal(t, want, r.Servings, last)
		assert.False(t, r.ServingsAssumed, last)
	}
	r, err := recipe.Parse("Bread\n\n1 cup cornmeal\n1 lemon\n\nMix all. Makes 6 cups of dough.\n")
	require.NoError(t, err)
	assert.True(t, r.ServingsAssumed)
}

func TestWithoutServingsThePiecesTheDishIsCutIntoAreCounted(t *testing.T) {
	for last, want := range map[string]float64{
		"Bake 20 minutes. Cut into 9 squares.":                   9,
		"Cool in the pan, then cut into 16 bars.":                16,
		"Cool and slice into 8 to 10 slices to serve.":           9,
		"Bake. Cut the loaf into 12 slices.":                     12,
		"Bake. Cut the lemon into 8 wedges and serve with them.": 4,
		"Serve with the lemon, cut into 8 wedges.":               4,
		"Cut into 1-inch squares.":                               4,
		"Cut each bun into 2 pieces.":                            4,
	} {
		r, err := recipe.Parse("Bread\n\n1 cup cornmeal\n1 lemon\n\nMix all.\n\n" + last + "\n")
		require.NoError(t, err, last)
		assert.Equal(t, want, r.Servings, last)
		assert.True(t, r.ServingsAssumed, last)
		assert.Contains(t, r.Notes[len(r.Notes)-1], "does not say how many it serves", last)
	}
}

func TestATitleMaySayHowManyItServes(t *testing.T) {
	for first, want := range map[string]struct {
		title    string
		servings float64
	}{
		"Carrot cupcakes (makes 12)": {"Carrot cupcakes", 12},
		"Soup (serves 4 to 6)":       {"Soup", 5},
		"Soup (quick)":               {"Soup (quick)", 4},
		"# Soup (for 2 people)":      {"Soup", 2},
	} {
		r, err := recipe.Parse(first + "\n\n1 cup rice\n2 cups water\n")
		require.NoError(t, err, first)
		assert.Equal(t, want.title, r.Title, first)
		assert.Equal(t, want.servings, r.Servings, first)
	}
}

func TestPartsOfADishNeedNoColon(t *testing.T) {
	r, err := recipe.Parse("Cupcakes\nDry\n1 cup flour\nWet\n2 eggs\nFrosting\n1 cup sugar\n")
	require.NoError(t, err)
	require.Len(t, r.Lines, 3)
	assert.Equal(t, []string{"Dry", "Wet", "Frosting"}, []string{r.Lines[0].Section, r.Lines[1].Section, r.Lines[2].Section})
}

func TestTextThatIsNoRecipe(t *testing.T) {
	cases := []struct {
		name, text, problem string
		line                int
	}{
		{"empty", " \n\u00a0\n", "the text is empty", 0},
		{"binary", "PNG\n\x00\x01", "a byte that no text has", 2},
		{"mostly control characters", strings.Repeat("\x01\x02a", 50), "not text", 0},
		{"too long", strings.Repeat("a", 5<<20), "the text is 5 MB; a recipe is at most 1 MB", 0},
		{"too many lines", "A\n" + strings.Repeat("1 cup rice\n", 151), "ingredient line 151; a recipe has at most 150", 152},
		{"too many steps", "A\n\nIngredients\n1 cup rice\n\nMethod\n" + strings.Repeat("Stir.\n\n", 300), "this is step 201; a recipe has at most 200", 409},
		{"a line without end", "A\n\nIngredients\n1 cup rice\n\nMethod\n" + strings.Repeat("Stir. ", 1000), "a line of a recipe has at most 5000", 7},
		{"a text of many pages", "A\n\nIngredients\n1 cup rice\n\nMethod\n" + strings.Repeat(strings.Repeat("Stir. ", 500)+"\n\n", 30), "a recipe has at most 60000", 0},
		{"no ingredients", "A title\n\nThis is a story about a kitchen and its cook, who had no food at all.\n", "no ingredient line", 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := recipe.Parse(c.text)
			var faults diagnostic.Faults
			require.True(t, errors.As(err, &faults))
			assert.Contains(t, faults[0].Problem, c.problem)
			assert.Equal(t, c.line, faults[0].Line)
			assert.NotEmpty(t, faults[0].Expected)
		})
	}
}

func same(t require.TestingT, want, got recipe.Recipe) {
	require.Equal(t, want.Title, got.Title)
	require.Equal(t, want.Servings, got.Servings)
	require.Equal(t, want.ServingsAssumed, got.ServingsAssumed)
	require.Equal(t, want.Steps, got.Steps)
	require.Equal(t, len(want.Lines), len(got.Lines))
	for i := range want.Lines {
		require.Equal(t, want.Lines[i].Section, got.Lines[i].Section)
		require.Equal(t, want.Lines[i].Reading, got.Lines[i].Reading)
	}
}

func TestTextOfARecipeReadsBackTheSame(t *testing.T) {
	for _, text := range []string{headed, bare} {
		r, err := recipe.Parse(text)
		require.NoError(t, err)
		again, err := recipe.Parse(recipe.Text(r))
		require.NoError(t, err)
		same(t, r, again)
	}
	lines := []string{"1 cup rice", "2 (15 oz) cans black beans, drained", "salt to taste", "½ onion", "cooking spray", "chicken broth", "oil for frying", "juice of 1 lemon", "bay leaf", "Parsley, if you like"}
	sentences := []string{"Stir.", "Heat the oil in a pan.", "Cook 5 minutes, until soft. Add the beans.", "Serve with 2 cups of rice.", "1 cup of water goes in now.", "Makes a thick soup.", "Note: it is hot."}
	sections := []string{"", "For the sauce", "Topping"}
	rapid.Check(t, func(t *rapid.T) {
		r := recipe.Recipe{Title: rapid.SampledFrom([]string{"Soup", "Two-bean stew", "Grandmother's 3 cheese bake"}).Draw(t, "title")}
		r.Servings = float64(rapid.IntRange(1, 24).Draw(t, "servings"))
		last := ""
		for _, l := range rapid.SliceOfN(rapid.SampledFrom(lines), 1, 8).Draw(t, "lines") {
			if rapid.Bool().Draw(t, "section") {
				last = rapid.SampledFrom(sections).Draw(t, "name")
			}
			r.Lines = append(r.Lines, recipe.Line{Section: last, Reading: ingredient.Read(l)})
		}
		last = ""
		for _, s := range rapid.SliceOfN(rapid.SampledFrom(sentences), 0, 6).Draw(t, "steps") {
			if rapid.Bool().Draw(t, "section of the step") {
				last = rapid.SampledFrom(sections).Draw(t, "name")
			}
			r.Steps = append(r.Steps, recipe.Step{Section: last, Text: s})
		}
		again, err := recipe.Parse(recipe.Text(r))
		require.NoError(t, err)
		same(t, r, again)
	})
}

func TestDifferencesOfTwoRecipes(t *testing.T) {
	a, err := recipe.Parse("Soup\n1 cup rice\n1 tsp salt\n2 onions\n\nCook the rice in water.\n")
	require.NoError(t, err)
	b, err := recipe.Parse("Soup\n1 cup rice\n1/4 tsp salt\n2 onions\n1 carrot\n\nCook the rice in water.\n")
	require.NoError(t, err)
	lines, stepDiff := recipe.Diff(a, b)
	assert.Equal(t, []recipe.Difference{
		{Kind: recipe.Same, From: "1 cup rice", To: "1 cup rice", FromIndex: 0, ToIndex: 0},
		{Kind: recipe.Changed, From: "1 tsp salt", To: "1/4 tsp salt", FromIndex: 1, ToIndex: 1},
		{Kind: recipe.Same, From: "2 onions", To: "2 onions", FromIndex: 2, ToIndex: 2},
		{Kind: recipe.Added, To: "1 carrot", FromIndex: -1, ToIndex: 3},
	}, lines)
	require.Len(t, stepDiff, 1)
	assert.Equal(t, recipe.Same, stepDiff[0].Kind)
}

func TestDifferencesRestoreBothTexts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) recipe.Recipe {
			var r recipe.Recipe
			for _, l := range rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c", "d"}), 0, 7).Draw(t, name) {
				r.Lines = append(r.Lines, recipe.Line{Reading: ingredient.Reading{Text: l}})
			}
			return r
		}
		a, b := draw("a"), draw("b")
		lines, _ := recipe.Diff(a, b)
		var from, to []string
		for _, d := range lines {
			if d.FromIndex >= 0 {
				from = append(from, d.From)
			}
			if d.ToIndex >= 0 {
				to = append(to, d.To)
			}
		}
		require.Equal(t, texts(a), from)
		require.Equal(t, texts(b), to)
	})
}

func FuzzParse(f *testing.F) {
	f.Add(headed)
	f.Add(bare)
	f.Add("Ingredients\n\n:\n1.\n#\n")
	f.Add("1 cup x\nMethod: a")
	f.Fuzz(func(t *testing.T, text string) {
		r, err := recipe.Parse(text)
		if err == nil && (len(r.Lines) == 0 || r.Servings <= 0 || r.Title == "") {
			t.Fatalf("a recipe without lines, servings or title from %q", text)
		}
	})
}
