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
	assert.Contains(t, told, "lemon juice")

	eater.Avoid = []string{"food:lemon juice"}
	ans, err = k.Adapt(t.Context(), a, household.Household{Name: "One", Members: []household.Member{eater}}, adaptation.Wishes{})
	require.NoError(t, err)
	assert.NotContains(t, strings.Join(ans.Cautions, "\n"), "lemon juice")
}
