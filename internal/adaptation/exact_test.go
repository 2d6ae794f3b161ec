package adaptation_test

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/foodmatch"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/swap"
	"potwright/internal/testkit"
)

// pantry is lines that random small dishes are drawn from.
var pantry = []string{
	"4 cups chicken broth", "1 teaspoon salt", "2 (15 oz) cans kidney beans", "2 tablespoons butter",
	"1 cup heavy cream", "1/4 cup soy sauce", "1 cup shredded cheddar cheese", "1 (14.5 oz) can diced tomatoes",
	"6 slices bacon", "1 cup whole milk", "1 lb boneless skinless chicken breast", "2 cups cooked white rice",
}

// everyChoice walks all combinations of an option (or keeping, index -1) for
// every line.
func everyChoice(options [][]swap.Option, visit func(pick []int)) {
	pick := make([]int, len(options))
	var walk func(i int)
	walk = func(i int) {
		if i == len(options) {
			visit(pick)
			return
		}
		for k := -1; k < len(options[i]); k++ {
			pick[i] = k
			walk(i + 1)
		}
	}
	walk(0)
}

// bruteForce is the least change and effort and count that suits everyone, by
// trying every combination of options and judging each as a recipe of its own,
// read afresh; ok is false where none does.
func bruteForce(k *kitchen.Kitchen, a kitchen.Analysis, h household.Household, options [][]swap.Option, more []swap.Option) (best []int64, ok bool) {
	whole := byRule(more)
	everyChoice(options, func(pick []int) {
		var lines []foodmatch.Matched
		for i, p := range pick {
			if p < 0 {
				lines = append(lines, *a.Pot.Lines[i].Matched)
			} else {
				lines = append(lines, options[i][p].Lines...)
			}
		}
		everyAddition(k, a, lines, whole, func(added []swap.Option, noticed int64) {
			cost := []int64{noticed, 0, 0}
			rec := a.Recipe
			rec.Lines = nil
			sets := map[string]int{}
			for i, p := range pick {
				if p < 0 {
					rec.Lines = append(rec.Lines, a.Recipe.Lines[i])
					continue
				}
				o := options[i][p]
				cost[0] += int64(o.Change)
				cost[1] += int64(o.Effort)
				cost[2]++
				if o.Rule.Together != "" {
					sets[o.Rule.Together]++
				}
				for _, m := range o.Lines {
					rec.Lines = append(rec.Lines, recipe.Line{Reading: m.Reading})
				}
			}
			for _, o := range added {
				cost[0] += int64(o.Change)
				cost[1] += int64(o.Effort)
				cost[2]++
				if o.Rule.Together != "" {
					sets[o.Rule.Together]++
				}
				for _, m := range o.Lines {
					rec.Lines = append(rec.Lines, recipe.Line{Reading: m.Reading})
				}
			}
			for _, n := range sets {
				if n > 1 {
					return
				}
			}
			if ok && !less(cost, best) {
				return
			}
			got := k.Compute(rec, nil)
			if balanced(k.Book, a, got) && everyoneFits(k, got, h) {
				best, ok = append([]int64(nil), cost...), true
			}
		})
	})
	return best, ok
}

// byRule are additions with nothing first, rule by rule.
func byRule(options []swap.Option) [][]swap.Option {
	var out [][]swap.Option
	for _, o := range options {
		if n := len(out); n == 0 || out[n-1][0].Rule.ID != o.Rule.ID {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], o)
	}
	return out
}

// everyAddition walks the additions that a choice of lines calls for: those whose
// function is below its band, for salt where more than goes unnoticed is gone.
// noticed is what that counts where nothing makes up for it.
func everyAddition(k *kitchen.Kitchen, a kitchen.Analysis, lines []foodmatch.Matched, whole [][]swap.Option, visit func(added []swap.Option, noticed int64)) {
	var was, is swap.Amounts
	for _, lp := range a.Pot.Lines {
		was = was.Add(k.Book.LineContribution(*lp.Matched))
	}
	for _, l := range lines {
		is = is.Add(k.Book.LineContribution(l))
	}
	saltless := is[swap.Salt] < (1-k.Taste.Fall.Unnoticed)*was[swap.Salt]-1e-9
	var called [][]swap.Option
	for _, of := range whole {
		f, _ := swap.ParseFunction(of[0].Rule.Restores)
		b := k.Book.Balances()[f]
		if f == swap.Salt && saltless || f != swap.Salt && b.Low > 0 && is[f] < b.Low*was[f]-1e-9 {
			called = append(called, of)
		}
	}
	everyChoice(called, func(pick []int) {
		var added []swap.Option
		var noticed int64
		if saltless {
			noticed = int64(k.Taste.Fall.Counts)
		}
		for i, p := range pick {
			if p < 0 {
				continue
			}
			added = append(added, called[i][p])
			if called[i][p].Rule.Restores == "salt" {
				noticed = 0
			}
		}
		visit(added, noticed)
	})
}

func everyoneFits(k *kitchen.Kitchen, a kitchen.Analysis, h household.Household) bool {
	return k.Check(a, h).Fits
}

func balanced(book *swap.Book, before, after kitchen.Analysis) bool {
	var was, is swap.Amounts
	for _, lp := range before.Pot.Lines {
		was = was.Add(book.LineContribution(*lp.Matched))
	}
	for _, lp := range after.Pot.Lines {
		is = is.Add(book.LineContribution(*lp.Matched))
	}
	for _, b := range book.Balances() {
		w, x := was[b.Function], is[b.Function]
		if w <= 0 || w/before.Pot.Servings < b.Enough {
			continue
		}
		if x < b.Low*w-1e-9 || b.High > 0 && x > b.High*w+1e-9 {
			return false
		}
	}
	return true
}

func less(a, b []int64) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

// TestTheChoiceEqualsBruteForce holds the solver's answer against every
// combination of options judged one by one through the reader and the plates,
// a path that shares no code with the solver's rows.
// What cooking takes is left out: it depends on the company a food is cooked in,
// which the search can only foresee and the text read afresh decides.
func TestTheChoiceEqualsBruteForce(t *testing.T) {
	k := testkit.Kitchen(t)
	k.Cooking = nil
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfNDistinct(rapid.SampledFrom(pantry), 2, 3, rapid.ID[string]).Draw(t, "lines")
		text := "Small dish\nServes 4\nIngredients\n"
		for _, l := range lines {
			text += l + "\n"
		}
		text += "Method\nCook everything together until done.\n"
		a, err := k.Read(text, nil, nil)
		require.NoError(t, err)
		h := drawHousehold(t, a)
		ans, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{})
		require.NoError(t, err)
		want, ok := bruteForce(k, a, h, automatic(ans.Options, len(lines)), ans.Options[adaptation.WholeDish])
		if !assert.Equal(t, ok, ans.Fits, "%v", ans.Conflicts) || !ok {
			return
		}
		assert.Equal(t, want, ans.Cost[:3])
		assert.Equal(t, adaptation.Optimal, ans.Proof)
	})
}

// automatic are the options that may be chosen unasked.
func automatic(by map[int][]swap.Option, lines int) [][]swap.Option {
	out := make([][]swap.Option, lines)
	for i := range out {
		for _, o := range by[i] {
			if !o.Rule.Manual {
				out[i] = append(out[i], o)
			}
		}
	}
	return out
}

// drawHousehold is two people with limits around what the dish holds.
func drawHousehold(t *rapid.T, a kitchen.Analysis) household.Household {
	h := household.Household{Name: "test"}
	for i := range 2 {
		m := household.Member{Name: fmt.Sprintf("person %d", i+1), Portion: 1}
		n := rapid.SampledFrom([]composition.Nutrient{composition.Sodium, composition.SaturatedFat, composition.Energy}).Draw(t, "nutrient")
		bound := a.Pot.Serving[n].Mid * rapid.Float64Range(0.3, 1.3).Draw(t, "share of what it holds")
		by := rapid.SampledFrom([]household.SetBy{household.Clinician, household.OwnChoice}).Draw(t, "set by")
		l := household.Limit{Nutrient: n, Per: household.PerMeal, SetBy: by}
		if n == composition.Energy {
			l.AtLeast = &bound
		} else {
			l.AtMost = &bound
		}
		if rapid.Bool().Draw(t, "something before it") {
			before := a.Pot.Serving[n].Range.Scale(rapid.Float64Range(0, 0.3).Draw(t, "share of it before"))
			m.Had = &household.Had{}
			m.Had.Meal.All[n] = household.Amount{Range: before}
		}
		m.Limits = append(m.Limits, l)
		h.Members = append(h.Members, m)
	}
	return h
}
