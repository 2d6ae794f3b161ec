package kitchen_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/composition"
	"potwright/internal/demo"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/recipe"
	"potwright/internal/spread"
	"potwright/internal/store/sqlite"
	"potwright/internal/testkit"
	"potwright/internal/testkit/datafile"
)

// stored is the kitchen over a real database with the demo household in it.
func stored(t *testing.T) (*kitchen.Kitchen, household.Household) {
	t.Helper()
	k := testkit.Kitchen(t)
	store, err := sqlite.Open(datafile.Empty(t), testkit.Now)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, store.Close()) })
	k.Store = store
	require.NoError(t, demo.Fill(context.Background(), k))
	hs, err := store.ListHouseholds(context.Background())
	require.NoError(t, err)
	require.Len(t, hs, 1)
	return k, hs[0]
}

// storeOf is what the kitchen of a test keeps things in.
func storeOf(k *kitchen.Kitchen) kitchen.Store { return k.Store.(kitchen.Store) }

func first(t *testing.T, k *kitchen.Kitchen, h household.Household) (recipe.Version, kitchen.Analysis) {
	t.Helper()
	list, err := k.Store.ListRecipes(context.Background(), h.ID)
	require.NoError(t, err)
	require.NotEmpty(t, list)
	v, a, err := k.Open(context.Background(), h.ID, list[0].LatestID)
	require.NoError(t, err)
	return v, a
}

func TestASavedAdaptationOpensToTheSameFiguresAndKeepsItsReasons(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	parent, a := first(t, k, h)
	ans, err := k.Adapt(ctx, a, h, adaptation.Wishes{})
	require.NoError(t, err)
	require.True(t, ans.Fits)
	v, err := k.SaveAdapted(ctx, h.ID, parent, ans, "for Sunday")
	require.NoError(t, err)
	assert.Equal(t, 2, v.Number)
	assert.Equal(t, parent.ID, v.ParentID)
	again, opened, err := k.Open(ctx, h.ID, v.ID)
	require.NoError(t, err)
	assert.Equal(t, "for Sunday", again.Note)
	require.Len(t, again.Changes, len(ans.Changes))
	for i, c := range again.Changes {
		assert.Equal(t, ans.Changes[i].Option.Rule.ID, c.RuleID)
		assert.NotEmpty(t, c.Why)
	}
	for n, amount := range opened.Pot.Serving {
		assert.InDelta(t, ans.Pot.Serving[n].Mid, amount.Mid, 1e-9, "%v", composition.Nutrient(n))
		assert.InDelta(t, ans.Pot.Serving[n].High, amount.High, 1e-9, "%v", composition.Nutrient(n))
	}
	portions := make([]float64, len(ans.Plates))
	for i, p := range ans.Plates {
		portions[i] = p.Portion
	}
	for _, p := range k.CheckPortions(opened, h, portions).Plates {
		assert.True(t, p.Fits, p.Member.Name)
	}
}

func TestAnEditIsAChildVersionThatSaysWhatChanged(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	parent, a := first(t, k, h)
	weighed := recipe.Correction{Grams: &spread.Range{Low: 700, Mid: 700, High: 700}}
	edited, err := k.Read(a.Recipe.Text, nil, []recipe.LineCorrection{{Words: a.Recipe.Lines[6].Reading.Text, Correction: weighed}})
	require.NoError(t, err)
	v, err := k.SaveEdit(ctx, h.ID, parent, edited, "weighed the potatoes")
	require.NoError(t, err)
	require.Len(t, v.Changes, 1)
	assert.Equal(t, 6, v.Changes[0].Line)
	_, opened, err := k.Open(ctx, h.ID, v.ID)
	require.NoError(t, err)
	assert.InDelta(t, 700, opened.Pot.Lines[6].Grams.Mid, 1e-9)
	old, _, err := k.Open(ctx, h.ID, parent.ID)
	require.NoError(t, err)
	assert.Equal(t, parent.PanelJSON, old.PanelJSON, "the parent is left as it was")
}

func TestARecipeGoesByItsNewestTitle(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	parent, a := first(t, k, h)
	renamed, err := k.Read(strings.Replace(a.Recipe.Text, a.Recipe.Title, "Grey day chowder", 1), nil, nil)
	require.NoError(t, err)
	_, err = k.SaveEdit(ctx, h.ID, parent, renamed, "")
	require.NoError(t, err)
	sum, err := storeOf(k).FindRecipe(ctx, h.ID, parent.RecipeID)
	require.NoError(t, err)
	assert.Equal(t, "Grey day chowder", sum.Title)
}

func TestARememberedChoiceIsUsedNextTime(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	const text = "Toast\nServes 2\nIngredients\n1 cup milk\nMethod\nWarm the milk.\n"
	plain, err := k.Read(text, nil, nil)
	require.NoError(t, err)
	skim, ok := k.Table.ByName("milk, fat free")
	if !ok {
		skim = k.Table.Search("skim milk", 1)[0]
	}
	require.NotEqual(t, skim.ID, plain.Pot.Lines[0].Matched.Items[0].Food.ID)
	require.NoError(t, storeOf(k).RememberChoice(ctx, h.ID, "milk", recipe.Correction{FoodID: skim.ID}, ""))
	remembered, err := k.Store.Choices(ctx, h.ID)
	require.NoError(t, err)
	again, err := k.Read(text, remembered, nil)
	require.NoError(t, err)
	assert.Equal(t, skim.ID, again.Pot.Lines[0].Matched.Items[0].Food.ID)
}

func TestACorrectionStaysWithItsLineInAChangedText(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	const text = "Quay beans\nServes 2\n\nIngredients\n1 can kidney beans\n2 cups broth\n\nMethod\nWarm them."
	skip := recipe.LineCorrection{Words: "1 can kidney beans", Correction: recipe.Correction{Skip: true}}
	broth := func(words string, grams float64) recipe.LineCorrection {
		weight := spread.Exact(grams)
		return recipe.LineCorrection{Words: words, Correction: recipe.Correction{Grams: &weight}}
	}
	a, err := k.ReadFor(ctx, h.ID, text, []recipe.LineCorrection{skip, broth("2 cups broth", 400)})
	require.NoError(t, err)
	v, err := k.SaveNew(ctx, h.ID, a, "")
	require.NoError(t, err)
	for name, c := range map[string]struct {
		text string
		want []recipe.LineCorrection
		told []string
	}{
		"another title":    {strings.Replace(text, "Quay", "Pier", 1), v.Corrections, nil},
		"a line before it": {strings.Replace(text, "1 can", "1 onion\n1 can", 1), v.Corrections, nil},
		"twice the broth":  {strings.Replace(text, "2 cups", "4 cups", 1), []recipe.LineCorrection{skip, broth("4 cups broth", 800)}, nil},
		"milk for the broth": {strings.Replace(text, "broth", "milk", 1), v.Corrections,
			[]string{"The correction made for “2 cups broth” no longer has its line, so it is not used."}},
	} {
		edited, err := k.ReadEdit(ctx, h.ID, v, c.text)
		require.NoError(t, err, name)
		next, err := k.SaveEdit(ctx, h.ID, v, edited, "")
		require.NoError(t, err, name)
		assert.Equal(t, c.want, next.Corrections, name)
		_, again, err := k.Open(ctx, h.ID, next.ID)
		require.NoError(t, err, name)
		assert.Equal(t, c.told, again.Recipe.Strayed(), name)
		assert.Subset(t, again.Document().Notes, c.told, name)
		assert.Subset(t, again.Account().Notes, c.told, name)
	}
}

// TestALongRecipeThatWasSavedOpensAndIsLeftAsItIs saves what an earlier program took in.
func TestALongRecipeThatWasSavedOpensAndIsLeftAsItIs(t *testing.T) {
	ctx := context.Background()
	k, h := stored(t)
	text := "Long\n\nServes 4\n\nIngredients\n1 cup rice\n1 tsp salt\n\nMethod\n" + strings.Repeat("Stir the rice.\n\n", recipe.MaxSteps+50)
	_, err := k.ReadFor(ctx, h.ID, text, nil)
	require.ErrorContains(t, err, "a recipe has at most 200")
	saved, err := storeOf(k).CreateRecipe(ctx, h.ID, "Long", recipe.Version{Text: text})
	require.NoError(t, err)
	v, a, err := k.Open(ctx, h.ID, saved.ID)
	require.NoError(t, err)
	assert.Equal(t, text, v.Text)
	ans, err := k.Adapt(ctx, a, h, adaptation.Wishes{})
	require.NoError(t, err)
	assert.Empty(t, ans.Changes)
	assert.Contains(t, strings.Join(ans.Cautions, " "), "is left as it is")
	_, err = k.SaveAgain(ctx, h.ID, v, "")
	assert.NoError(t, err)
	_, _, err = k.ForServings(ctx, h.ID, a, 8)
	assert.NoError(t, err)
}
