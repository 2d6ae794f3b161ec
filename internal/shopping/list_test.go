package shopping_test

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/demo"
	"potwright/internal/foodmatch"
	"potwright/internal/kitchen"
	"potwright/internal/measure"
	"potwright/internal/shopping"
	"potwright/internal/testkit"
)

var update = flag.Bool("update", false, "rewrite the golden list")

func dish(t testing.TB, k *kitchen.Kitchen, text string) shopping.Dish {
	t.Helper()
	a, err := k.Read(text, nil, nil)
	require.NoError(t, err)
	d := shopping.Dish{Title: a.Recipe.Title}
	for _, lp := range a.Pot.Lines {
		d.Lines = append(d.Lines, *lp.Matched)
	}
	return d
}

func lines(t testing.TB, k *kitchen.Kitchen, ls ...string) shopping.Dish {
	text := "A dish\n\nServes 2\n\nIngredients\n"
	for _, l := range ls {
		text += l + "\n"
	}
	return dish(t, k, text)
}

func TestTheDemoDishesMakeOneList(t *testing.T) {
	k := testkit.Kitchen(t)
	var ds []shopping.Dish
	for _, name := range demo.Dishes() {
		text, err := demo.Dish(name)
		require.NoError(t, err)
		ds = append(ds, dish(t, k, text))
	}
	var b bytes.Buffer
	for _, it := range shopping.List(ds, shopping.Pounds) {
		fmt.Fprintf(&b, "%s | %s | %s | %.1f g\n", it.Name, it.Row, it.Amount, it.Grams.Mid)
		for _, u := range it.Uses {
			fmt.Fprintf(&b, "    %s: %s\n", u.Title, u.Text)
		}
	}
	const golden = "testdata/demo.golden"
	if *update {
		require.NoError(t, os.WriteFile(golden, b.Bytes(), 0o600))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
}

func TestHowAmountsAreBought(t *testing.T) {
	k := testkit.Kitchen(t)
	for _, c := range []struct {
		name    string
		first   []string
		second  []string
		weights shopping.Weights
		want    string
	}{
		{"cans of one size are counted together", []string{"1 (15 oz) can kidney beans"}, []string{"2 (15 oz) cans kidney beans"}, shopping.Pounds, "3 cans of 15 oz"},
		{"cans of two sizes stay apart", []string{"1 (15 oz) can crushed tomatoes"}, []string{"1 (28 oz) can crushed tomatoes"}, shopping.Pounds, "1 can of 15 oz and 1 can of 28 oz"},
		{"pounds and ounces are one weight", []string{"1 lb ground beef"}, []string{"8 oz ground beef"}, shopping.Pounds, "1.5 lb"},
		{"grams are grams", []string{"500 g ground beef"}, []string{"250 g ground beef"}, shopping.Grams, "750 g"},
		{"from a kilogram on it is kilograms", []string{"800 g ground beef"}, []string{"700 g ground beef"}, shopping.Grams, "1.5 kg"},
		{"spoons and cups add up", []string{"1/4 cup honey"}, []string{"4 tbsp honey"}, shopping.Grams, "1/2 cup, about 170 g"},
		{"broth is bought by volume", []string{"4 cups chicken broth"}, []string{"3 cups chicken broth"}, shopping.Pounds, "7 cups, about 56 fl oz"},
		{"from a litre on it is litres", []string{"4 cups chicken broth"}, []string{"3 cups chicken broth"}, shopping.Grams, "7 cups, about 1.7 l"},
		{"milk by weight is bought by volume", []string{"500 g whole milk"}, nil, shopping.Grams, "490 ml"},
		{"a spoon of oil is a spoon of oil", []string{"1 tbsp olive oil"}, nil, shopping.Grams, "1 tbsp"},
		{"dry milk is weighed", []string{"1 cup dry milk powder"}, nil, shopping.Grams, " g"},
		{"half a piece is bought whole", []string{"1/2 lemon"}, nil, shopping.Grams, "1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			ds := []shopping.Dish{lines(t, k, c.first...)}
			if c.second != nil {
				ds = append(ds, lines(t, k, c.second...))
			}
			list := shopping.List(ds, c.weights)
			require.Len(t, list, 1)
			assert.Contains(t, list[0].Amount, c.want)
		})
	}
}

func TestWaterIsNotBoughtAndASeasoningIsNamedOnce(t *testing.T) {
	k := testkit.Kitchen(t)
	d := lines(t, k, "2 cups water", "salt and pepper to taste", "1 cup grated moonroot")
	list := shopping.List([]shopping.Dish{d, d}, shopping.WeightsOf(measure.US))
	require.Len(t, list, 3)
	assert.True(t, list[0].ToTaste())
	assert.Empty(t, list[0].Amount)
	assert.Len(t, list[0].Uses, 2)
	assert.Nil(t, list[2].Food, "an unread line is bought by its words")
	assert.Empty(t, shopping.List(nil, shopping.Grams))
	assert.Equal(t, shopping.Grams, shopping.WeightsOf(measure.Metric))
}

func TestAnItemIsCalledWhatTheLinesCallIt(t *testing.T) {
	k := testkit.Kitchen(t)
	for line, want := range map[string]string{
		"4 slices bacon, bought ready cut":                        "bacon",
		"2 (15 oz) cans white beans, drained, mashed and sieved":  "white beans",
		"1 tablespoon salt, for the pasta water":                  "salt",
		"1 1/4 pounds boneless, skinless chicken breast, trimmed": "chicken breast",
		"1 pound penne": "penne",
	} {
		list := shopping.List([]shopping.Dish{lines(t, k, line)}, shopping.Pounds)
		require.Len(t, list, 1, line)
		assert.Equal(t, want, list[0].Name, line)
	}
}

func TestWhatIsPouredOffIsBoughtByTheCooksMeasureAlone(t *testing.T) {
	k := testkit.Kitchen(t)
	list := shopping.List([]shopping.Dish{lines(t, k, "1 tablespoon salt, for the pasta water", "1/2 teaspoon salt")}, shopping.Grams)
	require.Len(t, list, 1)
	assert.Equal(t, "3 1/2 tsp", list[0].Amount, "a weight beside it would be of what is taken up")
}

func TestMergingKeepsTheGrams(t *testing.T) {
	k := testkit.Kitchen(t)
	pool := lines(t, k, "1 onion", "2 large onions", "1 cup chopped onion", "1 (15 oz) can kidney beans", "3 oz kidney beans, canned",
		"salt to taste", "1 tsp salt", "1/2 cup olive oil", "2 tbsp olive oil", "1 lb ground beef", "200 g ground beef", "1 cup grated moonroot", "1/2 cup walnuts, optional").Lines
	rapid.Check(t, func(rt *rapid.T) {
		var ds []shopping.Dish
		var want float64
		uses := 0
		for range rapid.IntRange(0, 5).Draw(rt, "dishes") {
			d := shopping.Dish{Title: "A dish"}
			for _, i := range rapid.SliceOf(rapid.IntRange(0, len(pool)-1)).Draw(rt, "lines") {
				m := pool[i]
				d.Lines = append(d.Lines, m)
				if m.State != foodmatch.Unread {
					want += m.Grams().Mid
				}
				uses++
			}
			ds = append(ds, d)
		}
		var got float64
		for _, it := range shopping.List(ds, shopping.Weights(rapid.IntRange(0, 1).Draw(rt, "weights"))) {
			got += it.Grams.Mid
			uses -= len(it.Uses)
		}
		if math.Abs(got-want) > 1e-6*math.Max(1, want) {
			rt.Fatalf("the list weighs %g g, the lines %g g", got, want)
		}
		if uses != 0 {
			rt.Fatalf("%d lines are missing from the list", uses)
		}
	})
}
