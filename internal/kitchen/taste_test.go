package kitchen_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/testkit"
)

const saltyBeans = `Salt beans

Serves 4

Ingredients
2 cups cooked kidney beans
3 cups chicken broth
1 teaspoon salt

Method
Simmer the beans in the broth with the salt for 15 minutes.
`

// A quarter less goes unnoticed, more is told, with what makes up for it: see
// rules/taste/salt.yaml for the studies.
func TestMuchLessSaltIsToldWithWhatMakesUpForIt(t *testing.T) {
	k := testkit.Kitchen(t)
	a, err := k.Read(saltyBeans, nil, nil)
	require.NoError(t, err)
	most := 400.0
	limit := household.Limit{Nutrient: composition.Sodium, AtMost: &most, Per: household.PerMeal, SetBy: household.OwnChoice}
	eater := household.Member{Name: "Ana", Portion: 1, Limits: []household.Limit{limit}}
	ans, err := k.Adapt(t.Context(), a, household.Household{Name: "One", Members: []household.Member{eater}}, adaptation.Wishes{})
	require.NoError(t, err)
	require.True(t, ans.Fits, ans.Conflicts)
	told := strings.Join(ans.Cautions, "\n")
	assert.Contains(t, told, "less sodium in a serving")
	added := adaptation.Added(ans.Changes)
	require.Len(t, added, 1, "one thing makes up for it")
	assert.Equal(t, "salt", added[0].Option.Rule.Restores)
	assert.Equal(t, []string{"Ana"}, added[0].For)
	first := added[0].Option.Lines[0].Reading.Food
	assert.Contains(t, ans.Recipe.Lines[len(ans.Recipe.Lines)-1].Reading.Text, first)
	assert.Contains(t, strings.ToLower(ans.Recipe.Steps[len(ans.Recipe.Steps)-1].Text), first)

	eater.Avoid = []string{"food:" + first}
	ans, err = k.Adapt(t.Context(), a, household.Household{Name: "One", Members: []household.Member{eater}}, adaptation.Wishes{})
	require.NoError(t, err)
	for _, l := range ans.Recipe.Lines {
		assert.NotContains(t, l.Reading.Text, first)
	}
}

func TestNothingIsPutInThatNothingCallsFor(t *testing.T) {
	k := testkit.Kitchen(t)
	a, err := k.Read(saltyBeans, nil, nil)
	require.NoError(t, err)
	for _, most := range []float64{0.74, 0.76} { // of the sodium: a quarter less goes by
		limit := a.Pot.Serving[composition.Sodium].Mid * most
		eater := household.Member{Name: "Ana", Portion: 1, Limits: []household.Limit{{Nutrient: composition.Sodium, AtMost: &limit, Per: household.PerMeal, SetBy: household.OwnChoice}}}
		ans, err := k.Adapt(t.Context(), a, household.Household{Members: []household.Member{eater}}, adaptation.Wishes{})
		require.NoError(t, err)
		require.True(t, ans.Fits)
		fell := 1 - ans.Pot.Serving[composition.Sodium].Mid/a.Pot.Serving[composition.Sodium].Mid
		assert.Equal(t, fell > k.Taste.Fall.Unnoticed, len(adaptation.Added(ans.Changes)) > 0, "%g gone", fell)
	}
}
