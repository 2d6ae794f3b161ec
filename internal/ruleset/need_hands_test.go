package ruleset

import (
	"testing"

	"potwright/internal/household"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLinesAndStepsTellWhatTheyAskOfTheHands(t *testing.T) {
	needs, foods := realNeeds(t)
	all := household.Cook{Spare: household.Loads(), LiftLimitKg: 3}
	for _, c := range []struct{ name, line, step, action string }{
		{"a can is opened", "1 (15 oz) can black beans|black beans, canned, drained", "", "open_can"},
		{"an onion is peeled", "1 onion, chopped|onion, raw", "", "peel_small"},
		{"fine dice needs a knife", "1 bell pepper, finely diced|green bell pepper, raw", "", "fine_dice"},
		{"potatoes are peeled", "2 potatoes, peeled|potato, with skin, raw", "", "peel"},
		{"garlic cloves are peeled", "3 cloves garlic, minced|garlic, raw", "", "peel_small"},
		{"a jar is opened", "1 jar pasta sauce|pasta sauce", "", "open_jar"},
		{"a carrot is grated", "1 carrot, grated|carrot, raw", "", "grate"},
		{"pasta is drained", "", "Drain the pasta and return to the pot.", "drain_pot"},
		{"a roux is stirred", "", "Cook, stirring constantly, until thick.", "stir_long"},
		{"dough is kneaded", "", "Knead for 8 minutes.", "knead"},
		{"a roast is carved", "", "Let rest, then carve.", "carve"},
		{"potatoes are mashed", "", "Mash with the milk.", "mash"},
		{"a lemon is squeezed", "", "Squeeze the lemon over.", "squeeze"},
		{"eggs are whisked", "", "Whisk the eggs.", "whisk"},
		{"soup is poured", "", "Pour the soup into a blender.", "pour_hot"},
		{"a dish comes out of the oven", "", "Remove from the oven and rest.", "lift_pot"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var lines []household.LineFood
			if c.line != "" {
				lines = dish(t, foods, c.line)
			}
			var steps []string
			if c.step != "" {
				steps = []string{c.step}
			}
			var actions []string
			for _, n := range needs.Hands(all).Judge(lines, steps, 0) {
				actions = append(actions, n.Action)
				assert.NotEmpty(t, n.Easier)
				assert.Contains(t, household.Loads(), n.Load)
				assert.GreaterOrEqual(t, n.Score, 2)
			}
			assert.Contains(t, actions, c.action)
		})
	}
}

func TestLookAlikesAskNothing(t *testing.T) {
	needs, foods := realNeeds(t)
	all := household.Cook{Spare: household.Loads()}
	for _, line := range []string{"1 tsp garlic powder|garlic powder", "1/2 tsp ground cloves|cloves, ground", "2 green onions|onion, raw",
		"1 tsp lemon peel|lemon peel, raw", "1 cup frozen chopped onion|onion, raw"} {
		assert.Empty(t, needs.Hands(all).Judge(dish(t, foods, line), nil, 0), line)
	}
	for _, step := range []string{"Rinse and drain the beans.", "You can serve it warm.", "Drain off fat.", "Simmer 20 minutes."} {
		for _, n := range needs.Hands(all).Judge(nil, []string{step}, 0) {
			assert.NotContains(t, []string{"drain_pot", "open_can"}, n.Action, step)
		}
	}
}

func TestOnlySparedLoadsAreTold(t *testing.T) {
	needs, foods := realNeeds(t)
	lines := dish(t, foods, "1 onion, finely diced|onion, raw")
	assert.Empty(t, needs.Hands(household.Cook{}).Judge(lines, nil, 9))
	assert.Empty(t, needs.Hands(household.Cook{Spare: []string{"lift"}}).Judge(lines, nil, 9))
	got := needs.Hands(household.Cook{Spare: []string{"fine_knife_work"}}).Judge(lines, nil, 9)
	require.NotEmpty(t, got)
	for _, n := range got {
		assert.Equal(t, "fine_knife_work", n.Load)
	}
}

func TestAPotOverTheLiftLimitIsToldWithItsWeight(t *testing.T) {
	needs, _ := realNeeds(t)
	steps := []string{"Boil.", "Drain the pasta."}
	hands := needs.Hands(household.Cook{LiftLimitKg: 3})
	assert.Empty(t, hands.Judge(nil, steps, 2.5))
	assert.Empty(t, hands.Judge(nil, steps, 0), "an unknown weight is told by no number")
	got := hands.Judge(nil, steps, 4.24)
	require.Len(t, got, 1)
	assert.Equal(t, 1, got[0].Step)
	assert.Equal(t, "Step 2: lifting and draining a full pot. The pot weighs about 4.2 kg with food, over the 3 kg to lift.", got[0].Text)
}
