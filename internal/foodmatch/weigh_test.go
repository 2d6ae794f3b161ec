package foodmatch_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/recipe"
	"potwright/internal/spread"
)

func table(t testing.TB) *composition.Table {
	t.Helper()
	loaded, err := fooddata.Load()
	require.NoError(t, err)
	return loaded
}

// Weights: USDA SR28 WEIGHT for the food named, NIST Handbook 44 for ounces and
// pounds; usual sizes are common practice.
func TestGramsOfLines(t *testing.T) {
	foods := table(t)
	cases := []struct {
		line     string
		mid      float64
		within   float64 // relative
		from     string
		state    foodmatch.State
		contains string // of the food's name
	}{
		{"1 lb ground beef", 453.6, 0.01, "written weight", foodmatch.Assumed, "beef"},
		{"250 g ground beef", 250, 0.001, "written weight", foodmatch.Assumed, "beef"},
		// A tenth is trimmed off (USDA SR28 11098, refuse).
		{"2 cups (1 pound) Brussels sprouts, trimmed", 408.2, 0.01, "written weight", foodmatch.Read, "brussels"},
		{"1 cup chopped onion", 160, 0.02, "measure of this food", foodmatch.Read, "onion"},
		{"1 cup sliced onion", 115, 0.02, "measure of this food", foodmatch.Read, "onion"},
		{"1 tablespoon olive oil", 13.5, 0.02, "measure of this food", foodmatch.Read, "olive oil"},
		{"1/4 cup olive oil", 54, 0.02, "measure of this food", foodmatch.Read, "olive oil"},
		{"1 medium onion", 110, 0.02, "measure of this food", foodmatch.Read, "onion"},
		{"1 onion", 110, 0.02, "measure of this food", foodmatch.Assumed, "onion"},
		{"3 cloves garlic, minced", 9, 0.01, "measure of this food", foodmatch.Read, "garlic"},
		{"3 eggs", 150, 0.01, "measure of this food", foodmatch.Read, "egg, whole"},
		{"1 stick butter", 113.4, 0.01, "usual size", foodmatch.Read, "butter"},
		{"1 teaspoon salt", 6, 0.02, "measure of this food", foodmatch.Read, "salt"},
		{"1 (15 oz) can kidney beans, drained and rinsed", 425.2 * 266 / 436, 0.01, "printed size, drained", foodmatch.Read, "kidney beans"},
		{"1 can kidney beans, drained", 425.2 * 266 / 436, 0.01, "usual size, drained", foodmatch.Assumed, "kidney beans"},
		{"1 can cream of mushroom soup (10.75 oz)", 304.8, 0.01, "printed size", foodmatch.Read, "mushroom"},
		{"4 4-ounce tilapia fillets", 453.6, 0.01, "printed size", foodmatch.Read, "tilapia"},
		{"4 chicken breasts, boneless and skinless (about 4 ounces each)", 453.6, 0.01, "printed size", foodmatch.Read, "chicken breast"},
		{"juice of 1 lemon", 48, 0.02, "measure of this food", foodmatch.Read, "lemon juice"},
		{"4 chicken sausages", 320, 0.01, "usual weight", foodmatch.Assumed, "sausage"},
		{"2 slices sourdough", 110, 0.01, "usual weight", foodmatch.Assumed, "french bread"},
		{"25 g butter + a knob to finish", 25, 0.01, "written weight", foodmatch.Read, "butter"},
		{"clove of garlic, crushed", 3, 0.01, "measure of this food", foodmatch.Read, "garlic"},
		{"large red onion, sliced", 150, 0.02, "measure of this food", foodmatch.Read, "onion"},
		{"can of kidney beans, drained", 425.2 * 266 / 436, 0.01, "usual size, drained", foodmatch.Assumed, "kidney beans"},
		{"stick of butter", 113.4, 0.01, "usual size", foodmatch.Read, "butter"},
		{"small can tomatoes", 0.55 * 14.5 * 28.35, 0.01, "usual size", foodmatch.Assumed, "tomatoes, canned"},
		{"small bunch of coriander", 0.7 * 50, 0.01, "measure of this food", foodmatch.Read, "cilantro"},
		{"2 packets of basil", 50, 0.01, "usual size", foodmatch.Assumed, "basil"},
		{"thumb-sized piece of ginger", 11, 0.01, "usual weight", foodmatch.Assumed, "ginger root"},
		{"5 cm piece ginger, grated", 15.5, 0.01, "usual weight", foodmatch.Assumed, "ginger root"},
		{"4 8-inch flour tortillas", 196, 0.01, "measure of this food", foodmatch.Read, "flour tortilla"},
	}
	for _, c := range cases {
		t.Run(c.line, func(t *testing.T) {
			m := foodmatch.Weigh(ingredient.Read(c.line), foods, nil, nil)
			require.Len(t, m.Items, 1)
			i := m.Items[0]
			assert.InEpsilon(t, c.mid, i.Grams.Mid, c.within)
			assert.True(t, i.Grams.Low < i.Grams.Mid && i.Grams.Mid < i.Grams.High, "a range: %+v", i.Grams)
			assert.Equal(t, c.from, i.GramsFrom)
			assert.Equal(t, c.state, m.State, m.Notes)
			assert.Contains(t, i.Food.Name, c.contains)
		})
	}
}

func TestARowWithLessSaltThanTheLineSaysIsNotTakenInSilence(t *testing.T) {
	foods, err := composition.NewTable([]*composition.Food{{ID: "x:1", Name: "fish cakes, reduced sodium", States: []string{"reduced_sodium"}, Synonyms: []string{"fish cake"}}})
	require.NoError(t, err)
	m := foodmatch.Weigh(ingredient.Read("200 g fish cakes"), foods, nil, nil)
	assert.Equal(t, foodmatch.Assumed, m.State)
	assert.Contains(t, strings.Join(m.Notes, "\n"), "less salt than usual")
	m = foodmatch.Weigh(ingredient.Read("200 g reduced-sodium fish cakes"), foods, nil, nil)
	assert.Equal(t, foodmatch.Read, m.State)
}

func TestPeelIsTakenOffAWeightAsBought(t *testing.T) {
	foods := table(t)
	bought := foodmatch.Weigh(ingredient.Read("1 lb bananas"), foods, nil, nil)
	peeled := foodmatch.Weigh(ingredient.Read("1 lb peeled bananas"), foods, nil, nil)
	require.NotEmpty(t, bought.Items)
	require.NotEmpty(t, peeled.Items)
	// Refuse of bananas, 36 %: USDA SR28 09040.
	assert.InEpsilon(t, 0.64*453.6, bought.Items[0].Grams.Mid, 0.01)
	assert.InEpsilon(t, 453.6, peeled.Items[0].Grams.Mid, 0.01)
	assert.Contains(t, bought.Notes, "36 % of the weight as bought is not eaten (peel, bone, core)")
}

func TestSaltAndPepperAreTwoFoods(t *testing.T) {
	m := foodmatch.Weigh(ingredient.Read("salt and pepper to taste"), table(t), nil, nil)
	require.Len(t, m.Items, 2)
	assert.Equal(t, foodmatch.Assumed, m.State)
	assert.Contains(t, m.Items[0].Food.Name, "salt")
	assert.Contains(t, m.Items[1].Food.Name, "pepper, black")
	assert.Zero(t, m.Items[0].Grams.Low)
	assert.Greater(t, m.Items[0].Grams.High, 3*m.Items[0].Grams.Mid)
}

func TestWhatIsNotUnderstoodIsUnreadAndNeverNothing(t *testing.T) {
	foods := table(t)
	for _, line := range []string{"", "1 cup", "2 cups grumbleweed", "99999999 99999999", "one"} {
		m := foodmatch.Weigh(ingredient.Read(line), foods, nil, nil)
		assert.Equal(t, foodmatch.Unread, m.State, line)
		assert.Empty(t, m.Items, line)
		assert.NotEmpty(t, m.Notes, line)
	}
}

func TestAnOptionalLineIsLeftOutOfTheFigureButNotOfTheRange(t *testing.T) {
	m := foodmatch.Weigh(ingredient.Read("1/4 teaspoon salt (optional)"), table(t), nil, nil)
	assert.Equal(t, foodmatch.Assumed, m.State)
	assert.Contains(t, m.Notes, "optional: the figure leaves it out, the range reaches to all of it")
	assert.Zero(t, m.Grams().Mid)
	assert.InDelta(t, 1.5, m.Grams().High, 0.2)
}

func TestCorrectionsDecide(t *testing.T) {
	foods := table(t)
	r := ingredient.Read("1 cup milk")
	skim, ok := foods.ByID("sr:01085")
	require.True(t, ok)

	m := foodmatch.Weigh(r, foods, &recipe.Correction{FoodID: skim.ID}, nil)
	require.Len(t, m.Items, 1)
	assert.Equal(t, skim, m.Items[0].Food)
	assert.Equal(t, foodmatch.Read, m.State)

	given := spread.Range{Low: 90, Mid: 100, High: 110}
	m = foodmatch.Weigh(r, foods, &recipe.Correction{Grams: &given}, nil)
	require.Len(t, m.Items, 1)
	assert.Equal(t, given, m.Items[0].Grams)
	assert.Equal(t, "weight you gave", m.Items[0].GramsFrom)

	m = foodmatch.Weigh(r, foods, &recipe.Correction{Skip: true}, nil)
	assert.Equal(t, foodmatch.Skipped, m.State)

	kept := map[string]recipe.Correction{foodmatch.Phrase(r): {FoodID: skim.ID}}
	m = foodmatch.Weigh(ingredient.Read("2 cups milk, cold"), foods, nil, kept)
	require.Len(t, m.Items, 1)
	assert.Equal(t, skim, m.Items[0].Food)
}

// A food is remembered by its words: once or several times, weighed or not.
func TestWhatIsRememberedHoldsForTheSameFood(t *testing.T) {
	foods := table(t)
	spring, ok := foods.ByID("sr:11291")
	require.True(t, ok)
	choice, skip := recipe.Correction{FoodID: spring.ID}, recipe.Correction{Skip: true}
	weight := spread.Exact(300)
	weighed := &recipe.Correction{Grams: &weight}
	for name, c := range map[string]struct {
		line    string
		choices map[string]recipe.Correction
		fix     *recipe.Correction
		chosen  bool
		skipped bool
	}{
		"several, where one is remembered":  {"2 onions, chopped", map[string]recipe.Correction{"onion": choice}, nil, true, false},
		"one, where several are remembered": {"1 onion", map[string]recipe.Correction{"onions": choice, "onions; cooked": skip, "oil": skip}, nil, true, false},
		"its own words go first":            {"2 onions", map[string]recipe.Correction{"onions": choice, "onion": skip}, nil, true, false},
		"another food":                      {"2 red onions", map[string]recipe.Correction{"onion": choice, "onions": choice}, nil, false, false},
		"another state":                     {"1 cup cooked rice", map[string]recipe.Correction{"rice": choice}, nil, false, false},
		"weighed, and no food said":         {"2 cups milk", map[string]recipe.Correction{"milk": choice}, weighed, true, false},
		"weighed, though left out before":   {"2 cups milk", map[string]recipe.Correction{"milk": skip}, weighed, false, false},
		"left out before":                   {"2 cups milk", map[string]recipe.Correction{"milk": skip}, nil, false, true},
	} {
		m := foodmatch.Weigh(ingredient.Read(c.line), foods, c.fix, c.choices)
		assert.Equal(t, c.chosen, len(m.Items) == 1 && m.Items[0].Food == spring, name)
		assert.Equal(t, c.skipped, m.State == foodmatch.Skipped, name)
		if c.fix != nil {
			assert.InDelta(t, 300, m.Grams().Mid, 1e-9, name)
		}
	}
	phrase, _, ok := foodmatch.Remembered(map[string]recipe.Correction{"onion": choice}, ingredient.Read("3 onions"))
	assert.True(t, ok)
	assert.Equal(t, "onion", phrase, "what is said anew takes its place")
}

func TestThePhraseForgetsAmountAndPreparation(t *testing.T) {
	a := foodmatch.Phrase(ingredient.Read("2 cups low-sodium chicken broth"))
	b := foodmatch.Phrase(ingredient.Read("1/2 cup chicken broth, low sodium"))
	assert.Equal(t, a, b)
	assert.NotEqual(t, a, foodmatch.Phrase(ingredient.Read("2 cups chicken broth")))
}

func TestTwiceTheAmountWeighsTwiceAsMuch(t *testing.T) {
	foods := table(t)
	rest := []string{" cups rice", " tablespoons butter", " cloves garlic", " (15 oz) cans black beans, drained", " medium carrots", " lb potatoes", " eggs"}
	rapid.Check(t, func(t *rapid.T) {
		food := rapid.SampledFrom(rest).Draw(t, "line")
		n := rapid.IntRange(2, 20).Draw(t, "n")
		one := foodmatch.Weigh(ingredient.Read("2"+food), foods, nil, nil)
		many := foodmatch.Weigh(ingredient.Read(itoa(2*n)+food), foods, nil, nil)
		require.Len(t, one.Items, 1)
		require.Len(t, many.Items, 1)
		require.InEpsilon(t, float64(n)*one.Items[0].Grams.Mid, many.Items[0].Grams.Mid, 1e-9)
	})
}

func itoa(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return itoa(n/10) + itoa(n%10)
}

func FuzzWeigh(f *testing.F) {
	foods := table(f)
	f.Add("1 cup rice")
	f.Add("2 (15 oz) cans beans or 1 cup rice, optional")
	f.Add("salt and pepper to taste")
	f.Fuzz(func(t *testing.T, line string) {
		m := foodmatch.Weigh(ingredient.Read(line), foods, nil, nil)
		if (m.State == foodmatch.Unread) != (len(m.Items) == 0) && m.State != foodmatch.Skipped {
			t.Fatalf("state %s with %d items", m.State, len(m.Items))
		}
		for _, i := range m.Items {
			if !i.Grams.Valid() || i.Food == nil || len(i.Candidates) == 0 {
				t.Fatalf("bad item %+v", i)
			}
		}
	})
}

func BenchmarkReadAndWeigh(b *testing.B) {
	foods := table(b)
	lines := []string{"1 (14.5 oz) can diced tomatoes, drained", "2 cups cooked brown rice", "1 medium onion, chopped", "salt and pepper to taste",
		"1/2 cup reduced-fat cheddar cheese, shredded", "3 cloves garlic, minced", "1 lb ground beef (90% lean)"}
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		foodmatch.Weigh(ingredient.Read(lines[i%len(lines)]), foods, nil, nil)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "lines/s")
}

func TestALongWordOneLetterOffIsReadAndSaid(t *testing.T) {
	m := foodmatch.Weigh(ingredient.Read("1/2 cup mayonaise"), table(t), nil, nil)
	assert.Equal(t, foodmatch.Assumed, m.State)
	assert.Contains(t, m.Notes, "\"mayonaise\" is read as \"mayonnaise\"")
	assert.Less(t, m.Confidence, 0.75)
}

func TestAMisspelledFoodIsAskedAbout(t *testing.T) {
	m := foodmatch.Weigh(ingredient.Read("1/2 cup majonaise"), table(t), nil, nil)
	assert.Equal(t, foodmatch.Unread, m.State)
	assert.Contains(t, m.Notes, "\"majonaise\" is not in the food table; did you mean \"mayonnaise\"?")
}

func BenchmarkUnreadLine(b *testing.B) {
	foods := table(b)
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		foodmatch.Weigh(ingredient.Read("2 cups xylomarrow qwertleaf zzyx"), foods, nil, nil)
	}
}
