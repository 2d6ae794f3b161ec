package server_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestASweepOfTheRecipesIsReachedFromThePeople(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	assert.Contains(t, h.get(base+"/people").body, base+"/sweep")
	for _, query := range []string{"", "?swaps=1", "?from=-3", "?from=x", "?from=999"} {
		r := h.get(base + "/sweep" + query)
		assert.Equal(t, http.StatusOK, r.StatusCode, query)
		assert.Contains(t, r.body, `href="`+dish+`"`, query)
		assert.True(t, strings.Contains(r.body, "Recipes 1 to 1 of 1."), query)
	}
}
