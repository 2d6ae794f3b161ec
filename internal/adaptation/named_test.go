package adaptation_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/adaptation"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/swap"
	"potwright/internal/testkit"
)

func adaptLines(t *testing.T, k *kitchen.Kitchen, title string, h household.Household, lines ...string) adaptation.Answer {
	t.Helper()
	a, err := k.Read(title+"\nServes 4\nIngredients\n"+strings.Join(lines, "\n")+"\nMethod\nCook everything together until done.\n", nil, nil)
	require.NoError(t, err)
	ans, err := k.Adapt(context.Background(), a, h, adaptation.Wishes{})
	require.NoError(t, err)
	return ans
}

func optionOf(t *testing.T, ans adaptation.Answer, line int, rule string) swap.Option {
	t.Helper()
	for _, o := range ans.Options[line] {
		if o.Rule.ID == rule {
			return o
		}
	}
	require.Fail(t, "no such option", "line %d, %s", line, rule)
	return swap.Option{}
}

func TestToLoseAFoodOfTheTitleCountsMore(t *testing.T) {
	k := testkit.Kitchen(t)
	option := func(title, rule string) swap.Option {
		ans := adaptLines(t, k, title, household.Household{}, "2 tbsp Dijon mustard", "1 lb salmon fillets")
		return optionOf(t, ans, 0, rule)
	}
	change := func(title, rule string) int { return option(title, rule).Change }
	assert.Equal(t, change("Baked salmon", "mustard-omit")+3, change("Salmon with mustard", "mustard-omit"))
	assert.Equal(t, change("Baked salmon", "mustard-no-salt"), change("Salmon with mustard", "mustard-no-salt"), "it is still mustard")
	assert.Equal(t, 3, option("Salmon with mustard", "mustard-omit").Titled)
	assert.Zero(t, option("Baked salmon", "mustard-omit").Titled)
}

func TestToLeaveOutWhatADishIsMostlyMadeOfIsAnotherDish(t *testing.T) {
	k := testkit.Kitchen(t)
	cheese := func(line string) swap.Option {
		ans := adaptLines(t, k, "Bake", household.Household{}, line, "1 lb zucchini", "8 oz pasta", "2 tbsp olive oil")
		return optionOf(t, ans, 0, "cheese-omit")
	}
	much, little := cheese("3 cups shredded mozzarella"), cheese("1/4 cup shredded mozzarella")
	assert.Equal(t, 10, much.Change, "the end of the scale")
	assert.Equal(t, much.Change-little.Change, much.Main)
	assert.Zero(t, little.Main)
}

func TestLinesOfOneFoodAreReplacedByOneFood(t *testing.T) {
	k := testkit.Kitchen(t)
	h := household.Household{Members: []household.Member{{Name: "Dilys", Portion: 1, Avoid: []string{"milk"}}}}
	ans := adaptLines(t, k, "Pudding", h, "2 1/2 cups whole milk", "1/2 cup whole milk", "1/4 cup cornstarch", "1/3 cup sugar")
	require.True(t, ans.Fits, "%v", ans.Conflicts)
	require.Len(t, ans.Changes, 2)
	assert.Equal(t, ans.Changes[0].Option.Rule.ID, ans.Changes[1].Option.Rule.ID)
}

// Common practice, no source.
func TestNewLinesAreWrittenAsACookWrites(t *testing.T) {
	k := testkit.Kitchen(t)
	lines := []string{"6 slices whole wheat bread", "2 tbsp. finely diced onion", "2 cups lentils, rinsed", "1 12 oz. package whole wheat pasta"}
	ans := adaptLines(t, k, "Supper", household.Household{}, lines...)
	for i, c := range []struct{ rule, want string }{
		{"bread-three-quarters", "4 slices whole wheat bread"},
		{"onion-frozen", "2 tbsp frozen chopped onion"},
		{"smooth-and-sieved", "2 cups lentils, rinsed, pureed and sieved"},
		{"pasta-rice-noodles", "12 oz rice noodles, dry"},
	} {
		assert.Equal(t, []string{c.want}, optionOf(t, ans, i, c.rule).Text, lines[i])
	}
}

func TestManyLinesOfOneFoodAreAnswered(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a second")
	}
	h := household.Household{Members: []household.Member{{Name: "Dilys", Portion: 1, Avoid: []string{"milk"}}}}
	lines := make([]string, 100)
	for i := range lines {
		lines[i] = "1/4 cup whole milk"
	}
	assert.True(t, adaptLines(t, testkit.Kitchen(t), "Pudding", h, lines...).Fits)
}
