package fooddata

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
)

func TestPhrasesFindTheRowANutritionistWouldChoose(t *testing.T) {
	table := loaded(t)
	b, err := os.ReadFile("testdata/phrases.tsv")
	require.NoError(t, err)
	n := 0
	for i, line := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cols := strings.Split(line, "\t")
		require.Len(t, cols, 4, "line %d", i+1)
		got := table.Match(composition.Phrase{Words: cols[0], States: strings.Fields(cols[1]), Unit: cols[2]})
		if assert.NotEmpty(t, got, line) {
			assert.Equal(t, cols[3], got[0].Food.Name, line)
		}
		n++
	}
	require.GreaterOrEqual(t, n, 250)
}

// Common practice; the row follows from the phrase in every case.
func TestWordsThatCooksUseFindTheirFood(t *testing.T) {
	table := loaded(t)
	for _, c := range []struct{ words, states, unit, row string }{
		{"spring onions", "", "each", "green onion, raw"},
		{"aubergine", "", "each", "eggplant, raw"},
		{"courgettes", "", "each", "zucchini, raw"},
		{"beef mince", "", "lb", "beef, ground, 80% lean, raw"},
		{"prawns", "", "oz", "shrimp, raw"},
		{"icing sugar", "", "cup", "sugar, powdered"},
		{"caster sugar", "", "cup", "sugar, granulated"},
		{"double cream", "", "ml", "heavy cream"},
		{"single cream", "", "ml", "half-and-half"},
		{"plain flour", "", "g", "flour, all-purpose, bleached"},
		{"self-raising flour", "", "g", "flour, self-rising"},
		{"bicarbonate of soda", "", "tsp", "baking soda"},
		{"red capsicum", "", "each", "red bell pepper, raw"},
		{"rocket", "", "cup", "arugula, raw"},
		{"swede", "", "each", "rutabaga, raw"},
		{"haricot beans", "dried", "cup", "navy beans, dry"},
		{"coriander", "", "bunch", "cilantro, fresh"},
		{"coriander", "", "tsp", "coriander seed"},
		{"basil", "", "tsp", "basil, dried"},
		{"basil", "", "cup", "basil, fresh"},
		{"thyme", "", "sprig", "thyme, fresh"},
		{"milk", "", "cup", "milk, whole"},
		{"2% milk", "", "cup", "milk, reduced fat, 2%"},
		{"cream", "", "cup", "heavy cream"},
		{"cheese", "", "oz", "cheddar cheese"},
		{"rice", "", "cup", "rice, white, long-grain, dry"},
		{"flour", "", "cup", "flour, all-purpose, bleached"},
		{"broth", "", "cup", "chicken broth, ready to serve"},
		{"broth", "low_sodium", "cup", "chicken broth, ready to serve, low sodium"},
		{"beef stock", "unsalted", "cup", "beef broth, ready to serve, no salt added"},
		{"oil", "", "tbsp", "soybean oil"},
		{"salt", "", "tsp", "salt, table"},
		{"pepper", "", "tsp", "pepper, black, ground"},
		{"pepper", "", "each", "green bell pepper, raw"},
		{"bread crumbs", "", "cup", "bread crumbs, dry, plain"},
		{"ground beef", "lean_93", "lb", "beef, ground, 93% lean, raw"},
		{"ginger", "", "inch", "ginger root, raw"},
		{"ginger", "", "tsp", "ginger, ground"},
		{"peanut butter", "unsalted", "tbsp", "peanut butter, smooth, unsalted"},
		{"butter", "unsalted", "tbsp", "butter, unsalted"},
	} {
		got := table.Match(composition.Phrase{Words: c.words, States: strings.Fields(c.states), Unit: c.unit})
		if assert.NotEmpty(t, got, c.words) {
			assert.Equal(t, c.row, got[0].Food.Name, "%s %s %s", c.words, c.states, c.unit)
		}
	}
}

func TestWhatIsNoFoodOfTheTableFindsNothing(t *testing.T) {
	table := loaded(t)
	for _, words := range []string{"", "skewers", "parchment paper", "mayonaise", "slat", "chiken", "butter pecan swirl cake", "zzz"} {
		assert.Empty(t, table.Match(composition.Phrase{Words: words}), words)
	}
}

func TestASpellingNearAnotherFoodIsNeverTakenForIt(t *testing.T) {
	table := loaded(t)
	for word, not := range map[string]string{"goat": "oat", "malt": "salt", "rice": "ice", "almond": "salmon", "bass": "basil"} {
		for _, c := range table.Match(composition.Phrase{Words: word}) {
			assert.NotContains(t, strings.Fields(strings.ReplaceAll(c.Food.Name, ",", " ")), not, word)
		}
	}
}

func TestEveryNameInFullIsItsOwnRow(t *testing.T) {
	table := loaded(t)
	for _, f := range table.Foods() {
		got := table.Match(composition.Phrase{Words: f.Name})
		if assert.NotEmpty(t, got, f.Name) {
			assert.Equal(t, f.Name, got[0].Food.Name)
		}
	}
}

func TestSearchPutsThePlainFoodFirst(t *testing.T) {
	table := loaded(t)
	for query, want := range map[string]string{
		"salt": "salt, table", "milk": "milk, whole", "sugar": "sugar, granulated", "butter": "butter, salted",
		"egg": "egg, whole, raw", "chicken broth": "chicken broth, ready to serve", "onion": "onion, raw",
		"flour": "flour, all-purpose, bleached", "cheddar": "cheddar cheese", "tomato": "tomato, raw",
	} {
		got := table.Search(query, 5)
		if assert.NotEmpty(t, got, query) {
			assert.Equal(t, want, got[0].Name, query)
		}
	}
}

func TestADefaultSaysWhatItRestsOn(t *testing.T) {
	table := loaded(t)
	got := table.Match(composition.Phrase{Words: "milk", Unit: "cup"})
	require.Greater(t, len(got), 1)
	assert.Contains(t, got[0].Why, "whole milk unless stated")
	assert.Less(t, got[0].Weight, 0.8, "plain milk may be another")
}

func TestWeightsAreADistribution(t *testing.T) {
	table := loaded(t)
	for _, f := range table.Foods() {
		name, _, _ := strings.Cut(f.Name, ",")
		sum := 0.0
		got := table.Match(composition.Phrase{Words: name})
		assert.LessOrEqual(t, len(got), 5, name)
		for i, c := range got {
			assert.Positive(t, c.Weight)
			sum += c.Weight
			if i > 0 {
				assert.LessOrEqual(t, c.Weight, got[i-1].Weight+1e-12, name)
			}
		}
		assert.LessOrEqual(t, sum, 1+1e-9, name)
	}
}

func FuzzMatchAndSearch(f *testing.F) {
	table, err := Load()
	if err != nil {
		f.Fatal(err)
	}
	f.Add("low-sodium chicken broth", "canned rinsed", "can")
	f.Add("90% lean ground beef", "lean_9x", "lb")
	f.Add("½ jalapeño’s 'é, of the and", "lean_", "")
	f.Fuzz(func(t *testing.T, words, states, unit string) {
		got := table.Match(composition.Phrase{Words: words, States: strings.Fields(states), Unit: unit})
		for _, c := range got {
			if !(c.Weight > 0 && c.Weight <= 1+1e-9) {
				t.Fatalf("weight %v of %s for %q", c.Weight, c.Food.Name, words)
			}
		}
		if n := len(table.Search(words, 7)); n > 7 {
			t.Fatalf("%d foods, limit 7", n)
		}
		table.Suggest(words)
	})
}
