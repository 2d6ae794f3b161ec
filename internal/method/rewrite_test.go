package method

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"
	"potwright/internal/swap"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// line is an ingredient line read, without a food: names come from the words.
func line(text string) foodmatch.Matched {
	return foodmatch.Matched{Reading: ingredient.Read(text), State: foodmatch.Read}
}

func dish(lines ...string) (recipe.Recipe, []foodmatch.Matched) {
	rec := recipe.Recipe{Title: "Test", Servings: 4}
	var ms []foodmatch.Matched
	for _, l := range lines {
		m := line(l)
		rec.Lines = append(rec.Lines, recipe.Line{Reading: m.Reading})
		ms = append(ms, m)
	}
	return rec, ms
}

func steps(texts ...string) []recipe.Step {
	var out []recipe.Step
	for _, t := range texts {
		out = append(out, recipe.Step{Text: t})
	}
	return out
}

func texts(steps []recipe.Step) []string {
	var out []string
	for _, s := range steps {
		out = append(out, s.Text)
	}
	return out
}

func rewrite(rec recipe.Recipe, lines []foodmatch.Matched, changes []LineChange) ([]recipe.Step, []string) {
	r := Rewrite(rec, lines, changes)
	return r.Steps, r.Notes()
}

// option is what a rule would open: the new lines, or none.
func option(do swap.Action, news ...string) swap.Option {
	o := swap.Option{Rule: &swap.Rule{ID: "test", Do: do}}
	if do == swap.ToTable {
		o.AtTable = news
		return o
	}
	for _, n := range news {
		o.Text, o.Lines = append(o.Text, n), append(o.Lines, line(n))
		o.Rule.With = append(o.Rule.With, swap.Ingredient{Food: n})
	}
	return o
}

// golden is a case file: lines, method, changes, and the result after "== after".
type golden struct {
	given   string
	rec     recipe.Recipe
	lines   []foodmatch.Matched
	changes []LineChange
	want    string
}

func readGolden(t *testing.T, path string) golden {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	given, want, _ := strings.Cut(string(raw), "== after\n")
	g := golden{given: given, want: want}
	sections := map[string][]string{}
	section := ""
	for _, l := range strings.Split(strings.TrimSpace(given), "\n") {
		if name, ok := strings.CutPrefix(l, "== "); ok {
			section = name
			continue
		}
		sections[section] = append(sections[section], l)
	}
	g.rec, g.lines = dish(sections["lines"]...)
	g.rec.Steps = steps(sections["method"]...)
	for _, l := range sections["changes"] {
		g.change(t, l)
	}
	return g
}

// change reads "omit: LINE", "replace: LINE => NEW | NEW" and
// "edit: LINE => add end: TEXT".
func (g *golden) change(t *testing.T, text string) {
	t.Helper()
	do, rest, _ := strings.Cut(text, ": ")
	old, new, _ := strings.Cut(rest, " => ")
	at := -1
	for i, l := range g.lines {
		if l.Reading.Text == old {
			at = i
		}
	}
	require.GreaterOrEqual(t, at, 0, "no line %q", old)
	if do == "edit" {
		kind, words, _ := strings.Cut(new, ": ")
		verb, place, _ := strings.Cut(kind, " ")
		edit := swap.MethodEdit{Do: verb, At: place, Text: words}
		if verb == "replace" {
			edit.Find, edit.At = place, ""
		}
		for i := range g.changes {
			if g.changes[i].Line == at {
				g.changes[i].Option.Rule.Method = append(g.changes[i].Option.Rule.Method, edit)
				return
			}
		}
		o := option(swap.Replace, old)
		o.Rule.Method = []swap.MethodEdit{edit}
		g.changes = append(g.changes, LineChange{at, o})
		return
	}
	var news []string
	if new != "" {
		news = strings.Split(new, " | ")
	}
	g.changes = append(g.changes, LineChange{at, option(swap.Action(do), news...)})
}

func TestRewriteOfWholeRecipes(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/method/*.txt")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			g := readGolden(t, path)
			after, notes := rewrite(g.rec, g.lines, g.changes)
			got := strings.Join(texts(after), "\n") + "\n"
			if len(notes) > 0 {
				got += "== notes\n" + strings.Join(notes, "\n") + "\n"
			}
			if *update {
				require.NoError(t, os.WriteFile(path, []byte(g.given+"== after\n"+got), 0o644))
				return
			}
			assert.Equal(t, g.want, got)
		})
	}
}

// What is saved is the recipe's text: the rewritten steps must read back from it.
func TestRewrittenStepsReadBackFromTheText(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/method/*.txt")
	require.NoError(t, err)
	for _, path := range paths {
		g := readGolden(t, path)
		after := g.rec
		after.Steps, _ = rewrite(g.rec, g.lines, g.changes)
		again, err := recipe.Parse(recipe.Text(after))
		require.NoError(t, err, path)
		assert.Equal(t, texts(after.Steps), texts(again.Steps), path)
	}
}

func TestOmittedFoodsLeaveTheSentence(t *testing.T) {
	for _, c := range []struct{ before, after string }{
		{"Add the salt, pepper and thyme.", "Add the pepper and thyme."},
		{"Add the pepper, salt and thyme.", "Add the pepper and thyme."},
		{"Add the pepper, salt, and thyme.", "Add the pepper and thyme."},
		{"Add the pepper, thyme and salt.", "Add the pepper and thyme."},
		{"Add pepper, onion, thyme, and salt.", "Add pepper, onion and thyme."},
		{"Add the salt and thyme.", "Add the thyme."},
		{"Add thyme and 1/2 teaspoon salt.", "Add thyme."},
		{"Add the onion, thyme, salt and pepper to the pot.", "Add the onion, thyme and pepper to the pot."},
		{"Season with salt.", ""},
		{"Season with salt and pepper.", "Season with pepper."},
		{"Season with salt and pepper to taste.", "Season with pepper to taste."},
		{"Season the chicken with salt. Cook it.", "Cook it."},
		{"Season to taste with salt; serve.", "Serve."},
		{"Salt the water, then boil the rice in it.", "Boil the rice in the water."},
		{"Grind and add the salt.", ""},
		{"Add the onion, cover; add the salt, 5 minutes.", "Add the onion, cover."},
		{"Add the salt with its juice, pepper and thyme.", "Add the pepper and thyme."},
		{"Stir in the onion, then thyme and salt; boil.", "Stir in the onion, then thyme; boil."},
		{"Add the salt, thyme, and onion to the pot.", "Add the thyme and onion to the pot."},
		{"The onion and salt go in.", "The onion goes in."},
		{"Stir the salt mixture.", "Stir the mixture."},
		{"Stir in the (coarse) salt. Taste it.", "Taste it."},
		{"Boil the rice in salted water.", "Boil the rice in salted water."},
		{"Cook the rice without salt.", "Cook the rice without salt."},
		{"Stir in the salt and cook 1 minute.", "Cook 1 minute."},
		{"Stir the onion, then add the salt and set it aside.", "Stir the onion."},
		{"Stir the onion, add the salt, and cook 5 minutes.", "Stir the onion, and cook 5 minutes."},
		{"In a large bowl, mix the salt and thyme.", "In a large bowl, mix the thyme."},
		{"In a large bowl, beat the salt; add the onion.", "Add the onion."},
		{"Cook until the salt dissolves.", "Cook."},
		{"Once the salt has dissolved, add the onion.", "Add the onion."},
		{"Mix onion, salt, pepper, and thyme", "Mix onion, pepper, and thyme"},
		{"Rub the chicken with the salt and bake 20 minutes.", "Bake 20 minutes."},
		{"Bake 20 minutes.", "Bake 20 minutes."},
	} {
		t.Run(c.before, func(t *testing.T) {
			rec, lines := dish("1/2 teaspoon salt", "1/4 teaspoon black pepper", "1 teaspoon dried thyme", "1 onion, chopped", "1 pound chicken breast", "1 cup rice")
			rec.Steps = steps(c.before)
			after, _ := rewrite(rec, lines, []LineChange{{0, option(swap.Omit)}})
			assert.Equal(t, c.after, strings.Join(texts(after), "|"))
		})
	}
}

func TestReplacedFoodsTakeTheNewWords(t *testing.T) {
	for _, c := range []struct {
		old           string
		news          []string
		before, after string
	}{
		{"4 cups chicken broth", []string{"4 cups vegetable broth"}, "Add 1/2 cup of the broth.", "Add 1/2 cup of the vegetable broth."},
		{"4 cups chicken broth", []string{"2 cups water"}, "Add the remaining 1/2 cup of the broth and stir.", "Add the remaining 1/4 cup of the water and stir."},
		{"4 cups chicken broth", []string{"1 can tomatoes"}, "Add 1/2 cup of the broth and stir.", "Add the tomatoes and stir."},
		{"4 cups chicken broth", []string{"4 cups vegetable broth"}, "Pour in the chicken broth.", "Pour in the vegetable broth."},
		{"1 cup heavy cream", []string{"3/4 cup milk", "1/4 cup butter"}, "Add 1/2 cup of the cream.", "Add 6 tbsp milk and 2 tbsp butter."},
		{"1 cup heavy cream", []string{"3/4 cup milk", "1/4 cup butter"}, "Stir in the cream.", "Stir in the milk and butter."},
		{"1 cup heavy cream", []string{"3/4 cup milk", "1/4 cup butter"}, "Add the cream, thyme and salt.", "Add the milk, butter, thyme and salt."},
		{"1 cup heavy cream", []string{"3/4 cup milk", "1/4 cup butter"}, "Add the thyme and cream.", "Add the thyme, milk and butter."},
		{"2 large potatoes", []string{"1 head cauliflower"}, "Cook until the potatoes are tender.", "Cook until the cauliflower is tender."},
		{"1 lemon", []string{"1 orange"}, "Cut a lemon in wedges.", "Cut an orange in wedges."},
		{"1/3 cup butter", []string{"1/4 cup olive oil"}, "Butter the pan; add the melted butter.", "Grease the pan; add the olive oil."},
		{"1/3 cup butter", []string{"1/4 cup olive oil"}, "Melt the butter, then add the salt.", "Heat the olive oil, then add the salt."},
		{"4 cups chicken broth", []string{"2 cups chicken broth", "2 cups water"}, "Pour in the broth, stirring.", "Pour in the broth and water, stirring."},
		{"4 slices bacon", []string{"1 cup mushrooms", "1 tablespoon oil"}, "Cook the bacon. Lift out the bacon and set it aside.", "Cook the mushrooms and oil. Lift out the mushrooms and set them aside."},
		{"1 cup cheddar cheese", []string{"1 cup Swiss cheese"}, "Add the cheddar.", "Add the Swiss cheese."},
		{"1 cup heavy cream", []string{"1 cup thyme"}, "Add the thyme and cream.", "Add the thyme."},
		{"2 onions", []string{"2 leeks"}, "Spread the onion mixture.", "Spread the leeks mixture."},
		{"1 beef stock cube, in 300 ml boiling water", []string{"1 low-sodium bouillon cube, in 300 ml boiling water"}, "Pour in the hot stock.", "Pour in the hot stock."},
		{"1 onion", []string{"1 leek"}, "Onion goes in first.", "Leek goes in first."},
	} {
		t.Run(c.before, func(t *testing.T) {
			rec, lines := dish(c.old, "1 teaspoon thyme", "1 teaspoon salt")
			rec.Steps = steps(c.before)
			after, _ := rewrite(rec, lines, []LineChange{{0, option(swap.Replace, c.news...)}})
			assert.Equal(t, c.after, strings.Join(texts(after), "|"))
		})
	}
}

func TestOneOfTwoFoodsNamedIsTheOneTheStepsSay(t *testing.T) {
	for before, after := range map[string][2]string{
		"Melt the butter or margarine in a pan.":      {"Melt the butter in a pan.", "Melt the margarine in a pan."},
		"Melt the butter (or margarine) in a pan.":    {"Melt the butter in a pan.", "Melt the margarine in a pan."},
		"Melt the butter, then fry.":                  {"Melt the butter, then fry.", "Melt the margarine, then fry."},
		"Melt 1 tbsp of the margarine or the butter.": {"Melt 1 tbsp of the butter.", "Melt 1 tbsp of the margarine."},
	} {
		for i, o := range []swap.Option{option(swap.First, "2 tbsp butter"), option(swap.Second, "2 tbsp margarine")} {
			rec, lines := dish("2 tbsp butter or margarine", "1 onion")
			rec.Steps = steps(before)
			got, _ := rewrite(rec, lines, []LineChange{{0, o}})
			assert.Equal(t, after[i], strings.Join(texts(got), "|"))
		}
	}
}

func TestReducedAmountsKeepTheirShare(t *testing.T) {
	rec, lines := dish("2 teaspoons salt", "1 onion")
	rec.Steps = steps("Add 1 teaspoon of the salt and the onion.", "Add the remaining salt.", "Add the other 1 teaspoon salt.")
	after, notes := rewrite(rec, lines, []LineChange{{0, option(swap.Reduce, "1 teaspoon salt")}})
	assert.Equal(t, []string{"Add 1/2 tsp of the salt and the onion.", "Add the remaining salt.", "Add the other 1/2 tsp salt."}, texts(after))
	assert.Empty(t, notes)
}

func TestDrainedCansLoseTheirLiquid(t *testing.T) {
	rec, lines := dish("1 can black beans", "1 can tomatoes")
	rec.Steps = steps("Add the beans with their liquid and the tomatoes with their juices.")
	after, _ := rewrite(rec, lines, []LineChange{{0, option(swap.Rinse, "1 can black beans, drained and rinsed")}})
	assert.Equal(t, []string{"Add the beans and the tomatoes with their juices."}, texts(after))
}

func TestEditsOfRules(t *testing.T) {
	method := []string{"Heat the oil.", "Add the beans and salt; stir. Cover the beans with foil.", "Cook until soft.", "Serve."}
	for name, c := range map[string]struct {
		edit swap.MethodEdit
		want []string
	}{
		"add at the start": {swap.MethodEdit{Do: "add", At: "start", Text: "soak the lentils"},
			[]string{"Soak the lentils.", "Heat the oil.", "Add the lentils and salt; stir. Cover the lentils with foil.", "Cook until soft.", "Serve."}},
		"add at the end": {swap.MethodEdit{Do: "add", At: "end", Text: "Rest."},
			[]string{"Heat the oil.", "Add the lentils and salt; stir. Cover the lentils with foil.", "Cook until soft.", "Rest.", "Serve."}},
		"add before": {swap.MethodEdit{Do: "add", At: "before", Text: "Rinse the lentils."},
			[]string{"Heat the oil.", "Rinse the lentils.", "Add the lentils and salt; stir. Cover the lentils with foil.", "Cook until soft.", "Serve."}},
		"add with": {swap.MethodEdit{Do: "add", At: "with", Text: "Add 1 cup water."},
			[]string{"Heat the oil.", "Add the lentils and salt; add 1 cup water; stir. Cover the lentils with foil.", "Cook until soft.", "Serve."}},
		"add after": {swap.MethodEdit{Do: "add", At: "after", Text: "Stir the lentils."},
			[]string{"Heat the oil.", "Add the lentils and salt; stir. Cover the lentils with foil.", "Stir the lentils.", "Cook until soft.", "Serve."}},
		"drop": {swap.MethodEdit{Do: "drop", Find: "foil"},
			[]string{"Heat the oil.", "Add the lentils and salt; stir.", "Cook until soft.", "Serve."}},
		"drop spares what speaks of others too": {swap.MethodEdit{Do: "drop", Find: "add"},
			[]string{"Heat the oil.", "Add the lentils and salt; stir. Cover the lentils with foil.", "Cook until soft.", "Serve."}},
		"replace": {swap.MethodEdit{Do: "replace", Find: "foil", Text: "a lid"},
			[]string{"Heat the oil.", "Add the lentils and salt; stir. Cover the lentils with a lid.", "Cook until soft.", "Serve."}},
		"move": {swap.MethodEdit{Do: "move", At: "end", Text: "Scatter the lentils over."},
			[]string{"Heat the oil.", "Add the salt; stir.", "Cook until soft.", "Scatter the lentils over.", "Serve."}},
	} {
		t.Run(name, func(t *testing.T) {
			rec, lines := dish("1 cup white beans", "1 teaspoon salt", "1 tablespoon oil")
			rec.Steps = steps(method...)
			o := option(swap.Replace, "1 cup lentils")
			o.Rule.Method = []swap.MethodEdit{c.edit}
			after, notes := rewrite(rec, lines, []LineChange{{0, o}})
			assert.Equal(t, c.want, texts(after))
			assert.Empty(t, notes)
		})
	}
}

func TestNotes(t *testing.T) {
	t.Run("a replaced food that no step names", func(t *testing.T) {
		rec, lines := dish("1 tablespoon parsley", "1 onion")
		rec.Steps = steps("Cook the onion.")
		_, notes := rewrite(rec, lines, []LineChange{{0, option(swap.Replace, "1 tablespoon chives")}})
		assert.Equal(t, []string{"Look at step 1: the method does not mention the parsley; see whether the chives should go in here."}, notes)
	})
	t.Run("words that may mean two lines, of which one stays", func(t *testing.T) {
		rec, lines := dish("1 can black beans", "1 can kidney beans")
		rec.Steps = steps("Add the beans.")
		after, notes := rewrite(rec, lines, []LineChange{{0, option(swap.Replace, "1 cup lentils")}})
		assert.Equal(t, []string{"Add the beans. Add the lentils as well."}, texts(after))
		require.NotEmpty(t, notes)
		assert.Contains(t, notes[0], "may mean several")
	})
	t.Run("a kept food whose sentence went", func(t *testing.T) {
		rec, lines := dish("1 pound tofu", "1 tablespoon oil")
		rec.Steps = steps("Rub the tofu with the oil.", "Serve.")
		_, notes := rewrite(rec, lines, []LineChange{{0, option(swap.Omit)}})
		assert.Equal(t, []string{"The method no longer mentions the oil; use it where the recipe did."}, notes)
	})
	t.Run("an edit of a food that no step names is said at the end", func(t *testing.T) {
		rec, lines := dish("1 tablespoon parsley", "1 onion")
		rec.Steps = steps("Cook the onion.")
		o := option(swap.Omit)
		o.Rule.Method = []swap.MethodEdit{{Do: "add", At: "after", Text: "add lemon"}}
		after, notes := rewrite(rec, lines, []LineChange{{0, o}})
		assert.Equal(t, []string{"Cook the onion.", "Add lemon."}, texts(after))
		assert.Len(t, notes, 1)
	})
}

func TestOneFoodOfTwoOnALine(t *testing.T) {
	rec, lines := dish("salt and pepper to taste", "1 onion")
	rec.Steps = steps("Cook the onion with salt and pepper.")
	after, _ := rewrite(rec, lines, []LineChange{{0, option(swap.Omit, "pepper, to taste")}})
	assert.Equal(t, []string{"Cook the onion with pepper."}, texts(after))
}

func TestStepsWithoutChangedLinesStayByteForByte(t *testing.T) {
	rec, lines := dish("1 teaspoon salt", "2 eggs")
	odd := "  Beat  the eggs ;stir…\tthen   (if wanted) WAIT .. "
	rec.Steps = []recipe.Step{{Section: "Batter", Text: odd}}
	after, _ := rewrite(rec, lines, []LineChange{{0, option(swap.Omit)}})
	assert.Equal(t, rec.Steps, after)
}

func ExampleRewrite() {
	lines := []foodmatch.Matched{line("1/2 teaspoon salt"), line("1 teaspoon thyme")}
	rec := recipe.Recipe{Steps: []recipe.Step{{Text: "Add the salt and thyme. Simmer 10 minutes."}}}
	after := Rewrite(rec, lines, []LineChange{{Line: 0, Option: option(swap.Omit)}})
	fmt.Println(after.Steps[0].Text)
	// Output: Add the thyme. Simmer 10 minutes.
}
