package server_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Two people open the same recipe; each saves, neither having seen the other's.
func TestTwoPeopleWhoChangeTheSameRecipeBothKeepTheirWork(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	ana, ben := parse(t, h.get(dish+"/edit")), parse(t, h.get(dish+"/edit"))
	lines := parse(t, h.get(dish+"/lines/5"))
	h.must(dish+"/edit", "from", valueOf(ana, "from"), "text", strings.Replace(potText, "1 tsp salt", "1/2 tsp salt", 1), "note", "ana")
	assert.NotContains(t, h.get(dish).body, "another was saved", "nobody was in between")

	h.must(dish+"/edit", "from", valueOf(ben, "from"), "text", strings.Replace(potText, "1 onion", "2 onions", 1), "note", "ben")
	page := h.get(dish)
	assert.Contains(t, page.body, "While this version was being written, another was saved. Both are kept")
	assert.Contains(t, page.body, "Put version 2 and this one side by side")
	assert.Contains(t, page.body, dish+"/compare?a=2&amp;b=3")

	h.must(dish+"/lines/5", "from", valueOf(lines, "from"), "grams", "3")
	assert.Contains(t, h.get(dish).body, "Put version 3 and this one side by side")

	vs, err := h.store.ListVersions(t.Context(), 1, 1)
	require.NoError(t, err)
	require.Len(t, vs, 4)
	assert.Contains(t, vs[1].Text, "1/2 tsp salt")
	assert.Contains(t, vs[2].Text, "2 onions")
	assert.InDelta(t, 3, correctionOf(t, vs[3], "1 tsp salt").Grams.Mid, 0)
	for _, v := range vs[1:] {
		assert.Equal(t, vs[0].ID, v.ParentID, "all three started from the first")
	}

	again := parse(t, h.get(dish+"/edit"))
	h.must(dish+"/edit", "from", valueOf(again, "from"), "text", potText)
	assert.NotContains(t, h.get(dish).body, "another was saved", "the next one starts from the newest")
}

func TestAFormMadeFromNoVersionOfTheRecipeIsNotSaved(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/recipes/new", "text", potText)
	for _, from := range []string{"2", "99", "x", "-1"} {
		assert.Equal(t, 404, h.post(dish+"/edit", "from", from, "text", potText).StatusCode, from)
	}
}
