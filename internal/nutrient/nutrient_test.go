package nutrient_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/fooddata"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

func table(t testing.TB) *composition.Table {
	t.Helper()
	tb, err := fooddata.Load()
	require.NoError(t, err)
	return tb
}

func line(tb *composition.Table, id, text string) nutrient.LinePanel {
	m := foodmatch.Weigh(ingredient.Read(text), tb, nil, nil)
	return nutrient.Line(id, &m, 1)
}

// USDA SR28, 02047 Salt, table: 38,758 mg sodium in 100 g, 6.0 g a teaspoon.
// The crystals' weights are common practice: 2.8 g a teaspoon of hollow flakes,
// 4.8 g of compact flakes.
func TestSodiumOfSaltByCrystal(t *testing.T) {
	tb := table(t)
	for text, want := range map[string]float64{
		"1 teaspoon salt":     2325,
		"1/4 teaspoon salt":   581,
		"6 g salt":            2325,
		"1 tablespoon salt":   3 * 2325,
		"1 teaspoon sea salt": 5 * 387.58,
	} {
		got := line(tb, "0", text).Panel[composition.Sodium]
		assert.InDelta(t, want, got.Mid, 0.02*want, text)
		assert.LessOrEqual(t, got.Low, want, text)
		assert.GreaterOrEqual(t, got.High, want, text)
	}
}

// Canned kidney beans, USDA SR28: 256 mg sodium in 100 g with their liquid
// (16034), 231 drained (16145), 208 drained and rinsed (16335); a can holds
// 436 g, 266 g drained.
func TestDrainingIsTheRowOfThatStateWithItsOwnWeight(t *testing.T) {
	tb := table(t)
	drained := line(tb, "0", "1 (15 oz) can kidney beans, drained").Panel[composition.Sodium].Mid
	rinsed := line(tb, "0", "1 (15 oz) can kidney beans, drained and rinsed").Panel[composition.Sodium].Mid
	assert.InDelta(t, 614, drained, 0.10*614)
	assert.InDelta(t, 553, rinsed, 0.10*553)
}

func TestAnUnreadLineLeavesEveryNutrientUnknown(t *testing.T) {
	tb := table(t)
	pot := nutrient.Sum([]nutrient.LinePanel{line(tb, "0", "1 cup milk"), line(tb, "1", "2 cups blorfuzz")}, 4)
	for _, n := range composition.Nutrients() {
		assert.Contains(t, pot.Unknown[n], 1, n)
		assert.Positive(t, pot.Serving[n].Unknown, n)
	}
}

func TestLinesOfTheSameFoodMoveTogether(t *testing.T) {
	tb := table(t)
	half := func(p nutrient.Panel) float64 { return p[composition.Sodium].Up() / p[composition.Sodium].Mid }
	one := half(nutrient.Sum([]nutrient.LinePanel{line(tb, "0", "200 g cheddar cheese")}, 1).Total)
	two := half(nutrient.Sum([]nutrient.LinePanel{line(tb, "0", "100 g cheddar cheese"), line(tb, "1", "100 g cheddar cheese")}, 1).Total)
	assert.InDelta(t, one, two, 0.1*one, "two lots of one cheese are as uncertain as one; independent lots would be 0.71 of it")
}

func TestWhatIsOfferedAtTheTableIsNotInThePot(t *testing.T) {
	tb := table(t)
	salt := line(tb, "1", "1 teaspoon salt")
	salt.AtTable = true
	pot := nutrient.Sum([]nutrient.LinePanel{line(tb, "0", "4 cups water"), salt}, 4)
	assert.Less(t, pot.Serving[composition.Sodium].Mid, 50.0)
	assert.InDelta(t, 2325.0/4, pot.Table[composition.Sodium].Mid, 12)
}

var lines = []string{
	"1 cup milk", "2 large eggs", "1 lb ground beef", "3 cups chicken broth", "salt to taste", "1 bunch parsley",
	"1/2 cup butter", "2 cloves garlic", "1 (14.5 oz) can diced tomatoes", "1 cup rice", "juice of 1 lemon", "oil for frying",
}

func TestAPotIsTheSumOfItsLinesAndOfItsServings(t *testing.T) {
	tb := table(t)
	rapid.Check(t, func(t *rapid.T) {
		texts := rapid.SliceOfN(rapid.SampledFrom(lines), 1, 8).Draw(t, "lines")
		servings := rapid.Float64Range(1, 12).Draw(t, "servings")
		var panels []nutrient.LinePanel
		for i, text := range texts {
			panels = append(panels, line(tb, fmt.Sprint(i), text))
		}
		pot := nutrient.Sum(panels, servings)
		for _, n := range composition.Nutrients() {
			var mid float64
			for _, lp := range panels {
				mid += lp.Panel[n].Mid
			}
			assert.InDelta(t, mid, pot.Total[n].Mid, 1e-9*(1+mid))
			assert.InDelta(t, pot.Total[n].Mid, pot.Serving[n].Mid*servings, 1e-9*(1+mid))
			assert.True(t, spread.Range(pot.Total[n].Range).Valid(), "%v %+v", n, pot.Total[n])
		}
		assert.True(t, pot.YieldGrams.Valid(), "%+v", pot.YieldGrams)
	})
}
