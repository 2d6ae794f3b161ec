package server_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestACautionIsTickedKeptAndRaisedBesideTheVerdict(t *testing.T) {
	h := newHouse(t)
	base, _, _ := strings.Cut(h.must("/", "name", "Quay Lane"), "/people")
	h.must(base+"/people/new", "name", "Ana", "portion", "1", "caution", "grapefruit", "caution", "honey_under_one")
	people := h.get(base + "/people")
	assert.Contains(t, people.body, "Pharmacist said: no grapefruit")

	form := parse(t, h.get(base+"/people/1"))
	ticked := map[string]bool{}
	for _, n := range elements(form, "input") {
		if attr(n, "name") == "caution" {
			ticked[attr(n, "value")] = false
			for _, a := range n.Attr {
				if a.Key == "checked" {
					ticked[attr(n, "value")] = true
				}
			}
		}
	}
	require.Greater(t, len(ticked), 12)
	assert.True(t, ticked["grapefruit"])
	assert.True(t, ticked["honey_under_one"])
	assert.False(t, ticked["tyramine"])

	h.must(base+"/recipes/new", "text", "Citrus salad\n\nServes 2\n\nIngredients\n2 pink grapefruit, sectioned\n1 cup grape tomatoes\n\nMethod\n1. Arrange the fruit.\n2. Serve.\n", "note", "")
	table := h.get(base + "/table")
	require.Equal(t, http.StatusOK, table.StatusCode)
	assert.Contains(t, table.body, "pink grapefruit")
	assert.Contains(t, table.body, "your pharmacist or clinician decides")
	assert.NotContains(t, table.body, "Look at &#34;1 cup grape tomatoes")
	assert.NotContains(t, table.body, "Does not suit", "a caution is no verdict")
}

func TestARecipeSaysHowItIsKeptOnThePageAndInTheText(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	page := h.get(dish)
	assert.Contains(t, page.body, `<section id="keeping"><h2>Keeping</h2>`)
	assert.Contains(t, page.body, "not a promise that a dish is safe")
	assert.Contains(t, page.body, "within 2 hours of cooking", "USDA FSIS, Danger Zone")
	assert.NotContains(t, page.body, "Soak dry kidney beans", "canned beans have been boiled")
	text := h.get(dish + "/versions/1/text")
	require.Equal(t, http.StatusOK, text.StatusCode)
	assert.Contains(t, text.body, "Reheat to 165 °F")
	assert.Contains(t, text.body, "Follow your local food-safety rules")
}
