package pages

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"potwright/internal/kitchen"
)

func TestAFewDishesAreAllOfferedAndManyAreFound(t *testing.T) {
	var list []kitchen.RecipeSummary
	for i := range 100 {
		list = append(list, kitchen.RecipeSummary{ID: int64(i + 1), Title: fmt.Sprintf("Bean pot %d", i)})
	}
	first := func(r kitchen.RecipeSummary) bool { return r.ID == 1 }
	none := func(kitchen.RecipeSummary) bool { return false }

	chosen, few := offer(list[:4], list[:4], first, "")
	assert.Equal(t, list[:1], chosen)
	assert.Len(t, few.Rest, 3)
	assert.Equal(t, "3 more dishes to choose from", few.More)
	assert.True(t, few.Open)
	assert.Empty(t, few.Find.Name, "there is nothing to look for")

	_, many := offer(list, list, first, "")
	assert.Len(t, many.Rest, mostOffered)
	assert.Equal(t, "99 more dishes to choose from; the newest 40 are listed", many.More)
	assert.False(t, many.Open)
	assert.Equal(t, "find", many.Find.Name)

	chosen, found := offer(list, list[99:], first, " POT 99 ")
	assert.Len(t, chosen, 1, "what is ticked stays")
	assert.Equal(t, []tick{{Name: "dish", Value: "100", Label: "Bean pot 99"}}, found.Rest)
	assert.Equal(t, "1 dish has these words", found.More)
	_, missing := offer(list, nil, none, "turnip")
	assert.Empty(t, missing.Rest)
	assert.Equal(t, "0 dishes have these words", missing.More)
	_, start := offer(list, list, none, "")
	assert.True(t, start.Open, "where nothing is ticked there is something to tick")
}
