package server_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
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

// TestARecipeIsFiledFoundAndNoticedTwiceInABrowser files one under a word of one's
// own, finds it by that, and pastes it again.
func TestARecipeIsFiledFoundAndNoticedTwiceInABrowser(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, dish := h.furnish()
	h.paste(base, "Leek soup\n\nServes 2\n\nIngredients\n3 leeks\n\nMethod\nSimmer the leeks.\n")
	b := newTab(t, h, screens()[1])
	b.open(dish)
	b.do(chromedp.Click(chromedp.CSS(`form[action$="/tags"] summary`)))
	b.fill("tags", "supper, for guests")
	b.click(`form[action$="/tags"] button`)
	assert.Contains(t, b.words(), "Filed under: for guests, supper")
	b.open(base + "/recipes")
	assert.Contains(t, b.words(), "Leek soup")
	b.fill("q", "guests beans")
	b.click("form[role=search] button")
	assert.Contains(t, b.words(), "Harbour bean pot")
	assert.NotContains(t, b.words(), "Leek soup")
	b.fill("q", "turnip")
	b.click("form[role=search] button")
	assert.Contains(t, b.words(), "Nothing here has all of those words.")
	b.open(base + "/recipes/new")
	b.fill("text", potText)
	b.click("main form button")
	assert.Contains(t, b.words(), "This looks like a recipe you have already.")
}

// TestARefusedSwapStaysAwayUntilItIsWantedAgainInABrowser refuses the first one for good.
func TestARefusedSwapStaysAwayUntilItIsWantedAgainInABrowser(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	_, dish := h.furnish()
	h.must(dish+"/lines/6", "skip", "yes")
	b := newTab(t, h, screens()[1])
	b.open(dish + "/adapt")
	swap := b.run(`document.querySelector(".sides .changed .state").textContent`)
	b.click("button[name=never]")
	assert.NotEqual(t, swap, b.run(`document.querySelector(".sides .changed .state").textContent`))
	b.do(chromedp.Click(chromedp.CSS(".ask summary")))
	assert.Contains(t, b.words(), "Never suggested in this household")
	b.click("button[name=maybe]")
	assert.Equal(t, swap, b.run(`document.querySelector(".sides .changed .state").textContent`), "it is suggested again")
}
