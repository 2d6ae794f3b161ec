package server_test

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
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

// TestEachDishHasItsOwnPortionsInABrowser serves two dishes, gives one person less of
// one, and reads what is left of the day.
func TestEachDishHasItsOwnPortionsInABrowser(t *testing.T) {
	needBrowser(t)
	h := newHouse(t)
	base, _ := h.furnish()
	soup := h.paste(base, "Carrot broth\n\nServes 4\n\nIngredients\n6 cups chicken broth\n1 cup sliced carrots\n\nMethod\nSimmer the carrots in the broth for 20 minutes.\n")
	bread := h.paste(base, "Toast\n\nServes 4\n\nIngredients\n8 slices white bread\n\nMethod\nToast the bread.\n")
	h.must(base+"/people/new", "name", "Cleo", "limit_nutrient_0", "sodium_mg", "limit_bound_0", "most", "limit_amount_0", "2300", "limit_per_0", "day", "limit_by_0", "guidance")
	id := func(link string) string { return strings.TrimPrefix(link, base+"/recipes/") }
	b := newTab(t, h, screens()[1])
	b.open(base + "/table?seated=1&m=1&m=3&dish=" + id(soup) + "&dish=" + id(bread))
	assert.Contains(t, b.words(), "The meal together")
	assert.Contains(t, b.words(), "What is left of the day")
	assert.Regexp(t, `of at most 2300 mg a day, from published guidance\. (Left:|Nothing is left)`, b.words())
	assert.Contains(t, b.words(), "Where it comes from")
	b.do(chromedp.Click(chromedp.CSS(".helpings summary")))
	b.fill(fmt.Sprintf("d%sp1", id(soup)), "0.5")
	b.fill(fmt.Sprintf("d%sp3", id(bread)), "0")
	b.click("main form button")
	assert.Contains(t, b.words(), "half a serving")
	words := b.words()
	toast, _, _ := strings.Cut(words[strings.LastIndex(words, "\nToast\n"):], "\nCarrot broth\n")
	assert.Contains(t, toast, "\nAna\n")
	assert.NotContains(t, toast, "\nCleo\n", "who takes none is not judged on it")
	r := h.get(base + "/table?seated=1&m=1&dish=" + id(soup) + "&dish=" + id(bread) + "&d" + id(soup) + "p1=lots")
	assert.Equal(t, http.StatusOK, r.StatusCode)
	assert.Contains(t, r.body, "A portion could not be read")
}
