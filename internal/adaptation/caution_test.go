package adaptation_test

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/testkit"
)

const toasts = `Cheese toasts

Serves 2

Ingredients
4 slices whole wheat bread
4 oz American cheese
1/2 cup grated cheddar cheese

Method
1. Top the bread with the American cheese and the cheddar cheese.
2. Bake the toasts for 10 minutes.
`

func toastsFor(t *testing.T, m household.Member, w adaptation.Wishes) adaptation.Answer {
	t.Helper()
	k := testkit.Kitchen(t)
	a, err := k.Read(toasts, nil, nil)
	require.NoError(t, err)
	ans, err := k.Adapt(context.Background(), a, household.Household{Members: []household.Member{m}}, w)
	require.NoError(t, err)
	return ans
}

func hasCaution(p adaptation.Plate, id string) bool {
	return slices.ContainsFunc(p.Cautions, func(c household.Caution) bool { return c.ID == id })
}

func TestWhatACautionIsAboutOnlyWarnsWhereItIsAlready(t *testing.T) {
	ans := toastsFor(t, household.Member{Name: "Ana", Portion: 1, Cautions: []string{"tyramine"}}, adaptation.Wishes{})
	assert.True(t, ans.Fits, "a caution forbids no dish")
	assert.Empty(t, ans.Changes)
	assert.True(t, hasCaution(ans.Plates[0], "tyramine"), "cheddar is an aged cheese")
	assert.Equal(t, household.Inside, ans.Plates[0].Verdict.Fit)
}

func TestASwapBringsInNothingThatACautionIsAbout(t *testing.T) {
	wish := adaptation.Wishes{Insist: []adaptation.Pick{{Line: 1, Rule: "processed-cheese-swiss"}}}
	free := toastsFor(t, household.Member{Name: "Ana", Portion: 1}, wish)
	_, changed := lineOf(free, 1)
	assert.True(t, changed)

	told := toastsFor(t, household.Member{Name: "Ana", Portion: 1, Cautions: []string{"tyramine"}}, wish)
	_, changed = lineOf(told, 1)
	assert.False(t, changed, "Swiss is an aged cheese, American is not")
}

func TestOneWhoKeepsSaltSteadyIsToldOfAChange(t *testing.T) {
	h := salted(450).Members[0]
	before := toastsFor(t, household.Member{Name: "Ana", Portion: 1, Cautions: []string{"lithium"}}, adaptation.Wishes{})
	assert.Empty(t, before.Changes)
	h.Cautions = []string{"lithium"}
	ans := toastsFor(t, h, adaptation.Wishes{})
	require.NotEmpty(t, ans.Changes, "%v", ans.Conflicts)
	assert.True(t, hasCaution(ans.Plates[0], "lithium"))
}
