package adaptation_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/adaptation"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/swap"
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

func TestTheOrderOfRulesDoesNotMatter(t *testing.T) {
	k := testkit.Kitchen(t)
	k.Cooking = nil // what cooking takes is foreseen, not chosen
	rapid.Check(t, func(t *rapid.T) {
		lines, h := drawDish(t, k)
		a := readDish(t, k, lines)
		one := adapted(t, k, a, h, adaptation.Wishes{})
		shuffled, balances := *k, k.Book.Balances()
		shuffled.Book = swap.NewBook(rapid.Permutation(k.Book.Rules()).Draw(t, "rules"), balances[:], k.Book.Refusals())
		other := adapted(t, &shuffled, a, h, adaptation.Wishes{})
		require.Equal(t, one.Fits, other.Fits)
		require.Equal(t, one.Cost, other.Cost)
	})
}

// What scaling does where new lines are in proportion, which spoons and cups can't
// always be: 1 3/4 tablespoons are two, 3 1/2 are 3 1/2. Options that such a step
// changes are refused in both batches.
func TestScalingTheBatchChangesNothingAPortion(t *testing.T) {
	k := testkit.Kitchen(t)
	rapid.Check(t, func(t *rapid.T) {
		lines, h := drawDish(t, k)
		a := readDish(t, k, lines)
		servings := rapid.SampledFrom([]float64{2, 8, 12, 40}).Draw(t, "servings")
		s, err := a.Scaled(servings)
		require.NoError(t, err)
		b, err := k.Read(s.Text, nil, s.Corrections)
		require.NoError(t, err)
		for i, l := range a.Recipe.Lines {
			if l.Reading.Amount.Unit != b.Recipe.Lines[i].Reading.Amount.Unit {
				t.Skip("an eighth of a cup is two tablespoons: the table's cup need not weigh sixteen of its tablespoons")
			}
		}
		for n := range a.Pot.Serving {
			require.InDelta(t, a.Pot.Serving[n].Mid, b.Pot.Serving[n].Mid, 1e-6*max(1, a.Pot.Serving[n].Mid))
			require.Equal(t, a.Pot.Serving[n].Unknown, b.Pot.Serving[n].Unknown, "what is too little to matter is so by the serving")
		}
		w := adaptation.Wishes{Refuse: outOfProportion(
			adapted(t, k, a, h, adaptation.Wishes{}).Options,
			adapted(t, k, b, h, adaptation.Wishes{}).Options, servings/a.Pot.Servings)}
		one, other := adapted(t, k, a, h, w), adapted(t, k, b, h, w)
		require.Equal(t, one.Fits, other.Fits)
		if one.Fits {
			require.Equal(t, one.Cost[:3], other.Cost[:3])
		}
	})
}

// outOfProportion are the options whose new lines do not weigh so many times as
// much in the larger batch.
func outOfProportion(one, larger map[int][]swap.Option, times float64) []adaptation.Pick {
	var out []adaptation.Pick
	for line, options := range one {
		for i, o := range options {
			if len(larger[line]) != len(options) || !inProportion(o.Lines, larger[line][i].Lines, times) {
				out = append(out, adaptation.Pick{Line: line, Rule: o.Rule.ID})
			}
		}
	}
	return out
}

func inProportion(lines, larger []foodmatch.Matched, times float64) bool {
	if len(lines) != len(larger) {
		return false
	}
	for i := range lines {
		for k, item := range lines[i].Items {
			was := item.Grams.Mid * times
			if math.Abs(was-larger[i].Items[k].Grams.Mid) > 1e-6*was {
				return false
			}
		}
	}
	return true
}
