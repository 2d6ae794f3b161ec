package portion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/measure"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

func choices() household.Plan {
	return household.Plan{Unit: "choice", Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 1.0 / 15}, RoundTo: 0.5, Allowance: 2, Per: household.PerMeal}
}

// 45 g of carbohydrate is 3 choices of 15 g (American Diabetes Association
// teaching material, from memory): half choices step at 0.25, 0.75 … of a choice.
func TestCostsAreToldAroundThePortion(t *testing.T) {
	steps := portion.Steps(choices(), 3, 2)
	assert.Equal(t, "2.5 choices under 0.91 of a serving, 3 choices under 1.08, 3.5 choices under 1.25, 4 choices under 1.41",
		portion.CostText(choices(), steps, 1))
	assert.Equal(t, "0 choices under 0.08 of a serving, 0.5 choices under 0.25, 1 choice under 0.41, 1.5 choices under 0.58",
		portion.CostText(choices(), steps, 0.1))
	assert.Contains(t, portion.CostText(choices(), steps, 2), ", then 6 choices")
	assert.Empty(t, portion.CostText(choices(), nil, 1))
}

func TestEveryCostHoldsUntilTheNextBegins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := choices()
		p.RoundTo = rapid.SampledFrom([]float64{0.25, 0.5, 1}).Draw(t, "round to")
		p.Floor = rapid.SampledFrom([]float64{0, 0.5, 2}).Draw(t, "floor")
		per := rapid.Float64Range(0.1, 8).Draw(t, "choices a serving")
		steps := portion.Steps(p, per, 2)
		for i, s := range steps {
			assert.InDelta(t, s.Cost, p.Price(per*(s.From+1e-6)), 1e-9)
			if i+1 < len(steps) {
				assert.InDelta(t, s.Cost, p.Price(per*(steps[i+1].From-1e-6)), 1e-9)
			}
		}
	})
}

func TestOneSizeForTheTableIsTheSmallestOfTheLargest(t *testing.T) {
	inf := math.Inf(1)
	got := portion.Common([]string{"Ana", "Ben", "Cleo"}, []portion.Largest{{Share: 1.2, By: "sodium", Known: true}, {Share: 0.8, By: "the allowance", Known: true}, {Share: inf, Known: true}})
	assert.Equal(t, portion.Largest{Share: 0.8, By: "the allowance of Ben", Known: true}, got)
	assert.False(t, portion.Common([]string{"Ana"}, []portion.Largest{{Share: 1}}).Bounded())
	assert.False(t, portion.Common(nil, nil).Bounded())
}

func TestAPortionIsToldInGramsAndWhereItIsPouredInCups(t *testing.T) {
	soup := nutrient.Pot{Servings: 6, YieldGrams: spread.Range{Low: 1620, Mid: 1860, High: 2100}, YieldMillilitres: spread.Range{Low: 1650, Mid: 1900, High: 2200}}
	assert.Equal(t, "about 310 g (270 to 350), 1 1/3 cups", portion.Dished(soup, 1).Text(measure.US))
	assert.Equal(t, "about 310 g (270 to 350), 1 1/4 cups", portion.Dished(soup, 1).Text(measure.Australian))
	assert.Equal(t, "about 160 g (140 to 180), 2/3 cup", portion.Dished(soup, 0.5).Text(measure.US))
	muffins := nutrient.Pot{Servings: 12, YieldGrams: spread.Range{Low: 700, Mid: 800, High: 900}, YieldMillilitres: spread.Range{Low: 700, Mid: 860, High: 1300}}
	assert.Equal(t, "about 65 g (60 to 75)", portion.Dished(muffins, 1).Text(measure.US), "nobody measures a muffin in cups")
	assert.Empty(t, portion.Dished(nutrient.Pot{Servings: 2}, 1).Text(measure.US))
}
