package household_test

import (
	"math"
	"math/big"
	"testing"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/spread"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// choices counts 15 g of carbohydrate as one, to the nearest half (American
// Diabetes Association: 15 g a choice).
func choices() household.Plan {
	return household.Plan{Unit: "choice", Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 1.0 / 15},
		RoundTo: 0.5, Allowance: 4, Per: household.PerMeal, Free: []string{"non_starchy_vegetable"}}
}

func carbohydrate(a household.Amount) household.Amounts {
	return func(n composition.Nutrient) household.Amount {
		if n == composition.Carbohydrate {
			return a
		}
		return household.Amount{}
	}
}

func TestCarbohydrateChoicesAreCountedToTheHalf(t *testing.T) {
	p := choices()
	for grams, want := range map[float64]float64{0: 0, 3.7: 0, 3.75: 0.5, 15: 1, 45: 3, 52.4: 3.5, 60: 4, 63.7: 4, 63.75: 4.5} {
		assert.Equal(t, want, p.Price(p.Weigh(carbohydrate(amount(grams, grams, grams))).Mid), "%v g", grams)
	}
}

func TestAPlanSaysWhatAPortionCosts(t *testing.T) {
	p := choices()
	f := p.Finding(p.Weigh(carbohydrate(amount(60, 67.5, 75))), 1)
	assert.Equal(t, household.Over, f.Fit)
	assert.Equal(t, spread.Range{Low: 4, Mid: 4.5, High: 5}, f.Amount)
	assert.Equal(t, "Allowance plan: 4.5 choices (4–5) of 4 a meal: over by 0.5.", f.Text)
	assert.Equal(t, household.Close, p.Judge(p.Weigh(carbohydrate(amount(45, 60, 75))), 1))
	assert.True(t, p.Fits(p.Weigh(carbohydrate(amount(45, 60, 75))), 1))
	some := amount(15, 15, 15)
	some.Unknown = 1
	assert.Equal(t, household.Unknown, p.Judge(p.Weigh(carbohydrate(some)), 1))
}

func TestADaysAllowanceIsSharedOut(t *testing.T) {
	p := choices()
	p.Per, p.Allowance = household.PerDay, 12
	assert.InDelta(t, 4, p.Budget(household.DefaultMealShare), 1e-12)
	assert.Contains(t, p.Finding(household.Amount{}, household.DefaultMealShare).Text, "of 4 a meal (a third of 12 a day)")
}

func TestFreeKindsAreTold(t *testing.T) {
	p := choices()
	assert.True(t, p.IsFree(&composition.Food{Kinds: []string{"vegetable", "non_starchy_vegetable"}}))
	assert.False(t, p.IsFree(&composition.Food{Kinds: []string{"grain"}}))
	assert.False(t, p.IsFree(nil))
}

func TestANutrientThatLowersTheCostTurnsItsRangeRound(t *testing.T) {
	p := household.Plan{Weights: map[composition.Nutrient]float64{composition.Fibre: -0.1, composition.Energy: 0.02}}
	sum := p.Weigh(func(n composition.Nutrient) household.Amount {
		switch n {
		case composition.Energy:
			return amount(100, 100, 100)
		case composition.Fibre:
			return unknown(1, 2, 3)
		default:
			return household.Amount{}
		}
	})
	assert.InDelta(t, 1.7, sum.Low, 1e-12)
	assert.InDelta(t, 1.9, sum.High, 1e-12)
	p.Allowance, p.Per = 1, household.PerMeal
	assert.Equal(t, household.Unknown, p.Judge(sum, 1), "more fibre might still bring it inside")
}

// The oracle rounds half up in exact decimals of three places.
func TestRoundingAgreesWithExactArithmetic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thousandths := rapid.Int64Range(0, 100000).Draw(t, "sum")
		step := rapid.SampledFrom([]int64{50, 100, 125, 250, 500, 1000, 5000}).Draw(t, "step")
		p := household.Plan{RoundTo: float64(step) / 1000}
		q := new(big.Int).Div(big.NewInt(2*thousandths+step), big.NewInt(2*step)).Int64()
		assert.InDelta(t, float64(q*step)/1000, p.Price(float64(thousandths)/1000), 1e-9)
	})
}

func TestCeilingAndCostAgreeOnEverySum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := household.Plan{
			RoundTo:   rapid.SampledFrom([]float64{0, 0.1, 0.25, 0.5, 1, 10, 1.0 / 3}).Draw(t, "round"),
			Floor:     rapid.SampledFrom([]float64{0, 0, 0.5, 1, 3}).Draw(t, "floor"),
			Allowance: float64(rapid.IntRange(0, 400).Draw(t, "allowance")) / 8,
			Per:       rapid.SampledFrom([]household.Period{household.PerDay, household.PerMeal}).Draw(t, "per"),
		}
		share := rapid.SampledFrom([]float64{1, 0.5, 1.0 / 3, 0.25}).Draw(t, "share")
		bound, strict := p.Ceiling(share)
		sum := rapid.Float64Range(0, 60).Draw(t, "sum")
		if rapid.Bool().Draw(t, "at the edge") && !math.IsInf(bound, 0) {
			sum = math.Max(0, bound+rapid.SampledFrom([]float64{-1e-6, 1e-6}).Draw(t, "off"))
		}
		within := sum <= bound
		if strict {
			within = sum < bound
		}
		budget := p.Budget(share)
		assert.Equal(t, p.Price(sum) <= budget+household.Tolerance*math.Max(1, budget), within,
			"price %v budget %v bound %v", p.Price(sum), budget, bound)
		fits := p.Fits(household.Amount{Range: spread.Exact(sum)}, share)
		assert.Equal(t, fits, within)
	})
}

func TestMoreNeverCostsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := choices()
		p.RoundTo = rapid.SampledFrom([]float64{0, 0.5, 1}).Draw(t, "round")
		p.Floor = rapid.Float64Range(0, 2).Draw(t, "floor")
		a := rapid.Float64Range(0, 300).Draw(t, "a")
		b := a + rapid.Float64Range(0, 100).Draw(t, "more")
		assert.LessOrEqual(t, p.Price(a), p.Price(b))
		assert.GreaterOrEqual(t, p.Price(a), p.Floor)
	})
}

func TestAFloorAboveTheAllowanceFitsNothing(t *testing.T) {
	p := choices()
	p.Floor, p.Allowance = 2, 1
	bound, strict := p.Ceiling(1)
	require.True(t, strict)
	assert.True(t, math.IsInf(bound, -1))
	assert.False(t, p.Fits(household.Amount{}, 1))
}
