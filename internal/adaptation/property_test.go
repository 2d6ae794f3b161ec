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
	rapid.Check(t, func(t *rapid.T) {
		lines, h := drawDish(t, k)
		a := readDish(t, k, lines)
		one := adapted(t, k, a, h, adaptation.Wishes{})
		if !one.Fits {
			return
		}
		var w adaptation.Wishes
		for i := range lines {
			if c, changed := lineOf(one, i); changed {
				w.Insist = append(w.Insist, adaptation.Pick{Line: i, Rule: c.Option.Rule.ID})
			} else {
				w.Lock = append(w.Lock, i)
			}
		}
		again := adapted(t, k, a, h, w)
		require.True(t, again.Fits)
		require.Equal(t, one.Cost, again.Cost)
		require.Equal(t, one.Recipe.Lines, again.Recipe.Lines)
	})
}
