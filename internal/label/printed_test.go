package label_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/label"
)

// Ends worked by hand from the increments of 21 CFR 101.9(c).
func TestAPrintedFigureStandsForTheAmountsThatRoundToIt(t *testing.T) {
	for _, c := range []struct {
		nutrient          composition.Nutrient
		figure, low, high float64
	}{
		{composition.Sodium, 140, 137.5, 145}, {composition.Sodium, 0, 0, 5},
		{composition.Sodium, 5, 5, 7.5}, {composition.Sodium, 150, 145, 155},
		{composition.Energy, 0, 0, 5}, {composition.Energy, 50, 47.5, 55},
		{composition.Fat, 0, 0, 0.5}, {composition.Fat, 5, 4.75, 5.5},
		{composition.Cholesterol, 0, 0, 2}, {composition.Cholesterol, 5, 2, 7.5},
		{composition.Carbohydrate, 0, 0, 0.5}, {composition.Carbohydrate, 1, 0.5, 1.5},
	} {
		got, ok := label.Printed(label.US, c.nutrient, c.figure)
		require.True(t, ok, "%s %v", c.nutrient, c.figure)
		assert.InDelta(t, c.low, got.Low, 1e-5, "%s %v", c.nutrient, c.figure)
		assert.InDelta(t, c.high, got.High, 1e-5, "%s %v", c.nutrient, c.figure)
	}
	for _, bad := range []float64{143, 3, -5, math.NaN(), math.Inf(1)} {
		_, ok := label.Printed(label.US, composition.Sodium, bad)
		assert.False(t, ok, "%v", bad)
	}
}

func TestEveryAmountLiesInTheRangeOfItsPrintedFigure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SampledFrom(composition.Nutrients()).Draw(t, "nutrient")
		x := rapid.Float64Range(0, 5000).Draw(t, "x")
		got, ok := label.Printed(label.US, n, label.Round(n, x))
		assert.True(t, ok)
		assert.LessOrEqual(t, got.Low, x+1e-5)
		assert.GreaterOrEqual(t, got.High, x-1e-5)
	})
}

// The step rules of 21 CFR 101.9(c)(8)(iii) and (d)(7)(ii); potassium 235 mg at
// 6 % is the sample label of 101.9(d)(12).
func TestDailyPercentFollowsBothStepRules(t *testing.T) {
	for _, c := range []struct {
		nutrient composition.Nutrient
		in, want float64
	}{
		{composition.Potassium, 235, 6}, {composition.Calcium, 260, 20}, {composition.Iron, 8, 45},
		{composition.VitaminD, 2, 10}, {composition.Iron, 1.3, 8}, {composition.Iron, 1.9, 10},
		{composition.Calcium, 310, 25}, {composition.Calcium, 20, 0}, {composition.Sodium, 160, 7},
		{composition.Fat, 8, 10}, {composition.Carbohydrate, 37, 13}, {composition.Fibre, 4, 14},
	} {
		got, ok := label.DailyPercent(c.nutrient, c.in)
		assert.True(t, ok)
		assert.Equal(t, c.want, got, "%s %v", c.nutrient, c.in)
	}
	_, ok := label.DailyPercent(composition.Water, 10)
	assert.False(t, ok)
	_, ok = label.DailyPercent(composition.Sodium, math.NaN())
	assert.False(t, ok)
}

// The guidance of December 2012 on Regulation (EU) 1169/2011: 1 g from 10 g, 0.1 g
// below, "0" up to 0.5 g (saturates 0.1 g); salt to 0.1 g from 1 g, else 0.01 g.
func TestEuropeanFiguresFollowTheGuidance(t *testing.T) {
	for _, c := range []struct {
		nutrient  composition.Nutrient
		in, want  float64
		low, high float64
	}{
		{composition.Fat, 0.5, 0, 0, 0.5}, {composition.Fat, 3.26, 3.3, 3.25, 3.35}, {composition.Fat, 12.4, 12, 11.5, 12.5},
		{composition.Fat, 0.51, 0.5, 0.5, 0.55}, {composition.SaturatedFat, 0.1, 0, 0, 0.1}, {composition.SaturatedFat, 0.14, 0.1, 0.1, 0.15},
		{composition.Energy, 61.4, 61, 60.5, 61.5}, {composition.Protein, 9.97, 10, 9.95, 10.5},
		{composition.Sodium, 456, 460, 455, 465}, {composition.Sodium, 4, 0, 0, 5},
		{composition.Calcium, 123.4, 123, 122.5, 123.5}, {composition.VitaminC, 12.6, 13, 12.5, 13.5},
	} {
		assert.InDelta(t, c.want, label.RoundEU(c.nutrient, c.in), 1e-9, "%s %v", c.nutrient, c.in)
		got, ok := label.Printed(label.EU, c.nutrient, c.want)
		require.True(t, ok, "%s %v", c.nutrient, c.want)
		assert.InDelta(t, c.low, got.Low, 1e-5, "%s %v", c.nutrient, c.want)
		assert.InDelta(t, c.high, got.High, 1e-5, "%s %v", c.nutrient, c.want)
	}
	_, ok := label.Printed(label.EU, composition.Fat, 3.26)
	assert.False(t, ok)
}

func TestEveryAmountLiesInTheRangeOfItsEuropeanFigure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SampledFrom(composition.Nutrients()).Draw(t, "nutrient")
		a := rapid.Float64Range(0, 900).Draw(t, "a")
		b := rapid.Float64Range(0, 900).Draw(t, "b")
		if a > b {
			a, b = b, a
		}
		assert.LessOrEqual(t, label.RoundEU(n, a), label.RoundEU(n, b)+1e-9)
		if got, ok := label.Printed(label.EU, n, label.RoundEU(n, a)); ok {
			assert.LessOrEqual(t, got.Low, a+1e-5)
			assert.GreaterOrEqual(t, got.High, a-1e-5)
			assert.True(t, got.Valid())
		}
	})
}

// Golden checks: Regulation (EU) 1169/2011, Annex I (salt is sodium times 2.5, not
// 2.54), and the Commission's guidance of 2012.
func TestSaltIsTwoAndAHalfTimesSodium(t *testing.T) {
	assert.InDelta(t, 400, label.Sodium(1), 1e-12)
	for in, want := range map[float64]float64{0.0125: 0, 0.456: 0.46, 1.23: 1.2, 0.996: 1} {
		assert.InDelta(t, want, label.RoundSalt(in), 1e-12)
	}
	assert.True(t, math.IsNaN(label.RoundSalt(math.NaN())))
	got, ok := label.PrintedSalt(1.2)
	require.True(t, ok)
	assert.InDelta(t, 1.15, got.Low, 1e-5)
	assert.InDelta(t, 1.25, got.High, 1e-5)
}

// 21 CFR 101.9(g)(4) and (5): a label of 140 mg sodium passes up to 168 mg, one of
// 5 g fibre from 4 g. Guidance of 2012, table 1 (from memory): below 10 g the
// European tolerance of carbohydrate is 2 g.
func TestTheLawLetsALabelBeOff(t *testing.T) {
	sodium := label.Tolerated(label.US, composition.Sodium, 140)
	assert.InDelta(t, 168, sodium.High, 1e-9)
	fibre := label.Tolerated(label.US, composition.Fibre, 5)
	assert.InDelta(t, 4, fibre.Low, 1e-9)
	carbohydrate := label.Tolerated(label.EU, composition.Carbohydrate, 5)
	assert.InDelta(t, 3, carbohydrate.Low, 1e-9)
	assert.InDelta(t, 7, carbohydrate.High, 1e-9)
	assert.Zero(t, label.Tolerated(label.EU, composition.Fat, 0.5).Low, "never below nothing")
}

func TestAPrintedPercentageStandsForARange(t *testing.T) {
	got, ok := label.PrintedPercent(composition.Calcium, 20)
	require.True(t, ok)
	assert.InDelta(t, 0.175*1300, got.Low, 1e-3)
	assert.InDelta(t, 0.225*1300, got.High, 1e-3)
	_, ok = label.PrintedPercent(composition.Calcium, 21)
	assert.False(t, ok, "the step is 5 from 10 to 50 %")
	_, ok = label.PrintedPercent(composition.Water, 20)
	assert.False(t, ok)
}
