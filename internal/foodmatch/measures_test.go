package foodmatch_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/ingredient"
	"potwright/internal/measure"
	"potwright/internal/spread"
)

// Salt at 18 g a US tablespoon, milk at 244 g a US cup (USDA SR28, rows 02047 and
// 01077).
func measured(t *testing.T) *composition.Table {
	t.Helper()
	table, err := composition.NewTable([]*composition.Food{
		{ID: "t:1", Name: "salt", Kinds: []string{"salt"}, Measures: []composition.Measure{{Amount: 1, Unit: "tbsp", Grams: 18}}},
		{ID: "t:2", Name: "milk", Kinds: []string{"milk"}, Measures: []composition.Measure{{Amount: 1, Unit: "cup", Grams: 244}}},
		{ID: "t:3", Name: "carrot", Measures: []composition.Measure{{Amount: 1, Unit: "medium", Grams: 61}}},
	})
	require.NoError(t, err)
	return table
}

func TestACupWeighsWhatTheHouseholdsCupHolds(t *testing.T) {
	table := measured(t)
	for _, c := range []struct {
		line                 string
		us, uk, au, metric   float64
		withinPercentOfThose float64
	}{
		{"1 tbsp salt", 18, 18 * 15 / 14.7868, 18 * 20 / 14.7868, 18 * 15 / 14.7868, 0.01},
		{"1 tsp salt", 6, 6 * 5 / 4.92892, 6 * 5 / 4.92892, 6 * 5 / 4.92892, 0.01},
		{"1 cup milk", 244, 244 * 284.1306 / 236.5882, 244 * 250 / 236.5882, 244 * 250 / 236.5882, 0.01},
		{"1 pint milk", 488, 244 * 568.26125 / 236.5882, 244 * 568.26125 / 236.5882, 488, 0.01},
		{"250 ml milk", 257.8, 257.8, 257.8, 257.8, 0.05},
		{"100 g salt", 100, 100, 100, 100, 0.01},
		{"2 medium carrots", 122, 122, 122, 122, 0.01},
	} {
		for system, want := range map[measure.System]float64{measure.US: c.us, measure.UK: c.uk, measure.Australian: c.au, measure.Metric: c.metric} {
			m := foodmatch.WeighIn(system, ingredient.Read(c.line), table, nil, nil)
			require.NotEmpty(t, m.Items, c.line)
			assert.InEpsilon(t, want, m.Items[0].Grams.Mid, c.withinPercentOfThose/100, "%s, %s", c.line, system.Key())
			assert.Equal(t, c.line, m.Reading.Text)
		}
	}
}

func TestAWeightYouGaveIsWhatItIsInEverySystem(t *testing.T) {
	table := measured(t)
	us := foodmatch.Weigh(ingredient.Read("1 cup (240 g) milk"), table, nil, nil)
	au := foodmatch.WeighIn(measure.Australian, ingredient.Read("1 cup (240 g) milk"), table, nil, nil)
	assert.Equal(t, spread.Range(us.Items[0].Grams), au.Items[0].Grams)
}
