package method

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/recipe"
	"potwright/internal/swap"
)

// with is an option with edits of the method.
func with(o swap.Option, edits ...swap.MethodEdit) swap.Option {
	o.Rule.Method = edits
	return o
}

func TestRulesWordsStandWhereTheCookIs(t *testing.T) {
	for name, c := range map[string]struct {
		lines  []string
		steps  []string
		change LineChange
		want   []string
	}{
		"what a step puts together has one name": {
			[]string{"1 cup buttermilk", "1/4 cup oil"}, []string{"Stir buttermilk and oil together."},
			LineChange{0, with(option(swap.Replace, "1 cup milk", "1 tablespoon lemon juice"),
				swap.MethodEdit{Do: "add", At: "start", Text: "Stir the lemon juice into the milk and let it stand."})},
			[]string{"Stir the lemon juice into the milk and let it stand.", "Stir the milk mixture and oil together."},
		},
		"how the new food is cooked joins the sentence that cooks it": {
			[]string{"1 pound chicken breast", "1 tablespoon oil"}, []string{"Heat the oil; fry the chicken 5 minutes until golden, then lift it out."},
			LineChange{0, with(option(swap.Replace, "1 pound ground chicken"),
				swap.MethodEdit{Do: "add", At: "before", Text: "Cook the chicken, breaking it up small, to 165 F."})},
			[]string{"Heat the oil; fry the ground chicken 5 minutes, breaking it up small, to 165 F, then lift it out."},
		},
		"a slurry stands in place of the cream": {
			[]string{"1 cup cream", "1 bay leaf"}, []string{"Simmer the bay leaf.", "Stir in the cream and warm through. Take out the bay leaf."},
			LineChange{0, with(option(swap.Replace, "1 cup milk", "1 tablespoon cornstarch"),
				swap.MethodEdit{Do: "move", At: "with", Text: "Whisk the cornstarch into the cold milk, add it and simmer until thick."})},
			[]string{"Simmer the bay leaf.", "Whisk the cornstarch into the cold milk, add it and simmer until thick. Take out the bay leaf."},
		},
		"a fresh herb goes in at the end of a pot": {
			[]string{"1 teaspoon dried thyme", "4 cups broth"}, []string{"Add the broth and thyme; simmer 10 minutes.", "Serve hot."},
			LineChange{0, with(option(swap.Replace, "1 tablespoon fresh thyme"),
				swap.MethodEdit{Do: "move", At: "end", Text: "Stir in the fresh thyme at the end, off the heat."})},
			[]string{"Add the broth; simmer 10 minutes.", "Stir in the fresh thyme at the end, off the heat.", "Serve hot."},
		},
		"and where the old one went in a bowl": {
			[]string{"1 teaspoon dried dill", "1 cup yogurt"}, []string{"Whisk the yogurt and dill.", "Bake 20 minutes."},
			LineChange{0, with(option(swap.Replace, "1 tablespoon chives"),
				swap.MethodEdit{Do: "move", At: "end", Text: "Stir in the chives at the end, off the heat."})},
			[]string{"Whisk the yogurt and chives.", "Bake 20 minutes."},
		},
		"a dried herb goes in with the liquid": {
			[]string{"2 tablespoons parsley", "4 cups broth", "1 onion"}, []string{"Cook the onion. Add the broth. Simmer 10 minutes.", "Top with parsley and onion."},
			LineChange{0, with(option(swap.Replace, "2 teaspoons dried basil"),
				swap.MethodEdit{Do: "move", At: "start", Text: "Add the dried basil with the liquid."})},
			[]string{"Cook the onion. Add the broth. Add the dried basil with the liquid. Simmer 10 minutes.", "Top with onion."},
		},
		"what was done with a food that left goes too": {
			[]string{"1 cup dried apricots", "1 cup flour"}, []string{"Soak the apricots; drain; cool. Mix the flour."},
			LineChange{0, option(swap.Omit)}, []string{"Mix the flour."},
		},
		"no work that the new food comes without": {
			[]string{"1 onion", "1 carrot"}, []string{"Peel and chop the onion. Cook the onion and carrot."},
			LineChange{0, option(swap.Replace, "1 cup frozen onion")}, []string{"Cook the onion and carrot."},
		},
		"a semicolon keeps small letters": {
			[]string{"2 potatoes", "1 onion"}, []string{"Cook the onion; potatoes go in next."},
			LineChange{0, option(swap.Replace, "2 turnips")}, []string{"Cook the onion; turnips go in next."},
		},
		"butter is creamed, oil beaten": {
			[]string{"1/2 cup butter", "1 cup sugar"}, []string{"Cream the butter and sugar."},
			LineChange{0, option(swap.Replace, "1/2 cup canola oil")}, []string{"Beat the canola oil and sugar."},
		},
		"the water that the pasta cooked in": {
			[]string{"1 pound pasta", "1 can tomatoes"}, []string{"Boil the pasta. Add pasta water and tomatoes."},
			LineChange{0, option(swap.Replace, "1 pound rice noodles")}, []string{"Boil the rice noodles. Add cooking water and tomatoes."},
		},
		"a food that no step names is added and marked": {
			[]string{"1 teaspoon salt", "1 onion"}, []string{"Cook the onion."},
			LineChange{0, option(swap.Replace, "1 teaspoon lemon juice")}, []string{"Cook the onion. Add the lemon juice as well."},
		},
	} {
		t.Run(name, func(t *testing.T) {
			rec, lines := dish(c.lines...)
			rec.Steps = steps(c.steps...)
			assert.Equal(t, c.want, texts(Rewrite(rec, lines, []LineChange{c.change}).Steps))
		})
	}
}

func TestEveryEditIsTiedToItsChange(t *testing.T) {
	rec, lines := dish("1 teaspoon salt", "1 onion", "1 cup cream")
	rec.Steps = steps("Salt the water.", "Cook the onion.", "Stir in the cream.", "Serve.")
	r := Rewrite(rec, lines, []LineChange{{0, option(swap.Omit)}, {2, with(option(swap.Replace, "1 cup milk"), swap.MethodEdit{Do: "add", At: "start", Text: "Warm the milk."})}})
	assert.Equal(t, []string{"Warm the milk.", "Cook the onion.", "Stir in the milk.", "Serve."}, texts(r.Steps))
	assert.ElementsMatch(t, []Edit{{Step: 0, Was: -1, Change: 1}, {Step: -1, Was: 0, Change: 0}, {Step: 2, Was: 2, Change: 1}}, r.Edits)
	assert.Empty(t, r.Marks)
}

func TestAMarkNamesItsStepAndSwap(t *testing.T) {
	rec, lines := dish("1 can black beans", "1 can kidney beans", "1 onion")
	rec.Steps = steps("Cook the onion.", "Add the beans.")
	o := option(swap.Replace, "1 cup lentils")
	o.Rule.Title = "Lentils for beans"
	r := Rewrite(rec, lines, []LineChange{{0, o}})
	require.NotEmpty(t, r.Marks)
	assert.Equal(t, 1, r.Marks[0].Step)
	assert.Equal(t, "Lentils for beans", r.Marks[0].Swap)
	assert.Contains(t, r.Steps[1].Text, "Add the beans")
}

// drawn is a method with changes of distinct lines.
func drawn(t *rapid.T) (recipe.Recipe, []LineChange) {
	var all []string
	for _, p := range pool {
		all = append(all, p.line)
	}
	rec, _ := dish(all...)
	for range rapid.IntRange(1, 4).Draw(t, "steps") {
		rec.Steps = append(rec.Steps, recipe.Step{Text: capital(drawStep(t))})
	}
	var changes []LineChange
	for _, i := range rapid.SliceOfNDistinct(rapid.IntRange(0, len(pool)-1), 1, 4, rapid.ID[int]).Draw(t, "lines") {
		o := option(swap.Omit)
		if rapid.Bool().Draw(t, "replaced") {
			o = option(swap.Replace, rapid.SampledFrom([]string{"1 cup turnips", "2 tablespoons canola oil", "1 cup frozen peas"}).Draw(t, "new"))
		}
		changes = append(changes, LineChange{i, o})
	}
	return rec, changes
}

func TestNoChangeChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rec, _ := drawn(t)
		_, lines := dish()
		for _, l := range rec.Lines {
			lines = append(lines, line(l.Reading.Text))
		}
		assert.Equal(t, rec.Steps, Rewrite(rec, lines, nil).Steps)
	})
}

// What is left after foods left a method has nothing more of them to lose.
func TestLeavingOutTwiceIsLeavingOutOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rec, changes := drawn(t)
		_, lines := dish()
		for _, l := range rec.Lines {
			lines = append(lines, line(l.Reading.Text))
		}
		for i := range changes {
			changes[i].Option = option(swap.Omit)
		}
		once := rec
		once.Steps = Rewrite(rec, lines, changes).Steps
		assert.Equal(t, once.Steps, Rewrite(once, lines, changes).Steps, "%q", texts(rec.Steps))
	})
}

func TestTheOrderOfChangesDoesNotMatter(t *testing.T) {
	rec, lines := dish("1 teaspoon salt", "1 onion", "1 cup cream", "2 potatoes", "1 tablespoon butter")
	rec.Steps = steps("Melt the butter; add the onion, potatoes and salt.", "Cover and cook until the potatoes are tender.", "Stir in the cream. Season with salt.")
	changes := []LineChange{
		{0, option(swap.Omit)}, {1, option(swap.Replace, "1 leek")}, {2, option(swap.Replace, "1/2 cup milk", "1/2 cup water")},
		{3, option(swap.Replace, "2 turnips")}, {4, option(swap.Replace, "1 tablespoon olive oil")},
	}
	want := texts(Rewrite(rec, lines, changes).Steps)
	for seed := range uint64(20) {
		shuffled := append([]LineChange(nil), changes...)
		rand.New(rand.NewPCG(seed, 1)).Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		assert.Equal(t, want, texts(Rewrite(rec, lines, shuffled).Steps))
	}
}

// BenchmarkRewrite rewrites a recipe of a dozen lines and eight steps.
func BenchmarkRewrite(b *testing.B) {
	var all []string
	for _, p := range pool {
		all = append(all, p.line)
	}
	rec, lines := dish(all...)
	for k := range 8 {
		text := patterns[k%len(patterns)] + " " + patterns[(k+5)%len(patterns)]
		for i := 0; strings.Contains(text, "#"); i++ {
			text = strings.Replace(text, "#", pool[(i+k)%len(pool)].calls[0], 1)
		}
		rec.Steps = append(rec.Steps, recipe.Step{Text: text})
	}
	changes := []LineChange{
		{0, option(swap.Omit)}, {4, option(swap.Replace, "2 cups vegetable broth", "2 cups water")},
		{2, option(swap.Replace, "2 tablespoons olive oil")}, {5, option(swap.Replace, "1 pound firm tofu")}, {10, option(swap.ToTable, "1 tablespoon parsley")},
	}
	for b.Loop() {
		Rewrite(rec, lines, changes)
	}
}
