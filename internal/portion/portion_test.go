package portion_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

func panel(n composition.Nutrient, r spread.Range) nutrient.Panel {
	var p nutrient.Panel
	p[n].Range = r
	return p
}

func limited(mg float64, by household.SetBy) household.Member {
	return household.Member{Name: "Ada", Limits: []household.Limit{{Nutrient: composition.Sodium, AtMost: &mg, Per: household.PerMeal, SetBy: by}}}
}

func TestAClinicianLimitCountsByTheHighEndAnOwnChoiceByTheMiddle(t *testing.T) {
	p := panel(composition.Sodium, spread.Range{Low: 600, Mid: 800, High: 1000})
	strict := portion.LargestInside(household.Household{}, limited(500, household.Clinician), p, p)
	own := portion.LargestInside(household.Household{}, limited(500, household.OwnChoice), p, p)
	assert.InDelta(t, 0.5, strict.Share, 1e-12)
	assert.InDelta(t, 0.625, own.Share, 1e-12)
	assert.Equal(t, "sodium", own.By)
}

func TestWhatIsNotKnownBoundsNothingAndSaysSo(t *testing.T) {
	p := panel(composition.Sodium, spread.Exact(100))
	p[composition.Sodium].Unknown = 1
	assert.False(t, portion.LargestInside(household.Household{}, limited(500, household.OwnChoice), p, p).Known)
	free := portion.LargestInside(household.Household{}, household.Member{}, p, p)
	assert.True(t, math.IsInf(free.Share, 1))
}

// American Diabetes Association teaching material: a carbohydrate choice is
// 15 g, counted here to the nearest half. 45 g a serving is 3 choices; from
// memory.
func TestChoicesStepUpAtQuarters(t *testing.T) {
	plan := household.Plan{Unit: "choice", Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 1.0 / 15}, RoundTo: 0.5, Allowance: 2, Per: household.PerMeal}
	steps := portion.Steps(plan, 3, 1)
	require.Len(t, steps, 7)
	assert.Equal(t, portion.Step{From: 0, Cost: 0}, steps[0])
	assert.InDelta(t, 0.25/3, steps[1].From, 1e-12)
	assert.InDelta(t, 3, steps[6].Cost, 1e-12)
	m := household.Member{Plan: &plan}
	p := panel(composition.Carbohydrate, spread.Exact(45))
	largest := portion.LargestInside(household.Household{}, m, p, p)
	assert.InDelta(t, 2.25/3, largest.Share, 1e-6, "up to 2.25 choices rounds to 2")
}

func TestTheLargestPortionFitsAndAHairMoreDoesNot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mid := rapid.Float64Range(1, 3000).Draw(t, "mg a serving")
		high := mid * rapid.Float64Range(1, 2).Draw(t, "high")
		limit := rapid.Float64Range(1, 3000).Draw(t, "limit")
		by := rapid.SampledFrom([]household.SetBy{household.Clinician, household.OwnChoice}).Draw(t, "set by")
		m := limited(limit, by)
		p := panel(composition.Sodium, spread.Range{Low: mid, Mid: mid, High: high})
		share := portion.LargestInside(household.Household{}, m, p, p).Share
		b := m.Bounds(1)[0]
		assert.True(t, b.Fits(household.Amount(p.Scale(share)[composition.Sodium])))
		assert.False(t, b.Fits(household.Amount(p.Scale(share * 1.001)[composition.Sodium])))
	})
}
