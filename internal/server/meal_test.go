package server_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestTwoDishesAtTheTableAreAlsoJudgedTogether(t *testing.T) {
	h := newHouse(t)
	base, first := h.furnish()
	second, _, _ := strings.Cut(h.must(base+"/recipes/new", "text", potText), "?")
	id := func(link string) string { return strings.TrimPrefix(link, base+"/recipes/") }
	one := h.get(base + "/table?" + url.Values{"dish": {id(first)}}.Encode())
	assert.NotContains(t, one.body, "The meal together")
	two := h.get(base + "/table?" + url.Values{"dish": {id(first), id(second)}}.Encode())
	assert.Equal(t, http.StatusOK, two.StatusCode)
	assert.Contains(t, two.body, "The meal together")
}
