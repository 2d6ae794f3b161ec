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
	needs, foods := realNeeds(t)
	pasta := dish(t, foods, "1 lb spaghetti|pasta, dry")
	pasta[0].Grams = 453.6
	hands := needs.Hands(household.Cook{LiftLimitKg: 3})
	for _, c := range []struct {
		name     string
		lines    []household.LineFood
		steps    []string
		contents float64
		want     string // "" where nothing is said
	}{
		{"a small pot", nil, []string{"Drain well."}, 1.2, ""},
		{"an unknown weight is told by no number", nil, []string{"Drain well."}, 0, ""},
		{"the pot counts", nil, []string{"Remove from heat."}, 2.5,
			"Step 1: lifting a full pot or dish. It weighs about 3.9 kg (2.5 kg of food and liquid, 1.4 kg the vessel), over the 3 kg to lift."},
		// 4 quarts (3.8 kg) of water to a pound of pasta: package directions.
		{"pasta is drained with its water", pasta, []string{"Boil.", "Drain the pasta."}, 1.5,
			"Step 2: lifting and draining a full pot. It weighs about 6.1 kg (4.1 kg of food and liquid, 2 kg the vessel), over the 3 kg to lift."},
		{"a cast-iron pot is heavier", nil, []string{"Brown the meat in a Dutch oven.", "Remove from heat."}, 2,
			"Step 2: lifting a full pot or dish. It weighs about 7.5 kg (2 kg of food and liquid, 5.5 kg the vessel), over the 3 kg to lift."},
	} {
		t.Run(c.name, func(t *testing.T) {
			var texts []string
			for _, n := range hands.Judge(c.lines, c.steps, c.contents) {
				texts = append(texts, n.Text)
			}
			if c.want == "" {
				assert.Empty(t, texts)
				return
			}
			assert.Equal(t, []string{c.want}, texts)
		})
	}
}

// Every way out tells what it does to nutrients, yield and cost; the shares are
// those of state extension substitution lists, cost classes common practice.
func TestEveryEasierWayTellsItsEffect(t *testing.T) {
	needs, _ := realNeeds(t)
	for _, a := range needs.HandActions() {
		assert.NotEmpty(t, a.Effect.Nutrients, a.ID)
		assert.NotEmpty(t, a.Effect.Yield, a.ID)
		assert.Contains(t, household.CostClasses(), string(a.Effect.Cost), a.ID)
	}
}
