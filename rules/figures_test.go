package rules_test

import (
	"testing"

	"potwright/internal/composition"
	"potwright/internal/recipe"
	"potwright/internal/swap"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ratios(t *testing.T, book *swap.Book, id string) []float64 {
	t.Helper()
	rule, ok := book.Rule(id)
	require.True(t, ok, id)
	var out []float64
	for _, w := range rule.With {
		out = append(out, w.Ratio)
	}
	return out
}

// Figures of the substitution lists that US state extension services publish,
// in cups and spoons of the new food to one of the old.
func TestRatiosAreThoseOfStateExtensionSubstitutionLists(t *testing.T) {
	book := realBook(t)
	const tbsp, tsp = 1.0 / 16, 1.0 / 48 // of a cup
	for _, c := range []struct {
		rule, figure string
		want         []float64
	}{
		{"flour-cornstarch", "1 tbsp flour is 1/2 tbsp cornstarch", []float64{1. / 2}},
		{"cornstarch-flour", "1 tbsp cornstarch is 2 tbsp flour", []float64{2}},
		{"cream-milk-butter", "1 cup heavy cream is 3/4 cup milk and 1/3 cup butter", []float64{3. / 4, 1. / 3}},
		{"half-and-half-milk-butter", "1 cup half-and-half is 1 tbsp butter and milk to 1 cup", []float64{1 - tbsp, tbsp}},
		{"buttermilk-soured-milk", "1 cup buttermilk is 1 tbsp lemon juice and milk to 1 cup", []float64{1 - tbsp, tbsp}},
		{"sour-cream-yogurt", "1 cup sour cream is 1 cup plain yogurt", []float64{1}},
		{"butter-olive-oil", "1 cup butter is 7/8 cup oil", []float64{7. / 8}},
		{"basil-fresh-to-dried", "1 tbsp fresh herbs is 1 tsp dried", []float64{1. / 3}},
		{"thyme-dried-to-fresh", "1 tsp dried herbs is 1 tbsp fresh", []float64{3}},
		{"garlic-powder", "1 clove is 1/8 tsp garlic powder", []float64{1. / 8}},
		{"onion-flakes", "1 medium onion is 2 tbsp dried minced onion", []float64{2}},
		{"egg-whites", "1 egg is 2 whites", []float64{2}},
		{"egg-product", "1 egg is 1/4 cup egg product", []float64{1. / 4}},
		{"egg-flax", "1 egg is 1 tbsp ground flax and 3 tbsp water", []float64{1, 3}},
		{"mustard-dry-vinegar", "1 tbsp prepared mustard is 1 tsp dry and 2 tsp vinegar", []float64{1. / 3, 2. / 3}},
		{"tomato-sauce-from-paste", "2 cups tomato sauce is 3/4 cup paste and 1 cup water", []float64{3. / 8, 1. / 2}},
		{"white-wine-vinegar-broth", "1/2 cup wine is 2 tbsp vinegar and broth to 1/2 cup", []float64{3. / 4, 1. / 4}},
		{"baking-powder-soda-tartar", "1 tsp baking powder is 1/4 tsp soda and 1/2 tsp cream of tartar", []float64{1. / 4, 1. / 2}},
		{"self-rising-flour-plain", "1 cup self-rising flour is 1 cup flour and 1 1/2 tsp baking powder", []float64{1, 1.5 * tsp}},
	} {
		assert.InDeltaSlice(t, c.want, ratios(t, book, c.rule), 0.005, "%s: %s", c.rule, c.figure)
	}
}

func gramsACan(f *composition.Food) float64 {
	for _, m := range f.Measures {
		if m.Unit == "can" && m.Amount == 1 {
			return m.Grams
		}
	}
	return 0
}

// Duyff, Mount and Jones (2011, J Culinary Science & Technology, doi
// 10.1080/15428052.2011.582405): draining canned beans lowers sodium by 36 %,
// rinsing them as well by 41 %, of five kinds. The table's rows (USDA SR28, the
// can weighed whole and drained) must lie within 16 percentage points of that:
// its own three kinds differ by 12.
func TestDrainedAndRinsedBeansLoseAsMuchSaltAsWasMeasured(t *testing.T) {
	table := realTable(t)
	food := func(name string) *composition.Food {
		f, ok := table.ByName(name)
		require.True(t, ok, name)
		return f
	}
	for _, bean := range []string{"kidney beans", "pinto beans", "chickpeas"} {
		whole, drained, rinsed := food(bean+", canned"), food(bean+", canned, drained"), food(bean+", canned, drained, rinsed")
		can := gramsACan(drained)
		before := whole.Nutrients[composition.Sodium].Mid * gramsACan(whole)
		require.NotZero(t, before*can, bean)
		lost := func(f *composition.Food) float64 { return 1 - f.Nutrients[composition.Sodium].Mid*can/before }
		assert.InDelta(t, 0.36, lost(drained), 0.16, bean)
		assert.InDelta(t, 0.41, lost(rinsed), 0.16, bean)
		assert.Greater(t, lost(rinsed), lost(drained), bean)
	}
}

func TestPotassiumSaltAndLeaveningAreNeverAutomatic(t *testing.T) {
	for _, rule := range realBook(t).Rules() {
		for _, w := range rule.With {
			if w.Row != nil && w.Row.HasKind("potassium_salt") || w.Food == "baking powder, low sodium" {
				assert.True(t, rule.Manual, rule.ID)
				assert.NotEmpty(t, rule.Cautions, rule.ID)
			}
		}
	}
}

func TestPicklesCannedGoodsAndCuresAreLeftAlone(t *testing.T) {
	book := realBook(t)
	for title, want := range map[string]bool{
		"Bread and butter pickles":      true,
		"Strawberry jam":                true,
		"Small-batch sauerkraut":        true,
		"Kimchi":                        true,
		"Home-cured pork belly":         true,
		"Pickled red onions":            true,
		"Pork chops with apple chutney": false,
		"Kimchi fried rice":             false,
		"Bean and sausage stew":         false,
		"Pickled beet salad":            false,
		"Sausage and sauerkraut":        false,
	} {
		_, got := book.Refuses(recipe.Recipe{Title: title})
		assert.Equal(t, want, got, title)
	}
	canned := recipe.Recipe{Title: "Tomatoes for winter", Steps: []recipe.Step{{Text: "Ladle into hot canning jars, leaving 1/2 inch headspace."}}}
	_, refused := book.Refuses(canned)
	assert.True(t, refused)
}
