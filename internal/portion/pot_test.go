package portion_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/household"
	"potwright/internal/nutrient"
	"potwright/internal/portion"
	"potwright/internal/spread"
)

func TestABatchIsHeldAgainstEveryPot(t *testing.T) {
	soup := nutrient.Pot{Servings: 6, YieldMillilitres: spread.Range{Low: 2100, Mid: 2400, High: 2800}}
	in := portion.InPots(soup, []household.Pot{{Name: "stockpot", Litres: 7.5}, {Name: "blue pot", Litres: 3}, {Name: "saucepan", Litres: 1.9}})
	require.Len(t, in, 3)
	assert.Equal(t, household.Inside, in[0].Fit)
	assert.Equal(t, 12.5, in[0].Servings, "80 % of 7.5 l, by the high end of what it fills")
	assert.Equal(t, household.Close, in[1].Fit)
	assert.Equal(t, 5.0, in[1].Servings)
	assert.Equal(t, household.Over, in[2].Fit)
	muffins := nutrient.Pot{Servings: 12, YieldMillilitres: spread.Range{Low: 700, Mid: 860, High: 1300}}
	assert.Nil(t, portion.InPots(muffins, []household.Pot{{Name: "blue pot", Litres: 3}}))
	assert.Nil(t, portion.InPots(nutrient.Pot{Servings: 6}, []household.Pot{{Name: "blue pot", Litres: 3}}))
}
