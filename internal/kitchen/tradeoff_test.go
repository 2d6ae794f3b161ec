package kitchen_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/testkit"
)

func aMeal(mg float64) household.Household {
	h := daily(mg, household.OwnChoice)
	h.Members[0].Limits[0].Per = household.PerMeal
	return h
}

func TestEveryPointOfACurveIsTheAnswerToItsOwnFigure(t *testing.T) {
	k := testkit.Kitchen(t)
	soup, err := k.Read(beans, nil, nil)
	require.NoError(t, err)
	h := aMeal(5000)
	points, all, err := k.Tradeoff(context.Background(), soup, h, adaptation.Wishes{}, adaptation.Figure{Nutrient: composition.Sodium})
	require.NoError(t, err)
	assert.True(t, all)
	require.Greater(t, len(points), 3)
	assert.Zero(t, points[0].Change, "it suits as it is")
	for i, p := range points {
		if i > 0 {
			assert.Greater(t, p.Change, points[i-1].Change)
			assert.Less(t, p.Amount, points[i-1].Amount)
		}
		// With the figure as the limit, nothing changes the dish less.
		limit := p.Amount * (1 + 1e-6)
		h := aMeal(limit)
		ans, err := k.Adapt(context.Background(), soup, h, adaptation.Wishes{})
		require.NoError(t, err)
		assert.Equal(t, p.Change, ans.Cost[0], "%v", ans.Conflicts)
		made, err := k.Adapt(context.Background(), soup, aMeal(5000), p.Asked(len(soup.Recipe.Lines)))
		require.NoError(t, err)
		assert.Equal(t, p.Change, made.Cost[0])
	}
	// Nothing goes lower than the last point.
	h = aMeal(points[len(points)-1].Amount*(1-1e-4) - 0.01)
	ans, err := k.Adapt(context.Background(), soup, h, adaptation.Wishes{})
	require.NoError(t, err)
	assert.Equal(t, adaptation.Infeasible, ans.Proof)
}

func TestACurveOfAPlanGoesByItsRoundedCost(t *testing.T) {
	k := testkit.Kitchen(t)
	soup, err := k.Read(beans, nil, nil)
	require.NoError(t, err)
	h := aMeal(5000)
	h.Members[0].Plan = &household.Plan{Unit: "unit", Weights: map[composition.Nutrient]float64{composition.Energy: 0.01}, RoundTo: 0.5, Allowance: 20, Per: household.PerMeal}
	points, _, err := k.Tradeoff(context.Background(), soup, h, adaptation.Wishes{}, adaptation.Figure{Plan: true})
	require.NoError(t, err)
	require.Greater(t, len(points), 1)
	for i, p := range points {
		assert.Equal(t, p.Amount, h.Members[0].Plan.Price(p.Amount), "a rounded cost")
		if i > 0 {
			assert.Less(t, p.Amount, points[i-1].Amount)
		}
	}
	h.Members[0].Plan = nil
	_, _, err = k.Tradeoff(context.Background(), soup, h, adaptation.Wishes{}, adaptation.Figure{Plan: true})
	assert.ErrorContains(t, err, "has no allowance plan")
}
