package fooddata

import (
	"math"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
)

func loaded(t testing.TB) *composition.Table {
	t.Helper()
	table, err := Load()
	require.NoError(t, err)
	return table
}

func TestTheTableHoldsAKitchenOfFoods(t *testing.T) {
	foods := loaded(t).Foods()
	require.GreaterOrEqual(t, len(foods), 1600)
	for _, f := range foods {
		assert.NotEmpty(t, f.Source, f.ID)
		assert.NotEmpty(t, f.Group, f.ID)
		assert.Equal(t, strings.TrimSpace(strings.ToLower(f.ID)), f.ID)
		assert.GreaterOrEqual(t, f.Refuse, 0.0, f.ID)
		assert.Less(t, f.Refuse, 1.0, f.ID)
	}
}

func TestOneHundredGramsHoldNoMoreThanOneHundredGrams(t *testing.T) {
	grams := []composition.Nutrient{composition.Water, composition.Protein, composition.Fat, composition.Carbohydrate, composition.Alcohol}
	for _, f := range loaded(t).Foods() {
		sum := 0.0
		for _, n := range grams {
			sum += f.Nutrients[n].Mid
		}
		// SR28 carbohydrate by difference and rounded parts pass 100 g by a little, cooked fish by up to 4.7 g.
		assert.LessOrEqual(t, sum, 105.0, "%s %s", f.ID, f.Name)
		part(t, f, composition.SaturatedFat, composition.Fat)
		part(t, f, composition.AddedSugars, composition.Sugars)
	}
}

// part checks that a part is at most the whole, up to the rounding of the source.
func part(t *testing.T, f *composition.Food, a, whole composition.Nutrient) {
	t.Helper()
	if x, y := f.Nutrients[a], f.Nutrients[whole]; x.Known && y.Known {
		assert.LessOrEqual(t, x.Mid, y.Mid*1.02+0.15, "%s %s: %s over %s", f.ID, f.Name, a, whole)
	}
}

func TestEnergyFollowsFromItsParts(t *testing.T) {
	off := 0
	foods := loaded(t).Foods()
	for _, f := range foods {
		c := f.Nutrients
		if !c[composition.Energy].Known || c[composition.Energy].Mid < 50 || f.HasKind("low_calorie_sweetener") {
			continue
		}
		// General factors of 4, 9, 4 and 7 kcal a gram; fibre yields about 2 less.
		sum := 4*c[composition.Protein].Mid + 9*c[composition.Fat].Mid + 4*c[composition.Carbohydrate].Mid +
			7*c[composition.Alcohol].Mid - 2*c[composition.Fibre].Mid
		if math.Abs(sum-c[composition.Energy].Mid) > 0.25*c[composition.Energy].Mid {
			off++
		}
	}
	assert.Less(t, off, len(foods)/20, "rows whose energy is over a quarter away from 4-9-4-7")
}

func TestWellKnownFiguresArrive(t *testing.T) {
	table := loaded(t)
	// USDA SR28 and FNDDS 2017-2018 as published.
	for _, c := range []struct {
		id       string
		nutrient composition.Nutrient
		mid      float64
	}{
		{"sr:01001", composition.Sodium, 643},
		{"sr:02047", composition.Sodium, 38758},
		{"sr:01123", composition.Protein, 12.56},
		{"sr:01077", composition.Sodium, 38}, // SR28 has 43, the survey 38
		{"sr:19335", composition.AddedSugars, 99.8},
		{"sr:11124", composition.Potassium, 320},
	} {
		f, ok := table.ByID(c.id)
		require.True(t, ok, c.id)
		assert.InDelta(t, c.mid, f.Nutrients[c.nutrient].Mid, 0.1, "%s %s", f.Name, c.nutrient)
	}
	milk, _ := table.ByID("sr:01077")
	assert.True(t, milk.Nutrients[composition.Sodium].HasOther)
	assert.Equal(t, 43.0, milk.Nutrients[composition.Sodium].Other)
}

func TestMeasuresHaveAUnitAndAWeight(t *testing.T) {
	n := 0
	for _, f := range loaded(t).Foods() {
		for _, m := range f.Measures {
			n++
			assert.Positive(t, m.Amount, f.ID)
			assert.Positive(t, m.Grams, "%s %s", f.ID, m.Unit)
			assert.NotEmpty(t, m.Unit, f.ID)
			assert.Equal(t, strings.ToLower(m.Unit+m.Qualifier), m.Unit+m.Qualifier, f.ID)
		}
	}
	assert.Greater(t, n, 4000)
}

func TestSaltWeighsByItsCrystal(t *testing.T) {
	table := loaded(t)
	// From memory: hollow flakes 2.8 g, rolled flakes 4.8 g, fine sea salt 5 g;
	// USDA SR28: table salt 6 g a teaspoon.
	for name, grams := range map[string]float64{
		"kosher salt, flake": 2.8, "kosher salt, rolled flake": 4.8, "sea salt, fine": 5, "salt, table": 6,
	} {
		f, ok := table.ByName(name)
		require.True(t, ok, name)
		found := false
		for _, m := range f.Measures {
			if m.Unit == "tsp" {
				found = true
				assert.Equal(t, grams, m.Grams/m.Amount, name)
			}
		}
		assert.True(t, found, name)
	}
}

// generic are the words with 's that belong to no maker.
var generic = map[string]bool{"baker's": true, "confectioner's": true, "lady's": true}

func TestNoMakersNameIsLeft(t *testing.T) {
	possessive := regexp.MustCompile(`\b[\pL]+['’]s\b`)
	capitals := regexp.MustCompile(`[A-Z]{2,}`)
	marks := regexp.MustCompile(`[™®©]|\b(inc|llc|corp|co|ltd|foods|company|brand|brands)\b`)
	for _, f := range loaded(t).Foods() {
		for _, text := range append([]string{f.Name}, f.Synonyms...) {
			for _, w := range possessive.FindAllString(text, -1) {
				assert.True(t, generic[strings.ReplaceAll(w, "’", "'")], "%s: %q", f.ID, text)
			}
			assert.False(t, capitals.MatchString(text), "%s: %q holds capitals", f.ID, text)
			assert.False(t, marks.MatchString(strings.ToLower(text)), "%s: %q names a firm", f.ID, text)
		}
		for _, m := range f.Measures {
			assert.False(t, marks.MatchString(m.Unit+" "+m.Qualifier), "%s: %q", f.ID, m.Qualifier)
		}
	}
}

func TestSiblingsThatSwapsNeedAreThere(t *testing.T) {
	table := loaded(t)
	for _, name := range []string{
		"butter, salted", "butter, unsalted", "chicken broth, ready to serve", "chicken broth, ready to serve, reduced sodium",
		"chicken broth, ready to serve, low sodium", "chicken broth, ready to serve, no salt added",
		"beef broth, ready to serve, no salt added", "vegetable broth, ready to serve, no salt added",
		"fish broth, ready to serve, no salt added", "bouillon, low sodium, dry", "chicken bouillon cube",
		"kidney beans, canned", "kidney beans, canned, drained", "kidney beans, canned, drained, rinsed",
		"kidney beans, canned, no salt added", "kidney beans, red, dry", "kidney beans, red, boiled",
		"black beans, canned, drained, rinsed", "chickpeas, canned, no salt added",
		"tomatoes, canned, in juice, no salt added", "tomatoes, crushed, canned, no salt added",
		"tomato sauce, canned, no salt added", "tomato paste, canned, no salt added", "ketchup, low sodium",
		"soy sauce, reduced sodium", "worcestershire sauce, reduced sodium", "bacon, raw, reduced sodium",
		"baking powder, low sodium", "cream of mushroom soup, condensed, reduced sodium", "flour, self-rising",
		"parmesan cheese, low sodium", "swiss cheese, low sodium", "evaporated milk, fat free", "oat milk",
		"soy milk, unsweetened", "almond milk, unsweetened", "lite salt, half potassium chloride", "garlic salt",
		"monosodium glutamate", "egg substitute, liquid, fat free", "panko bread crumbs", "puff pastry, frozen",
		"peanut butter, smooth, unsalted", "onion, frozen, chopped", "celery, frozen, diced", "xanthan gum",
	} {
		_, ok := table.ByName(name)
		assert.True(t, ok, name)
	}
}

func TestAFaultyFileIsReportedWithItsLine(t *testing.T) {
	measures := &fstest.MapFile{Data: []byte("")}
	good := "sr:1\ta\t0100\t0\t\t\t\t\ts" + strings.Repeat("\t", composition.NutrientCount)
	for name, c := range map[string]struct{ food, want string }{
		"too few columns":  {"sr:1\ta", "a.tsv:2: 2 columns; expected 31"},
		"a bad refuse":     {strings.Replace(good, "\t0100\t0\t", "\t0100\t1.5\t", 1), `refuse "1.5"`},
		"a bad nutrient":   {good + "x", `alcohol_g: "x"; expected an amount`},
		"a negative one":   {good + "-1", `alcohol_g: "-1"; expected an amount`},
		"a bad weight":     {strings.Replace(good, "\t\ts", "\tmilk=2\ts", 1), `weight "2"`},
		"an id used twice": {good + "\n" + strings.Replace(good, "\ta\t", "\tb\t", 1), `a.tsv:3: id "sr:1" stands twice`},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Read(fstest.MapFS{"a.tsv": {Data: []byte("# head\n" + c.food + "\n")}, MeasuresFile: measures})
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.want)
		})
	}
	_, err := Read(fstest.MapFS{"a.tsv": {Data: []byte(good + "\n")}, MeasuresFile: {Data: []byte("sr:9\t1\tcup\t\t1\t\t\n")}})
	require.ErrorContains(t, err, `measures.tsv:1: measure of "sr:9"`)
}

func TestAContentCellIsReadWithItsSpreadAndSecondValue(t *testing.T) {
	c, err := parseContent("43~2.5#9|38")
	require.NoError(t, err)
	assert.Equal(t, composition.Content{Known: true, Mid: 43, SD: 2.5, N: 9, Other: 38, HasOther: true}, c)
	c, err = parseContent("")
	require.NoError(t, err)
	assert.False(t, c.Known)
}
