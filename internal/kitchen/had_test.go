package kitchen_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/testkit"
)

const bread = "Toast\nServes 1\nIngredients\n2 slices whole wheat bread\n1 tablespoon butter\nMethod\nToast the bread and spread it with the butter.\n"

const beans = `Bean soup
Serves 4
Ingredients
4 cups chicken broth
2 (15 oz) cans kidney beans
1 teaspoon salt
1 cup heavy cream
Method
1. Bring the broth to a boil with the beans and salt and simmer 20 minutes.
2. Stir in the cream and serve.
`

func daily(mg float64, by household.SetBy) household.Household {
	return household.Household{Members: []household.Member{{
		Name: "Ines", Portion: 1,
		Limits: []household.Limit{{Nutrient: composition.Sodium, AtMost: &mg, Per: household.PerDay, SetBy: by}},
	}}}
}

func TestWhatTheDayHasHeldLeavesLessForTheDish(t *testing.T) {
	k := testkit.Kitchen(t)
	toast, err := k.Read(bread, nil, nil)
	require.NoError(t, err)
	soup, err := k.Read(beans, nil, nil)
	require.NoError(t, err)
	h := daily(2300, household.Clinician)
	alone, err := k.Adapt(context.Background(), soup, h, adaptation.Wishes{})
	require.NoError(t, err)

	had := &household.Had{Told: true}
	h.Members[0].Had = had
	whole, err := k.Adapt(context.Background(), soup, h, adaptation.Wishes{})
	require.NoError(t, err)
	assert.Less(t, whole.Cost[0], alone.Cost[0], "all of a day that nothing was eaten of is more than a third")

	had.Day = k.Eaten(h, h.Members[0], []kitchen.Serving{{Title: "Toast", Analysis: toast, Portion: 2}})
	after, err := k.Adapt(context.Background(), soup, h, adaptation.Wishes{})
	require.NoError(t, err)
	require.True(t, after.Fits, "%v", after.Conflicts)
	assert.Greater(t, after.Cost[0], whole.Cost[0])
	sum := after.Plates[0].Panel[composition.Sodium].Add(had.Day.All[composition.Sodium].Range)
	assert.LessOrEqual(t, sum.High, 2300*(1+1e-9), "the high end of both together is inside")
	assert.Contains(t, after.Plates[0].Verdict.Findings[0].Text, "that are left (of 2,300 mg a day, with")

	had.Day.All[composition.Sodium].Unknown = 1
	unknown, err := k.Adapt(context.Background(), soup, h, adaptation.Wishes{})
	require.NoError(t, err)
	assert.False(t, unknown.Fits)
	assert.Contains(t, unknown.Conflicts[0], "not all of what was had before is known")
}

func TestWhatStandsOnThePlateCountsAgainstTheMeal(t *testing.T) {
	k := testkit.Kitchen(t)
	toast, err := k.Read(bread, nil, nil)
	require.NoError(t, err)
	soup, err := k.Read(beans, nil, nil)
	require.NoError(t, err)
	h := daily(1200, household.OwnChoice)
	h.Members[0].Limits[0].Per = household.PerMeal
	beside := []kitchen.Serving{{Title: "Toast", Analysis: toast, Portion: 1}}
	h.Members[0].Had = &household.Had{Meal: k.Eaten(h, h.Members[0], beside)}
	ans, err := k.Adapt(context.Background(), soup, h, adaptation.Wishes{})
	require.NoError(t, err)
	require.True(t, ans.Fits, "%v", ans.Conflicts)
	// The meal summed as one must agree.
	h.Members[0].Had = nil
	adapted := k.Compute(ans.Recipe, nil)
	meal := k.Meal(h, h.Members[0], append(beside, kitchen.Serving{Title: "Soup", Analysis: adapted, Portion: 1}))
	assert.True(t, meal.Fits)
	assert.LessOrEqual(t, meal.Panel[composition.Sodium].Mid, 1200*(1+1e-9))
}
