package adaptation_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/testkit"
)

// drawDish is some lines of the pantry, with two people.
func drawDish(t *rapid.T, k *kitchen.Kitchen) ([]string, household.Household) {
	lines := rapid.SliceOfNDistinct(rapid.SampledFrom(pantry), 3, 7, rapid.ID[string]).Draw(t, "lines")
	return lines, drawHousehold(t, readDish(t, k, lines))
}

func readDish(t *rapid.T, k *kitchen.Kitchen, lines []string) kitchen.Analysis {
	a, err := k.Read("Small dish\nServes 4\nIngredients\n"+strings.Join(lines, "\n")+"\nMethod\nCook everything together until done.\n", nil, nil)
	require.NoError(t, err)
	return a
}

func adapted(t *rapid.T, k *kitchen.Kitchen, a kitchen.Analysis, h household.Household, w adaptation.Wishes) adaptation.Answer {
	ans, err := k.Adapt(context.Background(), a, h, w)
	require.NoError(t, err)
	return ans
}

func TestTheOrderOfLinesAndPeopleDoesNotMatter(t *testing.T) {
	k := testkit.Kitchen(t)
	k.Cooking = nil // what cooking takes is foreseen, not chosen
	rapid.Check(t, func(t *rapid.T) {
		lines, h := drawDish(t, k)
		one := adapted(t, k, readDish(t, k, lines), h, adaptation.Wishes{})
		slices.Reverse(h.Members)
		other := adapted(t, k, readDish(t, k, rapid.Permutation(lines).Draw(t, "order")), h, adaptation.Wishes{})
		require.Equal(t, one.Fits, other.Fits)
		require.Equal(t, one.Cost, other.Cost)
	})
}

func TestOneMoreLimitNeverMakesTheAnswerCheaper(t *testing.T) {
	k := testkit.Kitchen(t)
	k.Cooking = nil // what cooking takes is foreseen, not chosen
	rapid.Check(t, func(t *rapid.T) {
		lines, h := drawDish(t, k)
		a := readDish(t, k, lines)
		before := adapted(t, k, a, h, adaptation.Wishes{})
		more := drawHousehold(t, a).Members[0].Limits
		h.Members[0].Limits = append(slices.Clone(h.Members[0].Limits), more...)
		after := adapted(t, k, a, h, adaptation.Wishes{})
		if !after.Fits {
			return
		}
		require.True(t, before.Fits)
		// The last level counts use of the limits, so a limit more adds to it.
		require.GreaterOrEqual(t, slices.Compare(after.Cost[:3], before.Cost[:3]), 0)
	})
}

func TestAskingForTheAnswersOwnChoicesGivesTheAnswer(t *testing.T) {
	k := testkit.Kitchen(t)
	k.Cooking = nil // what cooking takes is foreseen, not chosen
	rapid.Check(t, func(t *rapid.T) {
		lines, h := drawDish(t, k)
		a := readDish(t, k, lines)
		one := adapted(t, k, a, h, adaptation.Wishes{})
		if !one.Fits {
			return
		}
		w := adaptation.Point{Changes: one.Changes}.Asked(len(lines))
		again := adapted(t, k, a, h, w)
		require.True(t, again.Fits)
		require.Equal(t, one.Cost, again.Cost)
		require.Equal(t, one.Recipe.Lines, again.Recipe.Lines)
	})
}

// New lines are in whole spoons and cups, so limits stand where no such rounding
// decides; for drawn dishes near a limit it may.
func TestScalingTheBatchChangesNothingAPortion(t *testing.T) {
	k := testkit.Kitchen(t)
	a, err := k.Read(soup, nil, nil)
	require.NoError(t, err)
	for _, servings := range []float64{2, 8, 12, 40} {
		s, err := a.Scaled(servings)
		require.NoError(t, err)
		b, err := k.Read(s.Text, nil, s.Fixes)
		require.NoError(t, err)
		for n := range a.Pot.Serving {
			require.InDelta(t, a.Pot.Serving[n].Mid, b.Pot.Serving[n].Mid, 1e-6*max(1, a.Pot.Serving[n].Mid))
			require.Equal(t, a.Pot.Serving[n].Unknown, b.Pot.Serving[n].Unknown, "what is too little to matter is so by the serving")
		}
		for _, mg := range []float64{500, 700, 1000, 1400} {
			one, err := k.Adapt(context.Background(), a, salted(mg), adaptation.Wishes{})
			require.NoError(t, err)
			other, err := k.Adapt(context.Background(), b, salted(mg), adaptation.Wishes{})
			require.NoError(t, err)
			require.Equal(t, one.Fits, other.Fits, "%g servings, %g mg", servings, mg)
			require.Equal(t, one.Cost[:3], other.Cost[:3], "%g servings, %g mg", servings, mg)
		}
	}
}
