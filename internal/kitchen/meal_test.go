package kitchen_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/kitchen"
)

func servings(t *testing.T, k *kitchen.Kitchen, portions ...float64) []kitchen.Serving {
	t.Helper()
	names := []string{"fish-chowder", "baked-pasta", "muffins"}
	var out []kitchen.Serving
	for i, p := range portions {
		a := demoDish(t, k, names[i])
		out = append(out, kitchen.Serving{Title: a.Recipe.Title, Analysis: a, Portion: p})
	}
	return out
}

func TestAMealOfOneDishSaysWhatTheDishSays(t *testing.T) {
	k, h := stored(t)
	for _, s := range servings(t, k, 1, 1, 1) {
		for i, plate := range k.CheckPortions(s.Analysis, h, []float64{1, 1, 1, 1}[:len(h.Members)]).Plates {
			meal := k.Meal(h, h.Members[i], []kitchen.Serving{s})
			var sums []household.Finding
			for _, f := range plate.Verdict.Findings {
				if f.Kind == "limit" || f.Kind == "plan" {
					sums = append(sums, f)
				}
			}
			require.Len(t, meal.Findings, len(sums))
			for j, f := range meal.Findings {
				var of household.Finding
				for _, s := range sums {
					if s.Text == f.Text {
						of = s
					}
				}
				assert.Equal(t, f.Text, of.Text, "%s, %s, finding %d", s.Title, meal.Member.Name, j)
				assert.Equal(t, f.Fit, of.Fit)
			}
		}
	}
}

func TestASumOfDishesHasTheSumOfTheirMiddlesAndIsNoNarrowerThanEither(t *testing.T) {
	k, h := stored(t)
	both := servings(t, k, 1, 1, 1)
	m := h.Members[0]
	rapid.Check(t, func(t *rapid.T) {
		for i := range both {
			both[i].Portion = rapid.Float64Range(0, 3).Draw(t, "portion")
		}
		sum := k.Meal(h, m, both).Panel
		var mids, widest, added [composition.NutrientCount]float64
		for _, s := range both {
			one := k.Meal(h, m, []kitchen.Serving{s}).Panel
			for n, a := range one {
				mids[n] += a.Mid
				widest[n] = max(widest[n], a.High-a.Mid)
				added[n] += a.High - a.Mid
			}
		}
		for n, a := range sum {
			slack := 1e-9 * (1 + a.High)
			if d := a.Mid - mids[n]; d > slack || d < -slack {
				t.Fatalf("nutrient %d: middle %g, expected %g", n, a.Mid, mids[n])
			}
			if up := a.High - a.Mid; up < widest[n]-slack || up > added[n]+slack {
				t.Fatalf("nutrient %d: upper half %g, expected between %g and %g", n, up, widest[n], added[n])
			}
		}
	})
}

func TestTwoPlatesOfOneDishDoubleTheDoubtOfItsFoods(t *testing.T) {
	k, h := stored(t)
	one := servings(t, k, 1)
	again := k.Meal(h, h.Members[0], []kitchen.Serving{one[0], one[0]}).Panel
	single := k.Meal(h, h.Members[0], one).Panel
	for n, a := range again {
		assert.InDelta(t, 2*single[n].Mid, a.Mid, 1e-6*(1+a.Mid))
		assert.LessOrEqual(t, a.High-a.Mid, 2*(single[n].High-single[n].Mid)+1e-9*(1+a.High))
	}
}

func TestWhatBringsMostOfASumComesFirst(t *testing.T) {
	k, h := stored(t)
	for _, m := range h.Members {
		for _, f := range k.Meal(h, m, servings(t, k, 1, 1, 1)).Findings {
			total := 0.0
			for i, s := range f.Shares {
				total += s.Share
				assert.True(t, i == 0 || f.Shares[i-1].Share >= s.Share)
			}
			if len(f.Shares) > 0 {
				assert.InDelta(t, 1, total, 1e-9)
			}
		}
	}
}
