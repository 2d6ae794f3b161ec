package kitchen_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/demo"
	"potwright/internal/measure"
	"potwright/internal/recipe"
	"potwright/internal/testkit"
)

// An Australian tablespoon holds 20 ml (AS 1325, from memory), a US one 14.79.
func TestTheHouseholdsSpoonsMeasureTheDish(t *testing.T) {
	const text = "Brine\nServes 1\nIngredients\n1 tablespoon salt\n1 kg potatoes\n"
	k := testkit.Kitchen(t)
	us, err := k.Read(text, nil, nil)
	require.NoError(t, err)
	au, err := k.Measuring(measure.Australian).Read(text, nil, nil)
	require.NoError(t, err)
	sodium := func(lines int) (float64, float64) {
		return us.Pot.Lines[lines].Panel[composition.Sodium].Mid, au.Pot.Lines[lines].Panel[composition.Sodium].Mid
	}
	small, large := sodium(0)
	assert.InEpsilon(t, 20/14.7868, large/small, 1e-4)
	small, large = sodium(1)
	assert.InDelta(t, small, large, 1e-9, "a weight is a weight everywhere")
	assert.Equal(t, us.Recipe.Text, au.Recipe.Text)
}

// Every demo dish in every system: the answer, read afresh in the same system, is
// what was computed (Adapt itself reports it where it is not), and lines without
// a change keep their words.
func TestAnAdaptationHoldsInTheHouseholdsOwnSpoons(t *testing.T) {
	k, h := stored(t)
	for _, system := range measure.Systems() {
		for _, name := range demo.Dishes() {
			text, err := demo.Dish(name)
			require.NoError(t, err)
			a, err := k.Measuring(system).Read(text, nil, nil)
			require.NoError(t, err)
			ans, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{})
			require.NoError(t, err, "%s, %s", name, system.Key())
			assert.Equal(t, system, ans.Pot.Lines[0].Matched.Measures)
			changed := map[int]bool{}
			for _, c := range ans.Changes {
				changed[c.Line] = true
			}
			kept := recipe.Text(ans.Recipe)
			for i, l := range a.Recipe.Lines {
				if !changed[i] {
					assert.Contains(t, kept, l.Reading.Text, "%s, %s", name, system.Key())
				}
			}
		}
	}
}

func TestASavedRecipeOpensInTheHouseholdsSpoons(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	a, err := k.Read("Brine\nServes 1\nIngredients\n1 tablespoon salt\n", nil, nil)
	require.NoError(t, err)
	v, err := k.SaveNew(ctx, h.ID, a, "")
	require.NoError(t, err)
	h.Measures = measure.Australian
	_, err = storeOf(k).SaveHousehold(ctx, h, "")
	require.NoError(t, err)
	again, opened, err := k.Open(ctx, h.ID, v.ID)
	require.NoError(t, err)
	assert.Equal(t, v.Text, again.Text)
	assert.InEpsilon(t, 20/14.7868, opened.Pot.Total[composition.Sodium].Mid/a.Pot.Total[composition.Sodium].Mid, 1e-4)
	saved, err := k.SaveEdit(ctx, h.ID, again, opened, "")
	require.NoError(t, err)
	assert.Equal(t, v.Text, saved.Text, "the words stay")
}
