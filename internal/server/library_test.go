package server_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRecipesAreFoundByTitleLineAndTag(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(base+"/recipes/new", "text", strings.Replace(strings.Replace(potText, "Harbour bean pot", "Leek soup", 1), "2 (15 oz) cans kidney beans", "3 leeks", 1))
	h.must(dish+"/tags", "tags", "supper,  for   guests ,")
	for _, c := range []struct {
		query       string
		pot, leek   bool
		description string
	}{
		{"", true, true, "no words find all"},
		{"?q=harbour", true, false, "a word of the title"},
		{"?q=KIDNEY+salt", true, false, "words of lines, in any case"},
		{"?q=guests", true, false, "a word of a tag"},
		{"?tag=supper", true, false, "a tag"},
		{"?q=leeks", false, true, "a word of the other"},
		{"?q=100%25", false, false, "a sign of patterns is a sign"},
	} {
		t.Run(c.description, func(t *testing.T) {
			body := h.get(base + "/recipes" + c.query).body
			assert.Equal(t, c.pot, strings.Contains(body, ">Harbour bean pot</a>"))
			assert.Equal(t, c.leek, strings.Contains(body, ">Leek soup</a>"))
		})
	}
	assert.Contains(t, h.get(dish).body, `value="for guests, supper"`)
	other, _, _ := strings.Cut(h.must("/", "name", "Elsewhere"), "/people")
	assert.NotContains(t, h.get(other+"/recipes?q=harbour").body, "Harbour bean pot", "another household’s recipes are its own")
}

func TestARecipePastedTwiceIsNoticedAndKept(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	same := h.must(base+"/recipes/new", "text", potText)
	assert.Contains(t, h.get(same).body, `This looks like a recipe you have already. <a href="`+dish+`"`)
	renamed := h.must(base+"/recipes/new", "text", strings.Replace(potText, "Harbour bean pot", "Beans", 1))
	assert.Contains(t, h.get(renamed).body, "This looks like a recipe you have already.")
	fresh := h.must(base+"/recipes/new", "text", "Toast\n\nServes 1\n\nIngredients\n2 slices bread\n\nMethod\nToast the bread.")
	assert.NotContains(t, h.get(fresh).body, "This looks like")
}

func TestASwapRefusedForTheHouseholdIsNotSuggestedForAnyDish(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	h.must(dish+"/lines/6", "skip", "yes")
	doc := parse(t, h.get(dish+"/adapt"))
	rule := ""
	for _, n := range elements(doc, "button") {
		if attr(n, "name") == "never" {
			rule = attr(n, "value")
			break
		}
	}
	require.NotEmpty(t, rule)
	again := h.get(h.must(dish+"/adapt/never", "never", rule)).body
	assert.NotContains(t, again, `name="never" value="`+rule+`"`)
	assert.Contains(t, again, "Never suggested in this household")
	second, _, _ := strings.Cut(h.must(base+"/recipes/new", "text", potText), "?")
	assert.NotContains(t, h.get(second+"/adapt").body, `name="never" value="`+rule+`"`)
	assert.Contains(t, h.get(h.must(dish+"/adapt/never", "maybe", rule)).body, `name="never" value="`+rule+`"`)
}
