package adaptation_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/testkit"
)

const soup = `Bean soup
Serves 4
Ingredients
4 cups chicken broth
2 (15 oz) cans kidney beans
1 teaspoon salt
1 cup heavy cream
2 tablespoons chopped fresh parsley
Method
1. Bring the broth to a boil with the beans and salt and simmer 20 minutes.
2. Stir in the cream and parsley and serve.
`

func salted(mg float64) household.Household {
	return household.Household{Members: []household.Member{{
		Name: "Ines", Portion: 1,
		Limits: []household.Limit{{Nutrient: composition.Sodium, AtMost: &mg, Per: household.PerMeal, SetBy: household.OwnChoice}},
	}}}
}

func adaptSoup(t *testing.T, h household.Household, w adaptation.Wishes) (*kitchen.Kitchen, adaptation.Answer) {
	t.Helper()
	k := testkit.Kitchen(t)
	a, err := k.Read(soup, nil, nil)
	require.NoError(t, err)
	ans, err := k.Adapt(context.Background(), a, h, w)
	require.NoError(t, err)
	return k, ans
}

func lineOf(ans adaptation.Answer, line int) (adaptation.Change, bool) {
	for _, c := range ans.Changes {
		if c.Line == line {
			return c, true
		}
	}
	return adaptation.Change{}, false
}

func TestADishThatSuitsEveryoneIsLeftAlone(t *testing.T) {
	_, ans := adaptSoup(t, salted(5000), adaptation.Wishes{})
	assert.True(t, ans.Fits)
	assert.Empty(t, ans.Changes)
	assert.Equal(t, adaptation.Optimal, ans.Proof)
}

func TestALockedLineStaysAndTheRestMakesUpForIt(t *testing.T) {
	_, free := adaptSoup(t, salted(1100), adaptation.Wishes{})
	require.NotEmpty(t, free.Changes)
	line := free.Changes[0].Line
	_, locked := adaptSoup(t, salted(1100), adaptation.Wishes{Lock: []int{line}})
	require.True(t, locked.Fits, "%v", locked.Conflicts)
	_, changed := lineOf(locked, line)
	assert.False(t, changed)
	assert.GreaterOrEqual(t, locked.Cost[0], free.Cost[0], "a lock never makes the answer cheaper")
}

func TestARefusedSwapIsNotUsed(t *testing.T) {
	_, free := adaptSoup(t, salted(700), adaptation.Wishes{})
	require.NotEmpty(t, free.Changes)
	rule := free.Changes[0].Option.Rule.ID
	_, refused := adaptSoup(t, salted(700), adaptation.Wishes{Refuse: []adaptation.Pick{{Line: -1, Rule: rule}}})
	for _, c := range refused.Changes {
		assert.NotEqual(t, rule, c.Option.Rule.ID)
	}
}

func TestASwapAskedForIsUsedEvenWhereNothingNeedsIt(t *testing.T) {
	_, free := adaptSoup(t, salted(5000), adaptation.Wishes{})
	options := free.Options[2]
	require.NotEmpty(t, options)
	_, ans := adaptSoup(t, salted(5000), adaptation.Wishes{Insist: []adaptation.Pick{{Line: 2, Rule: options[0].Rule.ID}}})
	require.True(t, ans.Fits)
	c, changed := lineOf(ans, 2)
	require.True(t, changed)
	assert.Equal(t, options[0].Rule.ID, c.Option.Rule.ID)
}

func TestTheCapOnChangesHolds(t *testing.T) {
	_, free := adaptSoup(t, salted(450), adaptation.Wishes{})
	require.Greater(t, len(free.Changes), 1)
	_, capped := adaptSoup(t, salted(450), adaptation.Wishes{MaxChanges: 1})
	if capped.Fits {
		assert.LessOrEqual(t, len(capped.Changes), 1)
	} else {
		assert.NotEmpty(t, capped.Conflicts)
	}
}

func TestAClinicianLimitHoldsAtTheHighEndOfTheRange(t *testing.T) {
	h := salted(700)
	h.Members[0].Limits[0].SetBy = household.Clinician
	_, ans := adaptSoup(t, h, adaptation.Wishes{})
	require.True(t, ans.Fits, "%v", ans.Conflicts)
	assert.LessOrEqual(t, ans.Plates[0].Panel[composition.Sodium].High, 700.0)
}

func TestNothingThatSomeoneAvoidsIsBroughtIn(t *testing.T) {
	h := salted(700)
	h.Members = append(h.Members, household.Member{Name: "Wren", Portion: 1, Avoid: []string{"milk", "soy"}})
	k, ans := adaptSoup(t, h, adaptation.Wishes{})
	require.True(t, ans.Fits, "%v", ans.Conflicts)
	for _, lp := range ans.Pot.Lines {
		for _, item := range lp.Matched.Items {
			milk, err := k.Needs.Avoidance("milk")
			require.NoError(t, err)
			assert.NotEqual(t, household.Contains, milk.JudgeFood(item.Food).Presence, item.Food.Name)
		}
	}
}

func TestWhatCannotBeDoneSaysWhatClashesAndTheLeastThatCanBeReached(t *testing.T) {
	_, ans := adaptSoup(t, salted(20), adaptation.Wishes{})
	require.False(t, ans.Fits)
	assert.Equal(t, adaptation.Infeasible, ans.Proof)
	require.NotEmpty(t, ans.Conflicts)
	require.Len(t, ans.Reachable, 1)
	assert.Greater(t, ans.Reachable[0].Amount, 20.0)
	_, reachable := adaptSoup(t, salted(ans.Reachable[0].Amount*1.6), adaptation.Wishes{})
	assert.True(t, reachable.Fits, "well above the least that can be reached it is possible: %v", reachable.Conflicts)
}

func TestTheLeastForAClinicianIsTheHighEndThatItsLimitIsHeldAgainst(t *testing.T) {
	h := salted(20)
	_, own := adaptSoup(t, h, adaptation.Wishes{})
	h.Members[0].Limits[0].SetBy = household.Clinician
	_, strict := adaptSoup(t, h, adaptation.Wishes{})
	require.Len(t, own.Reachable, 1)
	require.Len(t, strict.Reachable, 1)
	assert.Greater(t, strict.Reachable[0].Amount, own.Reachable[0].Amount)
	at := strict.Reachable[0].Amount
	h = salted(at * 1.0001)
	h.Members[0].Limits[0].SetBy = household.Clinician
	_, just := adaptSoup(t, h, adaptation.Wishes{})
	if !just.Fits {
		assert.Greater(t, len(just.Conflicts), 1, "by itself the least can be reached; only together with something else it clashes: %v", just.Conflicts)
	}
	h = salted(at * 0.999)
	h.Members[0].Limits[0].SetBy = household.Clinician
	_, below := adaptSoup(t, h, adaptation.Wishes{})
	assert.False(t, below.Fits)
	assert.Len(t, below.Conflicts, 1, "below the least the limit is out of reach by itself")
}

func TestAPlanWhoseFloorPassesItsAllowanceIsSaidToBeImpossible(t *testing.T) {
	h := salted(5000)
	h.Members[0].Plan = &household.Plan{Unit: "choice", Weights: map[composition.Nutrient]float64{composition.Carbohydrate: 1.0 / 15}, RoundTo: 0.5, Floor: 3, Allowance: 2, Per: household.PerMeal}
	_, ans := adaptSoup(t, h, adaptation.Wishes{})
	assert.False(t, ans.Fits)
	require.Len(t, ans.Conflicts, 1)
	assert.Contains(t, ans.Conflicts[0], "Ines")
}

func TestAnUnreadLineIsNeverPassedOver(t *testing.T) {
	k := testkit.Kitchen(t)
	a, err := k.Read(strings.Replace(soup, "1 teaspoon salt", "1 teaspoon blorfuzz", 1), nil, nil)
	require.NoError(t, err)
	report := k.Check(a, salted(5000))
	assert.False(t, report.Fits)
	assert.Equal(t, household.Unknown, report.Fit)
	ans, err := k.Adapt(context.Background(), a, salted(5000), adaptation.Wishes{})
	require.NoError(t, err)
	assert.False(t, ans.Fits)
	require.NotEmpty(t, ans.Conflicts)
	assert.Contains(t, ans.Conflicts[0], "blorfuzz")
}

func TestASmallerPortionIsChosenWhereTheMemberAcceptsIt(t *testing.T) {
	h := salted(5000)
	kcal := 250.0
	h.Members[0].Limits = []household.Limit{{Nutrient: composition.Energy, AtMost: &kcal, Per: household.PerMeal, SetBy: household.OwnChoice}}
	h.Members[0].PortionMin = 0.25
	_, ans := adaptSoup(t, h, adaptation.Wishes{})
	require.True(t, ans.Fits, "%v", ans.Conflicts)
	assert.LessOrEqual(t, ans.Plates[0].Panel[composition.Energy].Mid, kcal+1e-6)
}

// The high end of a range decides for a clinician's limit, the middle for others;
// where only the high end is outside, the answer is that of the middle and names
// what to measure.
func TestARangeTooWideForAClinicianIsSolvedAtTheMiddleAndNamesAMeasurement(t *testing.T) {
	h := salted(20)
	h.Members[0].Limits[0].SetBy = household.Clinician
	_, least := adaptSoup(t, h, adaptation.Wishes{})
	require.Len(t, least.Reachable, 1)
	assert.Empty(t, least.Unsettled, "20 mg is out of reach at the middle too")

	between := least.Reachable[0].Amount * 0.97 // the high end can't be lower
	h = salted(between)
	_, own := adaptSoup(t, h, adaptation.Wishes{})
	require.True(t, own.Fits, "by the middle it can be done")
	assert.Greater(t, own.Plates[0].Panel[composition.Sodium].High, between)

	h.Members[0].Limits[0].SetBy = household.Clinician
	_, strict := adaptSoup(t, h, adaptation.Wishes{})
	require.False(t, strict.Fits)
	assert.Equal(t, adaptation.Infeasible, strict.Proof)
	require.Len(t, strict.Unsettled, 1)
	u := strict.Unsettled[0]
	assert.Equal(t, "Ines", u.Member)
	require.GreaterOrEqual(t, u.Line, 0)
	assert.Contains(t, u.Measure, strict.Recipe.Lines[u.Line].Reading.Text)
	assert.Equal(t, u.Text(), strict.Nearest[1])
	panel := strict.Plates[0].Panel[composition.Sodium]
	assert.LessOrEqual(t, panel.Mid, between)
	assert.Greater(t, panel.High, between)
	assert.NotEmpty(t, strict.Changes)
	assert.Equal(t, own.Cost[:2], strict.Cost[:2], "what an own choice would take")
}

func TestOtherWaysDifferInMoreThanOneLineOrPortion(t *testing.T) {
	_, ans := adaptSoup(t, salted(700), adaptation.Wishes{})
	require.NotEmpty(t, ans.Alternatives)
	ways := [][]adaptation.Change{ans.Changes}
	for _, alt := range ans.Alternatives {
		for _, way := range ways {
			apart := 0
			for i := range ans.Recipe.Lines {
				if textAt(way, i) != textAt(alt.Changes, i) {
					apart++
				}
			}
			assert.Greater(t, apart, 1, "%v", alt.Changes)
		}
		ways = append(ways, alt.Changes)
	}
}

func textAt(changes []adaptation.Change, line int) string {
	for _, c := range changes {
		if c.Line == line {
			return c.Text()
		}
	}
	return ""
}
