package server_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A weight given for one line must not become another's when the words change.
func TestACorrectionThatLostItsLineIsShownAndNotUsed(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/lines/4", "food", "sr:06194", "grams", "480")
	const heading = "For the broth:"
	edited := strings.Replace(strings.Replace(potText, "2 cups chicken broth", heading, 1), "1 tbsp olive oil", "1 carrot\n1 tbsp olive oil", 1)
	h.must(dish+"/edit", "text", edited)

	page := h.get(dish)
	assert.Contains(t, page.body, "The correction made for “2 cups chicken broth” no longer has its line, so it is not used.")
	assert.Contains(t, page.body, "It said: chicken broth, ready to serve")
	assert.Contains(t, page.body, "480 g")
	assert.NotContains(t, page.body, "corrected by you", "no other line has it")

	h.must(dish+"/edit", "text", potText)
	assert.NotContains(t, h.get(dish).body, "no longer has its line", "its words are back")
	assert.Contains(t, h.get(dish).body, "corrected by you")

	h.must(dish+"/edit", "text", edited)
	doc := parse(t, h.get(dish))
	mark := ""
	for _, b := range elements(doc, "button") {
		if attr(b, "name") == "stray" {
			mark = attr(b, "value")
		}
	}
	gone := h.post(dish+"/strays", "from", valueOf(doc, "from"), "stray", "another")
	assert.Equal(t, http.StatusNotFound, gone.StatusCode)
	h.must(dish+"/strays", "from", valueOf(doc, "from"), "stray", mark)
	assert.NotContains(t, h.get(dish).body, "no longer has its line")
	vs, err := h.store.ListVersions(t.Context(), 1, 1)
	require.NoError(t, err)
	assert.Empty(t, vs[len(vs)-1].Corrections)
	assert.Equal(t, "Let the correction of “2 cups chicken broth” go", vs[len(vs)-1].Note)
	assert.NotEmpty(t, vs[len(vs)-2].Corrections, "the version before still has it")
}
