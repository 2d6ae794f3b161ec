package server_test

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestARecipeOpensForAnotherNumberAndIsSavedOnlyWhenAsked(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/lines/2", "food", "", "grams", "150")
	r := h.get(dish + "/scale?servings=8")
	require.Equal(t, http.StatusOK, r.StatusCode)
	doc := parse(t, r)
	var scaled string
	for _, n := range elements(doc, "textarea") {
		scaled = n.FirstChild.Data
	}
	assert.Contains(t, scaled, "4 (15 oz) cans kidney beans")
	assert.Contains(t, scaled, "2 onions, chopped")
	assert.Contains(t, scaled, "Simmer for 20 minutes")
	assert.Contains(t, r.body, "Times, heat and pan sizes in the method are not scaled")
	versions, err := h.store.ListVersions(t.Context(), 1, 1)
	require.NoError(t, err)
	before := len(versions)

	h.must(dish+"/edit", "text", scaled, "note", "for 8 servings")
	versions, err = h.store.ListVersions(t.Context(), 1, 1)
	require.NoError(t, err)
	require.Len(t, versions, before+1)
	newest := versions[len(versions)-1]
	assert.Equal(t, "for 8 servings", newest.Note)
	onions := correctionOf(t, newest, "2 onions, chopped")
	require.NotNil(t, onions.Grams, "the weight you gave goes with the amount")
	assert.InDelta(t, 300, onions.Grams.Mid, 1e-6)
}

func TestANumberOfServingsThatIsNoneIsAskedForAgain(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	for _, servings := range []string{"", "many", "-2", "0", "9e9"} {
		r := h.get(dish + "/scale?servings=" + servings)
		assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode, servings)
		assert.Contains(t, r.body, "For more people, or fewer")
	}
}
