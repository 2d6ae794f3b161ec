package swap

import (
	"testing"

	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func replace(kinds []string, with ...Ingredient) Rule {
	return Rule{ID: "r", Do: Replace, Match: Match{Kinds: kinds}, With: with, Change: 3}
}

func TestAReplacementIsWrittenInAmountsAKitchenMeasures(t *testing.T) {
	broth := replace([]string{"broth"}, with("chicken broth, low sodium", 1, ByLine, "", "low-sodium chicken broth"))
	halved := replace([]string{"broth"}, with("chicken broth", .5, ByVolume, "", ""), with("water", .5, ByVolume, "", ""))
	garlic := replace([]string{"garlic"}, with("garlic powder", .125, ByPiece, "tsp", ""))
	cream := replace([]string{"cream"}, with("whole milk", .75, ByVolume, "", ""), with("butter, unsalted", .333, ByVolume, "", "unsalted butter"))
	starch := replace([]string{"flour"}, with("cornstarch", .5, ByVolume, "", ""))
	for _, c := range []struct {
		name string
		rule Rule
		in   string
		want []string
	}{
		{"by line keeps the amount and the container", broth, "1 (32 oz) carton chicken broth", []string{"1 (32 oz) carton low-sodium chicken broth"}},
		{"by line keeps cups", broth, "2 1/2 cups chicken broth", []string{"2 1/2 cups low-sodium chicken broth"}},
		{"the water it is stirred into stays", broth, "1 cup chicken broth, in 300 ml boiling water", []string{"1 cup low-sodium chicken broth, in 300 ml boiling water"}},
		{"halves are shared out", halved, "3 cups chicken broth", []string{"1 1/2 cups chicken broth", "1 1/2 cups water"}},
		{"a metric line stays metric", halved, "500 ml chicken broth", []string{"250 ml chicken broth", "250 ml water"}},
		// State extension substitution lists: 1 clove is 1/8 tsp garlic powder.
		{"three cloves are three eighths of a teaspoon of powder", garlic, "3 cloves garlic", []string{"3/8 tsp garlic powder"}},
		{"twelve cloves fill a spoon and a half", garlic, "12 cloves garlic", []string{"1 1/2 tsp garlic powder"}},
		// State extension substitution lists: 1 cup cream is 3/4 cup milk and 1/3 cup butter.
		{"a cup of cream is milk and butter", cream, "1 cup heavy cream", []string{"3/4 cup whole milk", "1/3 cup unsalted butter"}},
		// State extension substitution lists: 1 tbsp cornstarch is 2 tbsp flour.
		{"four spoons of flour are two of cornstarch", starch, "4 tbsp flour", []string{"2 tbsp cornstarch"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, [][]string{c.want}, texts(c.rule, c.in))
		})
	}
}

func TestOneOfTheFoodsALineNamesIsTakenAlone(t *testing.T) {
	words := Match{Words: []string{"or"}}
	for _, c := range []struct {
		do       Action
		in, want string
	}{
		{First, "1 cup chicken broth or water, warm", "1 cup chicken broth, warm"},
		{Second, "1 cup chicken broth or water", "1 cup water"},
		{Second, "1 cup chicken broth or 3/4 cup water", "3/4 cup water"},
	} {
		assert.Equal(t, [][]string{{c.want}}, texts(Rule{ID: "r", Do: c.do, Match: words, Change: 1}, c.in), c.in)
	}
	assert.Empty(t, texts(Rule{ID: "r", Do: First, Match: words, Change: 1}, "1 cup chicken broth"))
}

func TestLessOfALineKeepsItsOtherWords(t *testing.T) {
	half := Rule{ID: "half", Do: Reduce, Keep: []float64{.5}, Match: Match{Kinds: []string{"salt", "butter"}}, Change: 4}
	for _, c := range []struct{ in, want string }{
		{"1 tsp salt", "1/2 tsp salt"},
		{"3/4 cup butter, melted", "6 tbsp butter, melted"},
		{"1/2 teaspoon salt, divided", "1/4 tsp salt, divided"},
	} {
		assert.Equal(t, [][]string{{c.want}}, texts(half, c.in), c.in)
	}
}

func TestFoodsWrittenTogetherArePartedWhenOneIsChanged(t *testing.T) {
	omit := Rule{ID: "omit", Do: Omit, Match: Match{Kinds: []string{"salt"}}, Change: 9}
	assert.Equal(t, [][]string{{"1 tsp pepper"}}, texts(omit, "1 tsp each salt and pepper"))
	assert.Equal(t, [][]string{{"pepper, to taste"}}, texts(omit, "salt and pepper to taste"))
	assert.Equal(t, [][]string{nil}, texts(omit, "1 tsp salt"))
}

func TestRinsingIsOfferedOnlyWhereTheTableKnowsTheRinsedFood(t *testing.T) {
	rinse := Rule{ID: "rinse", Do: Rinse, Match: Match{Kinds: []string{"legume"}}, Change: 1}
	assert.Equal(t, [][]string{{"1 (15 oz) can black beans, drained and rinsed"}}, texts(rinse, "1 (15 oz) can black beans"))
	assert.Equal(t, [][]string{{"1 (15 oz) can black beans, drained and rinsed"}}, texts(rinse, "1 (15 oz) can black beans, drained"))
	assert.Empty(t, texts(rinse, "1 (15 oz) can black beans, drained and rinsed"), "it is done already")
	rinse.Match.Kinds = []string{"broth"}
	assert.Empty(t, texts(rinse, "1 cup chicken broth"))
}

func TestHeldBackForTheTableLeavesThePotWithoutIt(t *testing.T) {
	read := reader()
	book := NewBook([]Rule{{ID: "table", Do: ToTable, Keep: []float64{.5}, Match: Match{Kinds: []string{"salt"}}}}, nil, nil)
	options := book.Options(read("1 tsp salt"), nil, read)
	require.Len(t, options, 1)
	assert.Empty(t, options[0].Text)
	assert.Equal(t, []string{"1/2 tsp salt"}, options[0].AtTable)
	assert.InDelta(t, 3, options[0].Table[0].Items[0].Grams.Mid, 0.01)
}

func TestARuleLooksAtTheWordsTheUnitAndTheRestOfTheDish(t *testing.T) {
	rule := func(m Match) Rule { return Rule{ID: "r", Do: Omit, Match: m} }
	butter := []string{"butter"}
	for _, c := range []struct {
		name string
		m    Match
		line string
		dish []string
		want bool
	}{
		{"a word that is there", Match{Kinds: butter, Words: []string{"melted"}}, "1 cup butter, melted", nil, true},
		{"part of a word is not the word", Match{Kinds: butter, Words: []string{"melt"}}, "1 cup butter, melted", nil, false},
		{"a word that must not be there", Match{Kinds: butter, NotWords: []string{"melted"}}, "1 cup butter, melted", nil, false},
		{"the unit of the line", Match{Kinds: butter, Units: []string{"tbsp"}}, "1 cup butter", nil, false},
		{"a state of the row", Match{Kinds: butter, NotState: []string{"salted"}}, "1 cup butter", nil, false},
		{"a food that is excepted", Match{Kinds: butter, NotFoods: []string{"butter"}}, "1 cup butter", nil, false},
		{"not where the dish rises", Match{Kinds: butter, DishNot: []string{"leavening"}}, "1 cup butter", []string{"1 tsp baking powder"}, false},
		{"only where the dish rises", Match{Kinds: butter, DishHas: []string{"leavening"}}, "1 cup butter", []string{"1 tsp baking powder"}, true},
		{"a line is not the rest of its dish", Match{Kinds: butter, DishHas: butter}, "1 cup butter", []string{"1 cup butter"}, false},
		{"an unread line has no options", Match{Words: []string{"mystery"}}, "1 cup mystery", nil, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, len(texts(rule(c.m), c.line, c.dish...)) == 1)
		})
	}
}

// State extension substitution lists give flax for an egg or two; a dish of eight
// eggs is made of eggs.
func TestARuleMayHoldOnlyUpToAnAmount(t *testing.T) {
	whites := Rule{ID: "whites", Do: Replace, Match: Match{Kinds: []string{"egg"}, NotFoods: []string{"egg whites"}, Most: 3}, Change: 3,
		With: []Ingredient{{Food: "egg whites", Ratio: 2, By: ByPiece}}}
	assert.NotEmpty(t, texts(whites, "1 eggs"))
	assert.NotEmpty(t, texts(whites, "3 eggs"))
	assert.Empty(t, texts(whites, "4 eggs"))
	assert.Empty(t, texts(whites, "eggs"), "no amount, no bound to be within")
}

func TestAnOptionThatReadsAsAnotherFoodIsAFaultAndNotOffered(t *testing.T) {
	read := reader()
	wrong := replace([]string{"broth"}, with("chicken broth, low sodium", 1, ByLine, "", "chicken broth"))
	book := NewBook([]Rule{wrong}, nil, nil)
	assert.Empty(t, book.Options(read("2 cups chicken broth"), nil, read))
	assert.Equal(t, []string{`"2 cups chicken broth" reads as "chicken broth", not as "chicken broth, low sodium"`},
		whyNot(book, "r", read("2 cups chicken broth"), nil, read))
}

func TestTheSameFoodMayBePreparedOtherwise(t *testing.T) {
	rule := Rule{ID: "same", Do: Replace, Match: Match{Kinds: []string{"butter", "legume"}}, Change: 1,
		With:   []Ingredient{{Same: true, Ratio: 1, By: ByLine, Note: "pureed"}},
		Method: []MethodEdit{{Do: "add", Text: "Blend the {food}.", At: "before"}}}
	assert.Equal(t, [][]string{{"1 (15 oz) can black beans, drained and rinsed, pureed"}}, texts(rule, "1 (15 oz) can black beans, drained and rinsed"))
	assert.Equal(t, [][]string{{"1/3 cup butter, pureed"}}, texts(rule, "1/3 cup chopped butter"))
	read := reader()
	o := NewBook([]Rule{rule}, nil, nil).Options(read("1 (15 oz) can black beans"), nil, read)
	require.Len(t, o, 1)
	assert.Equal(t, "Blend the black beans.", o[0].Rule.Method[0].Text)
	assert.Equal(t, "Blend the {food}.", rule.Method[0].Text)
}

func TestSeveralSharesKeptCostLessTheMoreIsKept(t *testing.T) {
	read := reader()
	rule := Rule{ID: "less", Do: Reduce, Keep: []float64{.75, .5, .25}, Match: Match{Kinds: []string{"salt"}}, Change: 6}
	var changes []int
	for _, o := range NewBook([]Rule{rule}, nil, nil).Options(read("1 tsp salt"), nil, read) {
		changes = append(changes, o.Change)
	}
	assert.Equal(t, []int{2, 4, 6}, changes)
}

func TestTheOrderOfRulesDoesNotMatter(t *testing.T) {
	read := reader()
	a := Rule{ID: "a", Do: Omit, Match: Match{Kinds: []string{"salt"}}, Change: 5}
	b := Rule{ID: "b", Do: Reduce, Keep: []float64{.5}, Match: Match{Kinds: []string{"salt"}}, Change: 5}
	one := NewBook([]Rule{a, b}, nil, nil).Options(read("1 tsp salt"), nil, read)
	two := NewBook([]Rule{b, a}, nil, nil).Options(read("1 tsp salt"), nil, read)
	assert.Equal(t, one, two)
}

func TestWhatALineBringsScalesWithItsWeight(t *testing.T) {
	read := reader()
	book := NewBook(nil, []Balance{{Function: Body, Brings: []Brings{{Kinds: []string{"starch"}, Per100g: 200}, {Kinds: []string{"flour"}, Per100g: 100}}}}, nil)
	// State extension substitution lists: 1 tbsp cornstarch is 2 tbsp flour; both
	// weights are of USDA SR28, 8 g and 7.8 g a spoon.
	starch, flour := book.LineContribution(read("1 tbsp cornstarch")), book.LineContribution(read("2 tbsp flour"))
	assert.InEpsilon(t, flour[Body], starch[Body], 0.05)
	assert.Zero(t, starch[Acidity])
}

func TestPreservesAndCuresAreLeftAlone(t *testing.T) {
	book := NewBook(nil, nil, []Refusal{{ID: "p", TitleEnds: []string{"pickles"}, Title: []string{"pickled"}, NotTitle: []string{"salad"},
		Steps: []string{"pressure canner"}, Lines: []string{"curing salt"}, Why: "salt keeps it safe"}})
	line := func(text string) recipe.Line { return recipe.Line{Reading: reader()(text).Reading} }
	for _, c := range []struct {
		r    recipe.Recipe
		want bool
	}{
		{recipe.Recipe{Title: "Dill pickles"}, true},
		{recipe.Recipe{Title: "Chicken with pickles and rice"}, false},
		{recipe.Recipe{Title: "Pickled beets"}, true},
		{recipe.Recipe{Title: "Pickled beet salad"}, false},
		{recipe.Recipe{Title: "Beans", Steps: []recipe.Step{{Text: "Process in a pressure canner."}}}, true},
		{recipe.Recipe{Title: "Bacon", Lines: []recipe.Line{line("1 tsp pink curing salt")}}, true},
		{recipe.Recipe{Title: "Bacon soup", Lines: []recipe.Line{line("1 tsp salt")}}, false},
	} {
		_, got := book.Refuses(c.r)
		assert.Equal(t, c.want, got, c.r.Title)
	}
}

func TestFunctionsAreFoundByTheirNames(t *testing.T) {
	for _, f := range Functions() {
		got, ok := ParseFunction(f.String())
		assert.True(t, ok)
		assert.Equal(t, f, got)
	}
	_, ok := ParseFunction("crunch")
	assert.False(t, ok)
	assert.Equal(t, "function?", Function(-1).String())
}

func TestWhatAFoodBringsIsTheFirstEntryThatFits(t *testing.T) {
	read := reader()
	book := NewBook(nil, []Balance{{Function: Liquid, Brings: []Brings{
		{Foods: []string{"water"}, Per100g: 100},
		{Kinds: []string{"legume"}, NotStates: []string{"drained"}, Per100g: 40},
		{Kinds: []string{"legume"}, States: []string{"rinsed"}, Per100g: 5},
	}}}, nil)
	assert.InDelta(t, 237, book.LineContribution(read("1 cup water"))[Liquid], 0.5)
	assert.InDelta(t, 96, book.LineContribution(read("1 cup black beans"))[Liquid], 0.5)
	assert.InDelta(t, 8.5, book.LineContribution(read("1 cup black beans, drained and rinsed"))[Liquid], 0.5)
	skipped := read("1 cup water")
	skipped.State = "skipped"
	assert.Zero(t, book.LineContribution(skipped))
	assert.Zero(t, book.LineContribution(read("1 cup mystery")))
}

func TestAnOptionalLineStandsAtTheTableAsItIsReadOrNot(t *testing.T) {
	book := NewBook([]Rule{{ID: "topping", Do: ToTable, Match: Match{Words: []string{"optional", "if desired"}}}}, nil, nil)
	for text, offered := range map[string]bool{
		"1 blorp rind (optional)":           true,
		"Optional: blorp":                   true,
		"1 blorp rind, if desired":          true,
		"1 cup salt and pepper, if desired": true,
		"1 blorp rind, optionally":          false,
		"1 blorp rind":                      false,
		"":                                  false,
	} {
		line := foodmatch.Matched{State: foodmatch.Unread, Reading: ingredient.Read(text)}
		options := book.Options(line, nil, nil)
		if !offered {
			assert.Empty(t, options, text)
			continue
		}
		require.Len(t, options, 1, text)
		assert.Equal(t, []string{text}, options[0].AtTable)
		assert.Empty(t, options[0].Text)
	}
}
