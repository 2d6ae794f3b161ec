package server_test

import (
	"net/http"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

const trayPasta = "Tray pasta\n\nServes 4\n\nIngredients\n1 pound penne\n2 cups sliced mushrooms\n1 (28 oz) can crushed tomatoes\n\nMethod\nBoil the penne in a pot.\nSimmer the tomatoes with the mushrooms 20 minutes, mix and bake 25 minutes.\n"

// TestTheKitchenAndItsPeopleAreToldInABrowser writes down pots, scales, oven and what
// someone does not like, and looks where that matters.
func TestTheKitchenAndItsPeopleAreToldInABrowser(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, _ := h.furnish()
	pasta := h.paste(base, trayPasta)
	b := newTab(t, h, screens()[1])
	b.open(base + "/people")
	b.do(chromedp.Click(chromedp.CSS("#ways > summary")))
	b.fill("pot_name_0", "blue pot")
	b.click(`form[action$="/people"] button`)
	assert.Contains(t, b.words(), "Write how much it holds")
	b.fill("pot_holds_0", "5")
	b.fill("pot_name_1", "pan")
	b.fill("pot_holds_1", "1")
	b.do(chromedp.Click(chromedp.CSS("[name=no_scales]")), chromedp.Click(chromedp.CSS("[name=no_oven]")))
	b.click(`form[action$="/people"] button`)
	b.open(base + "/people/2")
	b.fill("dislikes", "moonroot; mushrooms")
	b.click(".first-save button")
	assert.Contains(t, b.words(), "“moonroot” is not in the food table")
	b.fill("dislikes", "mushrooms")
	b.click(".first-save button")
	assert.Contains(t, b.words(), "does not like mushrooms")
	b.open(base + "/people/1")
	assert.Contains(t, b.words(), "sodium: at most 600 mg a meal, set by a clinician", "the person's own page says it in words")
	assert.Contains(t, b.words(), "What a usual portion means")

	b.open(pasta + "/cook")
	assert.Contains(t, b.words(), "This dish needs an oven, from step 2 on, and this kitchen has none.")
	assert.Regexp(t, `without scales: about \d.* cups`, b.words())
	b.open(pasta)
	assert.Contains(t, b.words(), "this kitchen has none")
	b.open(base + "/table?seated=1&m=2&dish=2")
	assert.Contains(t, b.words(), "this kitchen has none")
	assert.Contains(t, b.words(), "A matter of taste, does not like:")

	soup := h.paste(base, "Carrot broth\n\nServes 4\n\nIngredients\n6 cups chicken broth\n1 cup sliced carrots\n\nMethod\nSimmer the carrots in the broth for 20 minutes.\n")
	b.open(soup + "/portions")
	assert.Contains(t, b.words(), "Cook it in the blue pot, 5 quarts: there is room to stir.")
	assert.Contains(t, b.words(), "pan, 1 quart: too small; up to")
	assert.NotRegexp(t, `The pot makes about [\d,]+ g`, b.words(), "without scales it is told in cups")
	assert.NotContains(t, h.get(soup+"/cook").body, "oven")
}

func TestAPotThatCouldNotBeReadLosesNothing(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	r := h.post(base+"/people", "name", "Quay Lane", "pots_in", "l", "pot_name_0", "blue pot", "pot_holds_0", "a lot", "no_oven", "yes")
	assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode)
	assert.Contains(t, r.body, "“a lot” is not a number")
	assert.Contains(t, r.body, `value="blue pot"`)
	assert.Contains(t, r.body, `name="no_oven" value="yes" checked`)
	h.must(base+"/people", "name", "Quay Lane", "pots_in", "l", "pot_name_0", "blue pot", "pot_holds_0", "4.7")
	h.must(base+"/people", "name", "Quay Lane")
	assert.Contains(t, h.get(base+"/people").body, `value="blue pot"`, "a form without these fields leaves them")
}
