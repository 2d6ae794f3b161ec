package nutrient_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/nutrient"
	"potwright/internal/spread"
)

func cooked(tb *composition.Table, text string, c nutrient.Cooked) (raw, got nutrient.LinePanel) {
	m := foodmatch.Weigh(ingredient.Read(text), tb, nil, nil)
	return nutrient.Line("0", &m, 1), nutrient.Line("0", &m, 1, c)
}

// 100 ml of wine at 12 % by volume hold 9.47 g of alcohol (0.789 g a millilitre);
// 35 % of it stays after half an hour (USDA retention factors, Release 6, p. 12).
func TestAlcoholTakesItsEnergyWithIt(t *testing.T) {
	tb := table(t)
	var c nutrient.Cooked
	c.Lose(spread.Exact(0.65), composition.Alcohol)
	raw, got := cooked(tb, "100 g dry white wine", c)
	assert.InDelta(t, 0.35*raw.Panel[composition.Alcohol].Mid, got.Panel[composition.Alcohol].Mid, 1e-9)
	assert.InDelta(t, 7*0.65*raw.Panel[composition.Alcohol].Mid, raw.Panel[composition.Energy].Mid-got.Panel[composition.Energy].Mid, 1e-9)
	assert.Equal(t, raw.Panel[composition.Sugars], got.Panel[composition.Sugars])
}

func TestWhatIsThrownAwayTakesEverythingWithIt(t *testing.T) {
	tb := table(t)
	c := nutrient.Cooked{Away: spread.Range{Low: 0.75, Mid: 0.9, High: 0.95}}
	raw, got := cooked(tb, "1/2 cup soy sauce", c)
	for _, n := range composition.Nutrients() {
		assert.InDelta(t, 0.1*raw.Panel[n].Mid, got.Panel[n].Mid, 1e-9*(1+raw.Panel[n].Mid), n)
	}
	assert.InDelta(t, 0.1*raw.Grams.Mid, got.Finished.Mid, 1e-9*raw.Grams.Mid)
	assert.Equal(t, raw.Grams, got.Grams, "as it went in")
	assert.GreaterOrEqual(t, got.Panel[composition.Sodium].High, 0.25*raw.Panel[composition.Sodium].Mid)
}

func TestALossNeverRaisesAndKeepsRangesInOrder(t *testing.T) {
	tb := table(t)
	share := func(t *rapid.T, name string) spread.Range {
		a, b, c := rapid.Float64Range(0, 1).Draw(t, name+" a"), rapid.Float64Range(0, 1).Draw(t, name+" b"), rapid.Float64Range(0, 1).Draw(t, name+" c")
		low, high := min(a, b, c), max(a, b, c)
		return spread.Range{Low: low, Mid: a + b + c - low - high, High: high}
	}
	rapid.Check(t, func(t *rapid.T) {
		c := nutrient.Cooked{Away: share(t, "away")}
		for _, n := range []composition.Nutrient{composition.Fat, composition.Alcohol, composition.VitaminC, composition.Potassium} {
			c.Lose(share(t, n.Key()), n)
		}
		c.Gain = spread.Range{Low: -0.5, Mid: rapid.Float64Range(-0.5, 2).Draw(t, "gain"), High: 2}
		raw, got := cooked(tb, rapid.SampledFrom(lines).Draw(t, "line"), c)
		for _, n := range composition.Nutrients() {
			assert.LessOrEqual(t, got.Panel[n].Mid, raw.Panel[n].Mid+1e-12, n)
			assert.True(t, got.Panel[n].Valid(), "%s %+v", n, got.Panel[n])
		}
		assert.True(t, got.Finished.Valid(), "%+v", got.Finished)
	})
}

// USDA SR28: stews and soups weigh some 240 to 256 g a US cup of 237 ml, cooked
// macaroni 140 g.
func TestVolumeOfTheFinishedDish(t *testing.T) {
	tb := table(t)
	soup := nutrient.Sum([]nutrient.LinePanel{line(tb, "0", "6 cups chicken broth"), line(tb, "1", "2 carrots"), line(tb, "2", "1 onion")}, 4)
	perCup := soup.YieldGrams.Mid / soup.YieldMillilitres.Mid * 236.6
	assert.InDelta(t, 240, perCup, 12)
	none := spread.Range{}
	still := soup.Finished(nutrient.Finish{Evaporated: &none})
	assert.Greater(t, still.YieldGrams.Mid, soup.YieldGrams.Mid)
}

func TestTheCooksOwnMeasureReplacesTheComputedOne(t *testing.T) {
	tb := table(t)
	pot := nutrient.Sum([]nutrient.LinePanel{line(tb, "0", "6 cups chicken broth"), line(tb, "1", "1 lb chicken")}, 4)
	grams, ml := spread.Range{Low: 1140, Mid: 1200, High: 1260}, spread.Range{Low: 1000, Mid: 1100, High: 1200}
	weighed := pot.Finished(nutrient.Finish{Grams: &grams})
	assert.Equal(t, grams, weighed.YieldGrams)
	assert.InDelta(t, 1200, weighed.YieldMillilitres.Mid, 150)
	filled := pot.Finished(nutrient.Finish{Millilitres: &ml})
	assert.Equal(t, ml, filled.YieldMillilitres)
	assert.InDelta(t, 1100, filled.YieldGrams.Mid, 150)
	both := pot.Finished(nutrient.Finish{Grams: &grams, Millilitres: &ml})
	assert.Equal(t, grams, both.YieldGrams)
	assert.Equal(t, ml, both.YieldMillilitres)
	assert.Equal(t, pot.Total, both.Total, "what the dish weighs changes nothing in it")
}
