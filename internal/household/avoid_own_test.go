package household_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/composition"
	"potwright/internal/household"
	"potwright/internal/testkit"
)

// The words are those of public lists (FALCPA 2004): whey is of milk.
func TestAPackageIsJudgedByItsListOfIngredients(t *testing.T) {
	milk, err := testkit.Kitchen(t).Needs.Avoidance("milk")
	require.NoError(t, err)
	judge := func(ingredients string, kinds ...string) household.Answer {
		return milk.JudgeFood(&composition.Food{ID: "own:1", Name: "quay pebbles", Ingredients: ingredients, Kinds: kinds})
	}
	assert.Equal(t, household.NotKnown, judge("").Presence, "nothing tells")
	assert.Equal(t, household.FreeSoFar, judge("", "vegetable").Presence, "as the food it is like")
	assert.Equal(t, household.FreeSoFar, judge("Oats, salt, rapeseed oil").Presence)
	got := judge("Oats, WHEY powder, salt")
	assert.Equal(t, household.Contains, got.Presence)
	assert.Contains(t, got.Why, "the ingredients of quay pebbles list whey")
	assert.Equal(t, household.Contains, judge("Oats, salt", "cheese").Presence, "the kinds still count")
}
