package kitchen_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/testkit"
)

// byCheck is what a sweep has to say of a dish, put together from its full check.
func byCheck(title string, r kitchen.Report) kitchen.Swept {
	s := kitchen.Swept{Recipe: kitchen.RecipeSummary{Title: title}, Standing: kitchen.Suits, Fit: r.Fit}
	for _, p := range r.Plates {
		if p.Fits && len(p.Provided) == 0 {
			continue
		}
		s.Standing, s.For = kitchen.Differs, append(s.For, p.Member.Name)
		for _, f := range p.Verdict.Findings {
			if f.Fit != household.Inside {
				s.Why = append(s.Why, p.Member.Name+": "+f.Text)
			}
		}
		s.Why = append(s.Why, p.Provided...)
	}
	return s
}

// aTable draws people with needs that are no limits; limited draws their limits,
// portions and allowances.
var aTable = rapid.Custom(func(t *rapid.T) household.Household {
	h := household.Household{Name: "Quay House"}
	for i := range rapid.IntRange(1, 3).Draw(t, "people") {
		m := household.Member{Name: fmt.Sprint("Person ", i+1), Age: rapid.SampledFrom([]int{0, 9, 71}).Draw(t, "age"),
			Avoid: rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"milk", "wheat", "food:celery", "kind:cured_meat"}), 0, 2, rapid.ID[string]).Draw(t, "avoid")}
		if rapid.Bool().Draw(t, "has a texture") {
			m.Texture = &household.Texture{Level: rapid.IntRange(3, 7).Draw(t, "level"),
				Avoid: rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"stringy", "husks", "mixed_thin_and_thick"}), 0, 2, rapid.ID[string]).Draw(t, "features")}
		}
		if rapid.Bool().Draw(t, "has a plan") {
			m.Plan = &household.Plan{Unit: "choice", Free: rapid.SampledFrom([][]string{nil, {"non_starchy_vegetable"}, {"cheese"}}).Draw(t, "free")}
		}
		h.Members = append(h.Members, m)
	}
	return h
})

func limited(t *rapid.T, h household.Household) household.Household {
	out := h
	out.Members = nil
	out.MealShare = rapid.SampledFrom([]float64{0, 0.5}).Draw(t, "meal share")
	for _, m := range h.Members {
		m.Limits = nil
		for _, n := range rapid.SliceOfNDistinct(rapid.SampledFrom(composition.Nutrients()), 0, 4, rapid.ID[composition.Nutrient]).Draw(t, "nutrients") {
			l := household.Limit{Nutrient: n, Per: rapid.SampledFrom([]household.Period{household.PerServing, household.PerMeal, household.PerDay}).Draw(t, "per"),
				SetBy: rapid.SampledFrom([]household.SetBy{household.Clinician, household.Guidance, household.OwnChoice}).Draw(t, "set by")}
			bound := rapid.Float64Range(0, 1500).Draw(t, "bound")
			if rapid.Bool().Draw(t, "at most") {
				l.AtMost = &bound
			} else {
				l.AtLeast = &bound
			}
			m.Limits = append(m.Limits, l)
		}
		if m.Plan != nil {
			plan := *m.Plan
			plan.Weights = map[composition.Nutrient]float64{composition.Carbohydrate: rapid.Float64Range(0.01, 0.1).Draw(t, "weight")}
			plan.Per, plan.RoundTo, plan.Allowance = household.PerMeal, 0.5, float64(rapid.IntRange(0, 12).Draw(t, "allowance"))
			m.Plan = &plan
		}
		m.Portion = rapid.SampledFrom([]float64{0, 0.5, 1, 2}).Draw(t, "portion")
		out.Members = append(out.Members, m)
	}
	return out
}

// withTable is a dish with things that are offered at the table.
const withTable = "Bean soup\nServes 4\nIngredients\n2 (15 oz) cans kidney beans, drained\n4 cups chicken broth\n2 stalks celery, sliced\n" +
	"At the table:\n1/2 cup shredded cheddar cheese\nsalt to taste\n\nMethod\nSimmer the beans and the celery in the broth for 20 minutes."

// TestASweepOfAnyTableSaysWhatTheFullCheckSays holds the sweep, which judges by gists,
// against the check that the pages of one dish show.
func TestASweepOfAnyTableSaysWhatTheFullCheckSays(t *testing.T) {
	k := testkit.Kitchen(t)
	dish := rapid.OneOf(rapid.SampledFrom(invented(t, 60)), rapid.Just(kitchen.Sweepable{Title: "Bean soup", Text: withTable}))
	rapid.Check(t, func(rt *rapid.T) {
		agreesWithCheck(t, k, limited(rt, aTable.Draw(rt, "table")), dish.Draw(rt, "dish"))
	})
}

func agreesWithCheck(t *testing.T, k *kitchen.Kitchen, h household.Household, dish kitchen.Sweepable) {
	t.Helper()
	a, err := k.Read(dish.Text, nil, nil)
	require.NoError(t, err)
	for s, err := range k.SweepTexts(context.Background(), h, []kitchen.Sweepable{dish}, kitchen.SweepOptions{}) {
		require.NoError(t, err)
		require.Equal(t, byCheck(dish.Title, k.Check(a, h)), s, dish.Text)
	}
}

// TestASweepOfPublishedRecipesSaysWhatTheFullCheckSays takes every 15th recipe of the
// published panels; they are not part of this repository.
func TestASweepOfPublishedRecipesSaysWhatTheFullCheckSays(t *testing.T) {
	k := testkit.Kitchen(t)
	for i, r := range publishedRecipes(t) {
		if i%15 > 0 {
			continue
		}
		text := fmt.Sprintf("%s\nServes %g\nIngredients\n%s\n\nMethod\n%s\n", r.Title, r.Servings, strings.Join(r.Ingredients, "\n"), strings.Join(r.Steps, "\n"))
		rnd := aTable.Example(i)
		h := rapid.Custom(func(t *rapid.T) household.Household { return limited(t, rnd) }).Example(i)
		agreesWithCheck(t, k, h, kitchen.Sweepable{Title: r.Title, Text: text})
	}
}

// TestAChangedLimitIsJudgedAnewByTheGistsThatAreKept changes everyone's limits,
// portions and allowances time and again: what is kept from before must say the same
// as a check from the beginning.
func TestAChangedLimitIsJudgedAnewByTheGistsThatAreKept(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	k.Memory = kitchen.NewMemory(100, 100)
	for i := range 12 {
		change := rapid.Custom(func(t *rapid.T) household.Household { return limited(t, h) })
		var err error
		h, err = storeOf(k).SaveHousehold(ctx, change.Example(i), "")
		require.NoError(t, err)
		for s, err := range k.Sweep(ctx, h.ID, kitchen.SweepOptions{}) {
			require.NoError(t, err)
			_, a, err := k.Open(ctx, h.ID, s.Recipe.LatestID)
			require.NoError(t, err)
			want := byCheck(s.Recipe.Title, k.Check(a, h))
			want.Recipe = s.Recipe
			assert.Equal(t, want, s)
		}
	}
}
