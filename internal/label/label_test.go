package label_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/label"
)

// The increments are those of 21 CFR 101.9(c)(1)-(7), text of 2016.
func TestRoundFollowsThePublishedIncrements(t *testing.T) {
	for _, c := range []struct {
		nutrient composition.Nutrient
		in, want float64
	}{
		{composition.Sodium, 143, 140}, {composition.Sodium, 4.9, 0}, {composition.Sodium, 5, 5},
		{composition.Sodium, 137.4, 135}, {composition.Sodium, 137.5, 140}, {composition.Sodium, 138, 140},
		{composition.Sodium, 140, 140}, {composition.Sodium, 144.9, 140}, {composition.Sodium, 145, 150},
		{composition.Sodium, 149, 150}, {composition.Sodium, 1236, 1240},
		{composition.Energy, 3, 5}, {composition.Energy, 2.4, 0}, {composition.Energy, 47, 45},
		{composition.Energy, 50, 50}, {composition.Energy, 52, 50}, {composition.Energy, 236, 240},
		{composition.Fat, 0.49, 0}, {composition.Fat, 0.74, 0.5}, {composition.Fat, 4.75, 5},
		{composition.Fat, 5.4, 5}, {composition.SaturatedFat, 1.3, 1.5}, {composition.TransFat, 0.4, 0},
		{composition.Cholesterol, 1.9, 0}, {composition.Cholesterol, 7.4, 5}, {composition.Cholesterol, 7.5, 10},
		{composition.Carbohydrate, 0.4, 0}, {composition.Carbohydrate, 0.7, 1}, {composition.Carbohydrate, 1.4, 1},
		{composition.Protein, 2.5, 3}, {composition.Fibre, 0.1, 0},
		{composition.Potassium, 235, 240}, {composition.Iron, 8.04, 8}, {composition.VitaminD, 0.25, 0.3},
		{composition.VitaminK, 12.5, 13}, {composition.Sodium, -3, 0},
	} {
		assert.Equal(t, c.want, label.Round(c.nutrient, c.in), "Round(%s, %v)", c.nutrient, c.in)
	}
}

func TestTextSaysLessThanWhereTheRuleDoes(t *testing.T) {
	for _, c := range []struct {
		nutrient composition.Nutrient
		in       float64
		want     string
	}{
		{composition.Cholesterol, 3, "less than 5 mg"},
		{composition.Cholesterol, 1.9, "0 mg"},
		{composition.Carbohydrate, 0.7, "less than 1 g"},
		{composition.Carbohydrate, 0.4, "0 g"},
		{composition.Carbohydrate, 1.4, "1 g"},
		{composition.Sodium, 1236, "1,240 mg"},
		{composition.Fat, 0.74, "0.5 g"},
		{composition.Sodium, math.NaN(), "unknown mg"},
	} {
		assert.Equal(t, c.want, label.Text(c.nutrient, c.in))
	}
}

func TestFigureSeparatesThousands(t *testing.T) {
	for in, want := range map[float64]string{0: "0", 999: "999", 1000: "1,000", 1234567.5: "1,234,567.5",
		0.1 + 0.2: "0.3", -1500: "-1,500", -0.0001: "0"} {
		assert.Equal(t, want, label.Figure(in))
	}
}

func TestRoundingHalvesIsDecimal(t *testing.T) {
	// 0.1 added up 25 times is a hair under 2.5 in binary.
	sum := 0.0
	for range 25 {
		sum += 0.1
	}
	assert.Equal(t, 3.0, label.Nearest(sum, 1), fmt.Sprint(sum))
	assert.Equal(t, 0.3, label.Nearest(0.25, 0.1))
	assert.Equal(t, 7.0, label.Nearest(7, 0))
}

func TestRoundIsMonotoneAndIdempotent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SampledFrom(composition.Nutrients()).Draw(t, "nutrient")
		a := rapid.Float64Range(0, 5000).Draw(t, "a")
		b := rapid.Float64Range(0, 5000).Draw(t, "b")
		if a > b {
			a, b = b, a
		}
		ra, rb := label.Round(n, a), label.Round(n, b)
		assert.LessOrEqual(t, ra, rb)
		assert.Equal(t, ra, label.Round(n, ra))
	})
}
