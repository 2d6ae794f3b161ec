package server_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

func TestASweepOfTheRecipesIsReachedFromThePeople(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	assert.Contains(t, h.get(base+"/people").body, base+"/sweep")
	for _, query := range []string{"", "?from=-3", "?from=x", "?from=999"} {
		r := h.get(base + "/sweep" + query)
		assert.Equal(t, http.StatusOK, r.StatusCode, query)
		assert.Contains(t, r.body, `href="`+dish+`"`, query)
		assert.True(t, strings.Contains(r.body, "Recipes 1 to 1 of 1."), query)
	}
}

// TestASearchForSwapsTellsHowFarItIsInABrowser looks at a page without scripts that
// brings itself up to date, stops the search and goes on with it.
func TestASearchForSwapsTellsHowFarItIsInABrowser(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, _ := h.furnish()
	for i := range 4 {
		h.paste(base, fmt.Sprintf("Bean broth %d\n\nServes 4\n\nIngredients\n1 onion\n%d cups chicken broth\n1/2 lb carrots\n\nMethod\nSimmer everything for 20 minutes.\n", i, i+2))
	}
	b := newTab(t, h, screens()[1])
	b.open(base + "/sweep")
	assert.Contains(t, b.words(), "Not yet for Ana.")
	b.click(`a[href$="/sweep?swaps=1"]`)
	b.wait(`document.body.innerText.includes("5 of 5 recipes looked at.")`)
	assert.Contains(t, b.words(), "suit with swaps.")
	assert.Contains(t, b.words(), "Suits everyone with")
	b.look()

	// Someone joins, so everything is looked at anew; stopping keeps what was found.
	h.must(base+"/people/new", "name", "Cleo", "avoid", "milk")
	h.must(base + "/sweep/stop")
	b.open(base + "/sweep?swaps=1")
	assert.Regexp(t, `\d of 5 recipes looked at\.`, b.words())
	h.must(base + "/sweep/stop")
	b.open(base + "/sweep?swaps=1&on=1")
	b.wait(`document.body.innerText.includes("5 of 5 recipes looked at.")`)
	b.do(chromedp.Reload())
	assert.NotContains(t, b.words(), "Stop looking")
}
